"""Patterns: what may take part, asking, what was answered and what was decided of it."""
