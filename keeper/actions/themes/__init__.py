"""Themes: looking for them, placing lines, deciding, taking back."""
