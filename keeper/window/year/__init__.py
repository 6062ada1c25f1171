"""The page of a year."""
