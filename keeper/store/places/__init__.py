"""Places as rows, what was merged into them, and the towns of the world."""
