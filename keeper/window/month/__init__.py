"""The page of a month."""
