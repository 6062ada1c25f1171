"""What is found besides lines."""
