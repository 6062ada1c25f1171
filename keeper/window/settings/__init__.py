"""The page of settings."""
