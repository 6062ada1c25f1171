"""The sheet of readings: a month filled in like a ruled page."""
