"""Dates: how a person types them, and how they and numbers are written where that person lives."""
