"""A picture of words, as plain data and as SVG."""
