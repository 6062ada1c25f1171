"""Pages to print, and a month, a year, a theme, a place or a person to send."""
