"""Tables as comma-separated values: RFC 4180, in UTF-8, each row ended by CR LF.

A cell of words that a spreadsheet would take for a formula has an apostrophe
before it, by which spreadsheets know text.
"""

import csv
from collections.abc import Iterable, Sequence
from io import StringIO
from typing import Protocol

_FORMULA = frozenset("=+-@\t\r\uff1d\uff0b\uff0d\uff20")
"""How formulas begin; the wide signs are taken for the same by some."""

Cell = str | int | float | bool | None


class Out(Protocol):
    """What takes text."""

    def write(self, text: str, /) -> object:
        """Take this much."""


class Cells:
    """A table under way: its names first, then row by row. None is an empty cell, truth is yes or no."""

    def __init__(self, out: Out, names: Iterable[str]) -> None:
        # A hundred thousand rows would else be handed on one by one.
        self._out, self._some = out, StringIO(newline="")
        self._writer = csv.writer(self._some, lineterminator="\r\n")
        self.row(*names)

    def row(self, *cells: Cell) -> None:
        """One row."""
        self.told_rows((told(cells),))

    def rows(self, rows: Iterable[Sequence[Cell]]) -> None:
        """Some rows."""
        self.told_rows(map(told, rows))

    def told_rows(self, rows: Iterable[Sequence[Cell]]) -> None:
        """Some rows of which every cell is as it is written."""
        self._out.write(self.spelt(rows))

    def spelt(self, rows: Iterable[Sequence[Cell]]) -> str:
        """The text of such rows, which is not written yet."""
        self._writer.writerows(rows)
        text = self._some.getvalue()
        self._some.seek(0)
        self._some.truncate()
        return text

    def text(self, rows: str) -> None:
        """Rows that are spelt."""
        self._out.write(rows)


def told(cells: Sequence[Cell]) -> list[Cell]:
    """Cells as they are written."""
    # In one place: some millions of cells would else be as many calls.
    return [
        (f"'{one}" if one[:1] in _FORMULA else one) if one.__class__ is str
        else ("yes" if one else "no") if one.__class__ is bool else one
        for one in cells
    ]  # fmt: skip
