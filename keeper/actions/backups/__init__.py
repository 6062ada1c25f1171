"""Backups: made unasked, listed, looked into, and brought back from."""

from keeper.actions.backups.listing import Backup, listed

__all__ = ["Backup", "listed"]
