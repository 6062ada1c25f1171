"""Closer looks on the command line: around a mark, after a mark, changes of level."""
