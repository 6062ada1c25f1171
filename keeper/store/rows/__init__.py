"""A keeper's tables row by row, in a form that lasts: given out, and taken in where others may be already."""
