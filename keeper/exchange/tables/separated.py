"""Separated values (RFC 4180), with any separator."""

import csv
from collections import Counter
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import TextIO

from keeper.exchange.tables.shape import How, Row, as_row

SEPARATORS = (",", ";", "\t", "|")

_LONGEST_LINE = 1_000_000
_LOOKED_AT = 60


def lines(file: TextIO) -> Iterator[str]:
    """The lines of an open file, their ends with them; one beyond all bounds comes in pieces. No NULs, no mark before all."""
    mark = "\ufeff"
    while line := file.readline(_LONGEST_LINE):
        yield (line.replace("\0", "") if "\0" in line else line).lstrip(mark)
        mark = ""


def rows(path: Path, how: How) -> Iterator[Row]:
    """The rows of a file, one at a time, blank ones left aside. Raises OSError."""
    with path.open(encoding=how.encoding or "utf-8", errors="replace", newline="") as file:
        yield from rows_of(lines(file), how.separator or ",")


def rows_of(source: Iterator[str], separator: str) -> Iterator[Row]:
    """The rows that lines make, each with the number of the line it begins on."""
    # Not strict: a quote astray in a person's file is a quote.
    reader, before = csv.reader(source, delimiter=separator), 0
    while True:
        try:
            cells = next(reader, None)
        except csv.Error:
            yield Row(before + 1, (), "has a cell longer than any line, perhaps a quote that is never closed")
            before = reader.line_num
            continue
        if cells is None:
            return
        if any(cells):
            yield as_row(before + 1, cells)
        before = reader.line_num


def separator_of(path: Path, encoding: str) -> tuple[str, bool]:
    """What most likely parts the cells; and whether there are cells at all, the same number in most rows. Raises OSError."""
    with path.open(encoding=encoding, errors="replace", newline="") as file:
        first = list(islice(lines(file), _LOOKED_AT))
    return max(((sign, *_agreement(first, sign)) for sign in SEPARATORS), key=lambda one: one[1:])[0], any(
        _agreement(first, sign) > (0.7, 1) for sign in SEPARATORS
    )


def _agreement(first: list[str], sign: str) -> tuple[float, int]:
    """In how many of the rows the most usual number of cells is found, and that number; (0, 1) where it is one."""
    found = Counter(len(row.cells) for row in islice(rows_of(iter(first), sign), _LOOKED_AT))
    if not found:
        return 0.0, 1
    # A file cut off within a quoted cell gives its last row another number.
    (cells, often), = found.most_common(1)
    return (often / found.total(), cells) if cells > 1 else (0.0, 1)
