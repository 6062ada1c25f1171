"""The page on which something is tried, in blocks drawn by lot."""
