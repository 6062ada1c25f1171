"""Readings: what a person types understood, and set beside one another."""
