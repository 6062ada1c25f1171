"""Readings: what a person types understood, set beside one another, and the sums over them."""
