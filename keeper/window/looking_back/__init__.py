"""The page of what a date held in other years."""
