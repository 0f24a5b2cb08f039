"""What leaves the desk, made from a finished estimate."""
