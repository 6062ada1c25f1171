"""Handed to every page: the open keeper, the lanes, the look."""
