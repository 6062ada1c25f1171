"""Other keepers: the list of those known, and moving one to another folder."""
