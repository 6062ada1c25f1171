"""What was brought up, and what could be."""
