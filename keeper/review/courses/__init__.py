"""Closer looks: around a mark, after a mark, changes of level, cycles."""
