"""What is brought up beside the date."""
