"""A folder of texts, and the date that a file's name tells."""

import os
import re
from collections.abc import Iterator
from pathlib import Path

from keeper.dates.in_files import DatesInFile
from keeper.exchange.tables.encoding import encoding_of
from keeper.exchange.tables.separated import lines
from keeper.exchange.tables.shape import Row
from keeper.exchange.texts.dated import DatedText

ENDINGS = (".txt", ".md", ".markdown", ".text")

LARGEST = 20_000_000
"""Bytes of a text."""

_MOST = 200_000
_IN_NAME = re.compile(r"(?<!\d)(\d{4})[-_. ]?(\d\d)[-_. ]?(\d\d)(?!\d)")
_MONTH_IN_NAME = re.compile(r"(?<!\d)(\d{4})[-_. ](\d\d)(?!\d)")
_YEAR_IN_NAME = re.compile(r"(?<!\d)(1[89]\d\d|20\d\d)(?!\d)")


def texts(folder: Path) -> Iterator[Path]:
    """The texts in a folder and the folders in it, in the order of their names; links are not followed."""
    found = 0
    for where, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(files):
            path = Path(where, name)
            if name.lower().endswith(ENDINGS) and not name.startswith(".") and not path.is_symlink():
                found += 1
                if found > _MOST:
                    return
                yield path


def rows(folder: Path, dates: DatesInFile) -> Iterator[Row]:
    """The rows of all texts of a folder, each with the file's name."""
    for path in texts(folder):
        yield from rows_of(path, dates, os.path.relpath(path, folder))


def rows_of(path: Path, dates: DatesInFile, called: str = "", encoding: str = "") -> Iterator[Row]:
    """The rows of one text: what stands before any date in it belongs to the date in its name. ``called`` is put with each."""
    yield from rows_with(path, by_name(path.name, dates, called), encoding)


def rows_with(path: Path, reading: DatedText, encoding: str = "") -> Iterator[Row]:
    """The rows of one text by a reader that knows what its name tells; a file that cannot be read is a row of trouble."""
    called = reading.file
    try:
        if path.stat().st_size > LARGEST:
            yield Row(1, (), "is larger than a text that a person writes", called)
            return
        with path.open(encoding=encoding or encoding_of(path), errors="replace", newline="") as file:
            yield from reading.rows(lines(file))
    except OSError as error:
        yield Row(1, (), f"cannot be read: {(error.strerror or str(error)).lower()}", called)


def by_name(name: str, dates: DatesInFile, called: str = "") -> DatedText:
    """A reader for a text of this name, with what the name tells: a day, a month or a year."""
    stem = os.path.splitext(name)[0]
    if (found := _IN_NAME.search(stem)) and (night := dates.night("-".join(found.groups()))):
        return DatedText(dates, night, night.year, file=called)
    spelt = " ".join(re.split(r"[_\s]+", stem))
    if span := dates.span(spelt):
        alone = span[0] == span[1]
        month = span[0].month if span[0].month == span[1].month else None
        return DatedText(dates, span[0] if alone else None, span[0].year, None if alone else month, called)
    if night := dates.night(spelt):
        return DatedText(dates, night, night.year, file=called)
    if (found := _MONTH_IN_NAME.search(stem)) and 1 <= int(found[2]) <= 12:
        return DatedText(dates, None, int(found[1]), int(found[2]), called)
    found = _YEAR_IN_NAME.search(stem)
    return DatedText(dates, None, int(found[1]) if found else None, file=called)
