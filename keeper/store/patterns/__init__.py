"""What was decided of what goes with what."""
