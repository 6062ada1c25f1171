"""The page of people: all who are marked, and a page for each."""
