"""The page of a night."""
