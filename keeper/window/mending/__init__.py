"""The page of a broken keeper."""
