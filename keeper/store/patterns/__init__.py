"""Patterns: what takes part, what the person decided, and what was found at the last asking."""
