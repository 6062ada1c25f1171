"""Spreadsheets of the kind .xlsx (ISO/IEC 29500), by openpyxl, a row at a time."""

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

from keeper.errors import UnreadableFile, shown_name
from keeper.exchange.tables.packed import look_over
from keeper.exchange.tables.shape import MOST_COLUMNS, How, Row, as_row

_MOST_BLANK = 2000
"""After so many rows without a cell nothing follows."""


def sheets(path: Path) -> tuple[str, ...]:
    """The names of its sheets, those that can be seen. Raises UnreadableFile, OSError."""
    with _opened(path) as book:
        seen = [sheet for sheet in book.worksheets if sheet.sheet_state == "visible"]
        return tuple(sheet.title for sheet in seen or book.worksheets)


def rows(path: Path, how: How) -> Iterator[Row]:
    """The rows of a sheet, blank ones left aside. A formula counts as what it came to. Raises UnreadableFile, OSError."""
    with _opened(path) as book:
        sheet = book[how.sheet] if how.sheet in book.sheetnames else book.worksheets[0]
        # What a sheet says of its own size need not be true.
        sheet.reset_dimensions()
        blank = 0
        for number, cells in enumerate(sheet.iter_rows(values_only=True, max_col=MOST_COLUMNS), 1):
            told = [as_text(cell) for cell in cells]
            blank = 0 if any(told) else blank + 1
            if blank > _MOST_BLANK:
                return
            if not blank:
                yield as_row(number, told)


@contextmanager
def _opened(path: Path) -> Iterator[Any]:
    if "xl/workbook.xml" not in look_over(path):
        raise UnreadableFile(f"{shown_name(path)} is not a spreadsheet of the kind .xlsx.")
    import openpyxl

    book = None
    # One that is broken it would leave open.
    file = path.open("rb")
    try:
        with warnings.catch_warnings():
            # Of styles and other things that are not looked at.
            warnings.simplefilter("ignore")
            book = openpyxl.load_workbook(file, read_only=True, data_only=True, keep_links=False)
            if not book.worksheets:
                raise UnreadableFile(f"{shown_name(path)} has no sheet with cells.")
            yield book
    except (UnreadableFile, OSError, GeneratorExit):
        raise
    except Exception as error:
        # Whatever a library makes of bytes that are no spreadsheet.
        raise UnreadableFile(f"{shown_name(path)} is broken: it is not a spreadsheet that can be read.") from error
    finally:
        if book is not None:
            book.close()
        file.close()


def as_text(cell: object) -> str:
    """A cell's value as a person would type it: dates as ISO 8601, lengths of time as 7:30, numbers as short as can be."""
    if cell is None or isinstance(cell, str):
        return cell or ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, datetime):
        return cell.date().isoformat() if cell.time() == time() else cell.isoformat(" ", "seconds")
    if isinstance(cell, date):
        return cell.isoformat()
    if isinstance(cell, time):
        return f"{cell:%H:%M}"
    if isinstance(cell, timedelta):
        minutes = round(cell.total_seconds() / 60)
        return f"{minutes // 60}:{minutes % 60:02d}"
    return str(int(cell)) if isinstance(cell, float) and cell.is_integer() and abs(cell) < 1e15 else str(cell)
