"""Bringing up what was kept, and what is thought of it later."""
