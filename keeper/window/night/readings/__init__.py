"""The readings of the night, below its lines: a quiet row of strips."""
