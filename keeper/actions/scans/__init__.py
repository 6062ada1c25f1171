"""Pages of a notebook: brought, seen as they are to be read, and kept with their nights."""
