"""Spreadsheets of the kind .ods (ISO/IEC 26300), by python-calamine, once it is known how large they are."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any
from xml.parsers import expat
from zipfile import BadZipFile, ZipFile

from keeper.errors import UnreadableFile, shown_name
from keeper.exchange.tables.packed import look_over
from keeper.exchange.tables.shape import MOST_COLUMNS, How, Row, as_row
from keeper.exchange.tables.workbook import as_text

MOST_CELLS = 4_000_000
"""A few bytes may ask for cells without end ("repeated"), and the library would make them all."""

_PART, _AT_ONCE = "content.xml", 1 << 18


def sheets(path: Path) -> tuple[str, ...]:
    """The names of its sheets. Raises UnreadableFile, OSError."""
    return tuple(_opened(path).sheet_names)


def rows(path: Path, how: How) -> Iterator[Row]:
    """The rows of a sheet, blank ones left aside. Raises UnreadableFile, OSError."""
    book = _opened(path)
    name = how.sheet if how.sheet in book.sheet_names else book.sheet_names[0]
    for number, row in enumerate(_asked(path, lambda: book.get_sheet_by_name(name).to_python(skip_empty_area=False)), 1):
        told = [as_text(cell) for cell in row[:MOST_COLUMNS]]
        if any(told):
            yield as_row(number, told)


def _opened(path: Path) -> Any:
    if _PART not in look_over(path):
        raise UnreadableFile(f"{shown_name(path)} is not a spreadsheet of the kind .ods.")
    if _cells(path) > MOST_CELLS:
        raise UnreadableFile(f"{shown_name(path)} asks for far more cells than a person fills. It was not read.")
    from python_calamine import CalamineWorkbook

    book = _asked(path, lambda: CalamineWorkbook.from_path(str(path)))
    if not book.sheet_names:
        raise UnreadableFile(f"{shown_name(path)} has no sheet with cells.")
    return book


def _asked(path: Path, what: Callable[[], Any]) -> Any:
    try:
        return what()
    except BaseException as error:
        # The library is no Python: when it gives up altogether, that is no Exception.
        if isinstance(error, KeyboardInterrupt | SystemExit):
            raise
        raise _broken(path) from error


class _Extent:
    """How many cells the sheets would have, all repetitions done."""

    def __init__(self) -> None:
        self.cells = self._rows = self._blank = self._widest = self._wide = self._up_to = 0
        self._repeated = 1

    def begin(self, name: str, given: dict[str, str]) -> None:
        if name.endswith(":table"):
            self._rows = self._blank = self._widest = 0
        elif name.endswith(":table-row"):
            self._wide = self._up_to = 0
            self._repeated = _number(given.get("table:number-rows-repeated"))
        elif name.endswith("table-cell"):
            self._wide += _number(given.get("table:number-columns-repeated"))
            if any(one.startswith(("office:", "calcext:", "table:formula")) for one in given):
                self._up_to = self._wide
        elif name.startswith("text:"):
            self._up_to = self._wide

    def end(self, name: str) -> None:
        if name.endswith(":table-row"):
            # The million blank rows that fill up the end of a sheet count only where something comes after them.
            if not self._up_to:
                self._blank += self._repeated
                return
            self._rows += self._blank + self._repeated
            self._blank, self._widest = 0, max(self._widest, self._up_to)
            self.cells = max(self.cells, self._rows * max(self._widest, 1))


def _cells(path: Path) -> int:
    extent, parser = _Extent(), expat.ParserCreate()
    parser.StartElementHandler, parser.EndElementHandler = extent.begin, extent.end
    try:
        with ZipFile(path) as packed, packed.open(_PART) as part:
            while (piece := part.read(_AT_ONCE)) and extent.cells <= MOST_CELLS:
                parser.Parse(piece, False)
    except (expat.ExpatError, BadZipFile, ValueError, EOFError, RuntimeError, NotImplementedError) as error:
        raise _broken(path) from error
    return extent.cells


def _number(told: str | None) -> int:
    return int(told) if told and told.isdecimal() and len(told) < 12 else 1 if told is None else 1 << 40


def _broken(path: Path) -> UnreadableFile:
    return UnreadableFile(f"{shown_name(path)} is broken: it is not a spreadsheet that can be read.")
