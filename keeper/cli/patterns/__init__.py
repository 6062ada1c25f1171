"""Patterns on the command line."""
