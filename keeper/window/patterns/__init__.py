"""The page of patterns: what goes with what, asked, and further pages that look closer."""
