"""Giving everything out in open formats, and taking it in again, on the command line."""
