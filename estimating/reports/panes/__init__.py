"""What is shown beside the form."""
