"""Later words under a line: shown with it, and written."""
