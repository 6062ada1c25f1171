"""A part of a table as spreadsheets put it on the clipboard, and back.

Cells are parted by tabs and rows by line ends; a cell with one of these, or
with a quotation mark at its beginning, is quoted as in RFC 4180, 2.5 to 2.7.
"""

import csv
from collections.abc import Iterable, Sequence
from io import StringIO

Table = tuple[tuple[str, ...], ...]
"""Rows of cells."""


def read_table(text: str) -> Table:
    """The cells of what was pasted, row by row; none for an empty text.

    Words that merely begin with a quotation mark are words.
    """
    plain = text.replace("\r\n", "\n").replace("\r", "\n").removesuffix("\n")
    if not plain:
        return ()
    return _quoted(plain) or tuple(tuple(row.split("\t")) for row in plain.split("\n"))


def _quoted(text: str) -> Table:
    if '"' not in text:
        return ()
    try:
        rows = list(csv.reader(StringIO(text, newline=""), "excel-tab", strict=True))
    except csv.Error:
        # An open quotation, or words after the closing one: not quoted by a spreadsheet.
        return ()
    # An empty row is no row to the library, and a row of one empty cell to a spreadsheet.
    return tuple(tuple(row) or ("",) for row in rows)


def write_table(table: Iterable[Sequence[str]]) -> str:
    """The cells as a spreadsheet takes them from the clipboard."""
    out = StringIO(newline="")
    csv.writer(out, "excel-tab", lineterminator="\n").writerows([list(row) for row in table])
    return out.getvalue().removesuffix("\n")
