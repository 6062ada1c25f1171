"""Turning the month."""
