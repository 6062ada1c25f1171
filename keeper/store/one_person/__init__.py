"""What is kept of one person besides the name."""
