"""Rows of files that people have, as the program reads them."""

from datetime import date
from pathlib import Path

from keeper.dates.in_files import DatesInFile
from keeper.exchange import odd_files
from keeper.exchange.tables.shape import How, Row

TONIGHT = date(2026, 11, 14)


def read(path: Path, how: How | None = None) -> tuple[How, tuple[str, ...], list[Row]]:
    """How a file was taken to be written, its columns, and all its rows."""
    how = how or odd_files.guess(path)
    dates = DatesInFile(how.order, TONIGHT)
    return how, odd_files.columns(path, how), list(odd_files.rows(path, how, dates))


def cells(path: Path, how: How | None = None) -> list[tuple[str, ...]]:
    """The cells of all rows that could be read."""
    return [row.cells for row in read(path, how)[2] if row.cells]
