"""Pages to print: gathered from the keeper, set, put upon sheets; and the month of a page that was scanned."""
