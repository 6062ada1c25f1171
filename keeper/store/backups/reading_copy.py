"""The copy of the words that needs no program: one text file for each year, and a README.

Markdown in UTF-8 (CommonMark). Every row of the person's words begins with
"> ", no other row does, so that whatever they wrote can be told from what
stands round it. In its dates it follows nobody's system: a stranger is to
read them.
"""

import os
from collections.abc import Callable, Iterable, Iterator
from datetime import date
from pathlib import Path

from keeper import private
from keeper.dates.written import MONTHS
from keeper.days import last_of_month
from keeper.errors import Stopped
from keeper.model import Night, Photo, Place, Tracker
from keeper.quoted import of_a_later_word, of_a_month, of_an_answer, quoted, spelt
from keeper.store import lines, month_pages, nights, trackers, year_pages
from keeper.store.file.folder import PHOTOS
from keeper.store.file.opening import Store
from keeper.store.moments import day
from keeper.store.photos.files import relative_file
from keeper.store.photos.known import COLUMNS, photo_from

README = "README.md"


def write(store: Store, folder: Path, made_on: date, stopped: Callable[[], bool] = lambda: False) -> None:
    """Write the words of a keeper into a folder, each file forced to the disk. Raises OSError, Stopped."""
    for year in _years(store):
        if stopped():
            raise Stopped
        _put(folder / f"{year:04d}.md", _year(store, year))
    _put(folder / README, [_readme(store, made_on)])


def _put(file: Path, rows: Iterable[str]) -> None:
    with open(file, "x", encoding="utf-8", errors="replace", newline="\n", opener=private.opener) as out:
        out.writelines(f"{row}\n" for row in rows)
        out.flush()
        os.fsync(out.fileno())


def _readme(store: Store, made_on: date) -> str:
    ends = lines.span(store)
    span = f", from {spelt(ends[0])} to {spelt(ends[1])}" if ends else ""
    return (
        f"These are the words of a diary kept night by night{span}, copied on {spelt(made_on)}: a file of plain text for each "
        "year, in which each night stands under its date and the place where it was spent, and rows that begin with \u201c>\u201d "
        "are the words of whoever kept it. "
        "All else that was kept is in keeper.db, a database in the open format SQLite 3, and the photos lie in the folder "
        "photos beside this one, where each file is named by its SHA-256."
    )


def _years(store: Store) -> list[int]:
    rows = store.rows(
        "SELECT DISTINCT CAST(substr(date, 1, 4) AS INTEGER) FROM night "
        "UNION SELECT CAST(substr(month, 1, 4) AS INTEGER) FROM month_page UNION SELECT year FROM year_page ORDER BY 1"
    )
    return [year for (year,) in rows]


def _year(store: Store, year: int) -> Iterator[str]:
    yield f"# {year}"
    for answer in year_pages.one(store, year).answers:
        yield from of_an_answer(answer)
    known = {one.id: one for one in trackers.every(store)}
    for month in range(1, 13):
        yield from _month(store, date(year, month, 1), known)


def _month(store: Store, first: date, known: dict[str, Tracker]) -> Iterator[str]:
    last = last_of_month(first)
    rows = store.rows("SELECT date FROM night WHERE date BETWEEN ? AND ? ORDER BY date", (first.isoformat(), last.isoformat()))
    told = list(of_a_month(month_pages.one(store, first)))
    if rows or told:
        yield from ("", f"## {MONTHS[first.month - 1]} {first.year}", *told)
    wanted = store.made(lambda row: day(row[0]), rows)
    pictures, readings = _photos(store, first, last), _readings(store, first, last, known)
    for night in nights.some(store, wanted):
        yield from _night(night, pictures.get(night.date, []), readings.get(night.date, []))


def _night(night: Night, pictures: list[Photo], readings: list[str]) -> Iterator[str]:
    yield from ("", f"### {spelt(night.date)}{_where(night.place)}")
    for line in night.lines:
        yield from ("", f"{line.kind_title}:", "", *quoted(line.text))
        for word in line.later:
            yield from of_a_later_word(word)
    if readings:
        yield from ("", f"Noted: {'; '.join(readings)}.")
    for photo in pictures:
        caption = ("", *quoted(photo.caption)) if photo.caption else ()
        yield from ("", f"Photo: {PHOTOS}/{relative_file(photo.sha256, photo.ending).as_posix()}", *caption)


def _where(place: Place | None) -> str:
    if place is None:
        return ""
    return f", {_in_a_row(', '.join(part for part in (place.name, place.country) if part))}"


def _in_a_row(words: str) -> str:
    return " ".join(words.split())


def _photos(store: Store, first: date, last: date) -> dict[date, list[Photo]]:
    rows = store.rows(
        f"SELECT night, {COLUMNS} FROM night_photo JOIN photo ON photo.id = photo_id WHERE night BETWEEN ? AND ? "
        "ORDER BY night, position",
        (first.isoformat(), last.isoformat()),
    )
    found: dict[date, list[Photo]] = {}
    for night, photo in store.made(lambda row: (day(row[0]), photo_from(row[1:])), rows):
        found.setdefault(night, []).append(photo)
    return found


def _readings(store: Store, first: date, last: date, known: dict[str, Tracker]) -> dict[date, list[str]]:
    found: dict[date, list[str]] = {}
    for one in trackers.readings(store, first, last):
        if one.tracker_id in known:
            found.setdefault(one.night, []).append(_reading(known[one.tracker_id], one.value))
    return found


def _reading(tracker: Tracker, value: float) -> str:
    if tracker.form == "mark":
        return f"{_in_a_row(tracker.name)}, {'yes' if value else 'no'}"
    unit = tracker.unit or ("hours" if tracker.form == "hours" else "")
    return f"{_in_a_row(tracker.name)} {value:g}{f' {_in_a_row(unit)}' if unit else ''}"
