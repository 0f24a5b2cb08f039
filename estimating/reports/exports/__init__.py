"""What leaves for other programs, and plain text."""
