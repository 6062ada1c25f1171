"""The languages that a person writes in: which a line is in, and what a shipped table says of its words."""
