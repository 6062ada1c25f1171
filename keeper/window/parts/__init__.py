"""What two rooms show."""
