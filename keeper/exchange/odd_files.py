"""Files that people have: which kind one is, how it is written, and its rows. Nothing is written."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from pathlib import Path

from keeper.dates.in_files import DatesInFile, order_of
from keeper.errors import UnreadableFile, shown_name
from keeper.exchange.tables import json_list, open_sheet, separated, workbook
from keeper.exchange.tables.encoding import encoding_of
from keeper.exchange.tables.shape import How, Row
from keeper.exchange.texts import calendar, dated, folder

_BY_ENDING = {
    ".csv": "table", ".tsv": "table", ".tab": "table", ".xlsx": "xlsx", ".xlsm": "xlsx", ".ods": "ods", ".json": "list",
    ".ics": "calendar", ".ical": "calendar", ".txt": "text", ".md": "text", ".markdown": "text", ".text": "text",
}  # fmt: skip

ENDINGS = tuple(_BY_ENDING)
"""How the names of files end that can be read in."""

LOOKED_AT = 2000
"""So many rows tell how dates and numbers are spelt."""

_PACKED = b"PK\x03\x04"


def guess(path: Path, order: str = "dmy", decimal: str = ".") -> How:
    """How a file is written, as far as its beginning tells; ``order`` and ``decimal`` are usual where nothing does.

    Raises UnreadableFile with what is wrong with it.
    """
    with _readable(path):
        form = _form(path)
        if form == "folder":
            return How(form, headed=False, order=_order_of_texts(path, order), decimal=decimal)
        if form in ("xlsx", "ods"):
            names = (workbook if form == "xlsx" else open_sheet).sheets(path)
            return How(form, sheet=names[0], sheets=names, order=order, decimal=decimal)
        encoding = encoding_of(path)
        separator, parted = separated.separator_of(path, encoding) if form in ("table", "text", "") else ("", False)
        if not form:
            form = "table" if parted else "text"
        if form == "table":
            return How(form, encoding, separator, order=order, decimal=decimal)
        return How(form, encoding, headed=False, order=_order_of_texts(path, order) if form == "text" else order, decimal=decimal)


def _form(path: Path) -> str:
    if path.is_dir():
        return "folder"
    if not path.is_file():
        raise UnreadableFile(f"{shown_name(path)} is not there, or is not a file.")
    with path.open("rb") as file:
        first = file.read(4096)
    if not first.strip(b"\0 \t\r\n"):
        raise UnreadableFile(f"{shown_name(path)} is empty.")
    if first.startswith(_PACKED):
        return "ods" if b"opendocument.spreadsheet" in first or path.suffix.lower() == ".ods" else "xlsx"
    plain = first.replace(b"\0", b"").lstrip(b"\xef\xbb\xbf\xff\xfe \t\r\n")
    if plain[:15].upper() == b"BEGIN:VCALENDAR":
        return "calendar"
    ending = _BY_ENDING.get(path.suffix.lower(), "")
    if ending in ("xlsx", "ods"):
        raise UnreadableFile(f"{shown_name(path)} is called a spreadsheet, but is something else.")
    if plain[:1] in (b"[", b"{") and ending in ("", "list"):
        return "list"
    return ending


def _order_of_texts(path: Path, usual: str) -> str:
    spelt: list[str] = []
    for file in islice(folder.texts(path), 50) if path.is_dir() else (path,):
        with file.open(encoding=encoding_of(file), errors="replace", newline="") as opened:
            for line in islice(separated.lines(opened), LOOKED_AT):
                if found := dated.IN_FIGURES.match(line.lstrip("#*-_[( >\t")):
                    spelt.append(found[1])
    return order_of(spelt, usual)[0]


def columns(path: Path, how: How) -> tuple[str, ...]:
    """The names of the columns; "column 1" and so on where none are given. Raises UnreadableFile."""
    with _readable(path):
        if how.form in ("text", "folder"):
            return dated.COLUMNS
        if how.form == "calendar":
            return calendar.COLUMNS
        if how.form == "list":
            return json_list.names(path, how)
        first = list(islice((row for row in _all_rows(path, how, None) if row.cells), LOOKED_AT))
        wide = max((len(row.cells) for row in first), default=0)
        named = first[0].cells if how.headed and first else ()
        return tuple(" ".join(named[at].split())[:60] if at < len(named) and named[at] else f"column {at + 1}" for at in range(wide))


def rows(path: Path, how: How, dates: DatesInFile) -> Iterator[Row]:
    """The rows of a file, one at a time, without the names of the columns. Raises UnreadableFile, at any of them."""
    with _readable(path):
        source = _all_rows(path, how, dates)
        if how.headed and how.form in ("table", "xlsx", "ods"):
            next((row for row in source if row.cells), None)
        yield from source


def _all_rows(path: Path, how: How, dates: DatesInFile | None) -> Iterator[Row]:
    if how.form == "folder":
        return folder.rows(path, dates)
    if how.form == "text":
        return folder.rows_of(path, dates, encoding=how.encoding)
    if how.form == "calendar":
        return _calendar(path, how)
    reader = {"table": separated, "xlsx": workbook, "ods": open_sheet, "list": json_list}[how.form]
    return reader.rows(path, how)


def _calendar(path: Path, how: How) -> Iterator[Row]:
    with path.open(encoding=how.encoding, errors="replace", newline="") as file:
        yield from calendar.rows(separated.lines(file))


def with_header(how: How, names: tuple[str, ...], dates: DatesInFile) -> How:
    """The same, where the first row was taken for names and has a date or a number in it: then it is none."""
    if how.form in ("table", "xlsx", "ods") and any(dates.night(name) or name.replace(",", ".").replace(".", "").isdecimal() for name in names):
        return replace(how, headed=False)
    return how


class _readable:
    """Whatever the system says of a file becomes a sentence."""

    def __init__(self, path: Path) -> None:
        self._path = path

    def __enter__(self) -> None:
        pass

    def __exit__(self, kind: type | None, error: BaseException | None, trace: object) -> None:
        if isinstance(error, LookupError | UnicodeError | ValueError) and not isinstance(error, KeyError | IndexError):
            raise UnreadableFile(f"{shown_name(self._path)} cannot be read as it is written.") from error
        if isinstance(error, OSError):
            told = (error.strerror or str(error)).lower()
            raise UnreadableFile(f"{shown_name(self._path)} cannot be read: {told}.") from error
