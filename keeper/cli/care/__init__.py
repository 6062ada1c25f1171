"""Commands that take care of the keeper itself: what was done, backups, mending, where it lies."""
