"""A keeper that is broken, or was: found out, opened all the same, and what was typed meanwhile."""
