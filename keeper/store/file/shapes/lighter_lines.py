"""Lines that are kept with less work."""

LIGHTER_LINES = (
    # The nights of one day in all years are few and known; an index of them had to be kept with every line.
    "DROP INDEX line_day",
)
