"""Keeper of Days: one line before bed, and all the looking back."""

__version__ = "0.1.0"
