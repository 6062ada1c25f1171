"""The words that tell whoever finds an archive, perhaps in fifty years, what it is."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from keeper.quoted import spelt

_PARTS = {
    "database": (
        "data/database/keeper.db is all of it in one file: a database in the open format SQLite 3 (sqlite.org). A keeper is a "
        "folder with this file and a folder named photos; the program that made it opens such a folder."
    ),
    "text": (
        "data/text/ holds one file of plain text for each year, in Markdown and UTF-8. Each night stands under its date and the "
        "place where it was spent, and rows that begin with \u201c>\u201d are the words of whoever kept it. To read, begin here."
    ),
    "tables": (
        "data/tables/ holds tables for a spreadsheet, with commas between the cells (RFC 4180, UTF-8): lines, readings, places, "
        "goals, months, people and their days to remember, themes and what was decided about them, photos, earlier wordings, later "
        "words. The first row names the columns. Where words begin like a formula (with =, +, -, @ or the like), an apostrophe was put before them."
    ),
    "json": (
        "data/json/keeper.json holds every row of every table in JSON (RFC 8259), for programs; keeper.schema.json beside it "
        "says what each table and column is (JSON Schema 2020-12). From this file the program takes everything in again."
    ),
    "calendar": (
        "data/calendar/lines.ics holds the lines as entries of a journal (VJOURNAL of iCalendar, RFC 5545), for programs that "
        "show calendars."
    ),
    "globe": (
        "data/globe/where.geojson holds the stays and the journeys between them as points and lines on the globe (GeoJSON, "
        "RFC 7946; degrees of WGS 84, longitude first), for programs that show maps. The same is in data/globe/where.gpx "
        "(GPX 1.1) and data/globe/where.kml (KML 2.2)."
    ),
    "photos": (
        "data/photos/ holds the photos, in a folder for each year; the name of a file begins with the night it belongs to. "
        "{captions} Where pages of a notebook were kept as pictures they lie in data/notebook/."
    ),
}


_CAPTIONS = {"text": "in the texts", "tables": "in data/tables/photos.csv", "json": "in data/json/keeper.json", "database": "in the database"}

_WORDS = frozenset(["database", "text", "tables", "json", "calendar"])
"""Parts with the lines; all but the calendar have what was noted, too."""


@dataclass(frozen=True, slots=True)
class ReadmeFacts:
    """What an archive is told to be: its parts, when it was made, what it spans, and sentences on what is not in it."""

    parts: frozenset[str]
    made_on: date
    version: str
    nights: int
    lines: int
    photos: int
    first: date | None
    last: date | None
    held_back: tuple[str, ...] = ()


def readme(told: ReadmeFacts) -> str:
    """The text of the README, in Markdown."""
    return "".join(f"{row}\n" for row in _rows(told))


def _rows(told: ReadmeFacts) -> Iterable[str]:
    span = f" from {spelt(told.first)} to {spelt(told.last)}" if told.first and told.last else ""
    yield from (
        "# A diary, kept night by night", "",
        f"In this folder is what somebody kept of {told.nights} nights{span}: {_holds(told)}. It was written out on {spelt(told.made_on)} by a program "
        f"named Keeper of Days ({told.version}). No program of that name is needed to read it; everything is in formats that "
        "anybody may read. It was written for one person. Whoever finds it, please treat it so.", "",
    )  # fmt: skip
    yield from ("## What is in it", "")
    for part, words in _PARTS.items():
        if part in told.parts:
            yield from (words.replace("{captions}", _captions(told.parts)), "")
    if told.held_back:
        yield from ("## What is not in it", "")
        for sentence in told.held_back:
            yield from (sentence, "")
    yield from (
        "## Whether it is whole", "",
        "The folder is a bag as BagIt has it (RFC 8493). manifest-sha256.txt lists every file in data/ with its SHA-256 (FIPS "
        "180-4), a number that becomes another one when a single letter of the file is changed. To check all of them, type in "
        "this folder: sha256sum --check manifest-sha256.txt", "",
        "## Words", "",
        "A night is the day a text belongs to; it ends in the small hours, usually at four. A line is a text of a few "
        "sentences, of a kind such as gratitude or memory. A reading is something noted for a night, such as hours of sleep. A "
        "stay is a row of nights at one place. A theme is what lines have in common, found by the program or named by the "
        "person. What rests was not to be brought up unless looked for.",
    )  # fmt: skip


def _holds(told: ReadmeFacts) -> str:
    """What of the nights is in the archive, such as "3 short texts and where each night was spent"."""
    has = [
        *([f"{told.lines} short texts"] if told.parts & _WORDS else []),
        *(["where each night was spent"] if told.parts & (_WORDS | {"globe"}) else []),
        *(["what was noted of it"] if told.parts & _WORDS - {"calendar"} else []),
        *([f"{told.photos} photos"] if "photos" in told.parts else []),
    ]
    if len(has) < 3:
        return " and ".join(has)
    return f"{', '.join(has[:-1])}, and {has[-1]}"


def _captions(parts: frozenset[str]) -> str:
    # Photos alone have a table of their own.
    places = [where for part, where in _CAPTIONS.items() if part in parts][:2] or [_CAPTIONS["tables"]]
    return f"The captions are {', and '.join(places)}."
