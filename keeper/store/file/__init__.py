"""A keeper's file and folder: begun, opened, brought up to date, cleared."""
