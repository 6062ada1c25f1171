"""Photos: the night's row, the full view, how they come in."""
