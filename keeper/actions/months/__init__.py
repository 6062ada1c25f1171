"""Months: what a page shows and what the person decides of it."""
