"""A month, a year, a theme, a place or a person as a page to send."""
