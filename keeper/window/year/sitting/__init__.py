"""The sitting with a year."""
