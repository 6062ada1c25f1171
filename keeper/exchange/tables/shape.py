"""What every reader gives: rows of cells with the number of their line, and how the file was taken to be written."""

from dataclasses import dataclass

MOST_COLUMNS = 200
"""So many columns of a row are read; what lies beyond is no table that a person keeps."""

LONGEST_CELL = 100_000
"""So many characters of a cell are read."""

FORMS = ("table", "xlsx", "ods", "list", "text", "calendar", "folder")
"""What a file can be: separated values, two kinds of spreadsheet, a JSON list, a text, an iCalendar, a folder of texts."""

_UNITS = {"table": "line", "text": "line", "calendar": "line", "xlsx": "row", "ods": "row", "list": "entry", "folder": "file"}


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its cells as text, and where it stands.

    ``number`` counts from 1: the line of the file it begins on, or the row of
    the sheet. ``file`` is the name of a file within a folder. ``trouble`` says
    why it could not be read, as the end of a sentence; then it has no cells.
    """

    number: int
    cells: tuple[str, ...]
    trouble: str = ""
    file: str = ""


@dataclass(frozen=True, slots=True)
class How:
    """How a file is written, guessed or said by the person.

    ``form`` is one of FORMS; ``encoding`` Python's name of it; ``separator``
    what parts the cells; ``headed`` whether the first row names the columns;
    ``sheet`` the sheet of a spreadsheet; ``order`` that of dates in numbers
    ("dmy", "mdy" or "ymd"); ``decimal`` the sign before decimals.
    """

    form: str
    encoding: str = ""
    separator: str = ""
    headed: bool = True
    sheet: str = ""
    sheets: tuple[str, ...] = ()
    order: str = "dmy"
    decimal: str = "."

    @property
    def unit(self) -> str:
        """What its rows are called."""
        return _UNITS[self.form]


def as_row(number: int, cells: list[str], file: str = "") -> Row:
    """A row from cells as they were read, within bounds; control codes become spaces, halves of characters a mark."""
    told = [plain(cell) for cell in cells[:MOST_COLUMNS]]
    while told and not told[-1]:
        told.pop()
    return Row(number, tuple(told), file=file)


def plain(cell: str) -> str:
    """A cell that can be kept: as it is, where it is text; bounded, and without NULs, control codes and halves of characters."""
    if len(cell) > LONGEST_CELL:
        cell = cell[:LONGEST_CELL]
    if cell.isprintable():
        return cell.strip()
    cell = cell.replace("\r\n", "\n").replace("\r", "\n").encode("utf-8", "replace").decode("utf-8")
    return "".join(one if one in "\n\t" or ord(one) > 159 or 31 < ord(one) < 127 else " " for one in cell).strip()
