"""Readings as month and year show them."""
