"""The page that finds."""
