"""What is handed over on paper."""
