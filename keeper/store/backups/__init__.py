"""Backups: whole copies of a keeper with a copy of its words that needs no program, and bringing back from them."""
