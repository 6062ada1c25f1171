"""Readings: what is noted each night, of which trackers, and how it is told."""
