"""A page for a clinician: gathered, set, and the same as a table."""
