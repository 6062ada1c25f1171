"""Lately: what was done, and what can be had back."""
