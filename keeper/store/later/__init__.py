"""Later words under old lines."""
