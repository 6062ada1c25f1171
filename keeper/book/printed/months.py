"""A month's pages as the plain data that the template sets: how many rows go on a page, how high, and which columns."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor
from typing import Any

from keeper import cautions
from keeper.book import wording
from keeper.book.letters import Compositor
from keeper.book.printed.marking import PageMark, modules
from keeper.book.printed.others import common, lined
from keeper.dates.written import month_and_year
from keeper.review.printed.leaves import BadPaper, PaperLeaf
from keeper.review.printed.pages import NightRow, PrintedMonth, TrackerColumn

Data = dict[str, Any]

LEAST_WIDE, LEAST_HIGH = 74.0, 110.0
"""Millimetres between the margins that a month needs."""

_HEADS, _PLAIN_HEAD = 20.0, 10.0
"""The head of the rows, with the month's name: where readings have their names over their columns, and where not."""

_ROW, _MOST_ROW = 5.0, 9.0
"""How high a row to write in is at least and at most; on dots it is as far as they are apart."""

_NIGHT, _COLUMN, _PLACE, _LINE, _LINE_FILLED = 12.0, 7.5, 22.0, 44.0, 60.0
"""How wide the columns are: the night, a reading, the place; and the line at least, to write in and to be read."""

_FOOT, _TELLING = 12.5, 9.0
"""What is left free below the rows: for the code, and for what is said of readings."""


_LONG_NIGHT = 700
"""Letters of a night beyond which its row may go over to the next page."""

_MOST_SHEETS = 60
"""Nobody knows beforehand on how many pages long words have room."""


@dataclass(frozen=True, slots=True)
class NightsTable:
    """Rows of one page, and what columns they have; ``told`` stands small below."""

    rows: tuple[NightRow, ...]
    line: bool
    place: bool
    columns: tuple[TrackerColumn, ...]
    told: str = ""


def check_room(leaf: PaperLeaf) -> None:
    """Raises BadPaper for a page on which a month has no room."""
    if leaf.inner < LEAST_WIDE or leaf.height - 2 * leaf.margin < LEAST_HIGH:
        raise BadPaper("That page is too small for a month. A6, 105 \u00d7 148 mm, has room for one, with up to 24 mm for holes.")


def row_height(leaf: PaperLeaf, nights: int, heads: bool, foot: float) -> tuple[int, float]:
    """How many rows go on a page, and how high each is, in millimetres: as high as there is room."""
    room = leaf.height - 2 * leaf.margin - (_HEADS if heads else _PLAIN_HEAD) - foot
    pages = max(ceil(nights * _ROW / room), 1)
    rows = ceil(nights / pages)
    high = min(room / rows, _MOST_ROW)
    return rows, floor(high / 5) * 5.0 if leaf.ground == "dots" else floor(high * 10) / 10


def tables(month: PrintedMonth) -> tuple[NightsTable, ...]:
    """The nights in rows: readings beside the line where they have room, else on pages of their own."""
    place = month.parts.places
    room = month.leaf.inner - _NIGHT - (_PLACE if place else 0) - (_LINE_FILLED if month.filled else _LINE)
    beside = month.columns if len(month.columns) <= room // _COLUMN else ()
    found = list(_paged(month, True, place, beside))
    if not beside:
        many = max(int((month.leaf.inner - _NIGHT) // _COLUMN), 1)
        for at in range(0, len(month.columns), many):
            found += _paged(month, False, False, month.columns[at : at + many])
    return tuple(found)


def _paged(month: PrintedMonth, line: bool, place: bool, columns: Sequence[TrackerColumn]) -> list[NightsTable]:
    told = cautions.under(any(one.body for one in columns)) if columns and month.filled else ""
    rows, _ = row_height(month.leaf, len(month.rows), bool(columns), _foot(month, bool(told)))
    if month.filled and line:
        # These grow with their words, and go on overleaf by themselves.
        rows = len(month.rows)
    return [
        NightsTable(tuple(month.rows[at : at + rows]), line, place, tuple(columns), told)
        for at in range(0, len(month.rows), rows)
    ]


def _foot(month: PrintedMonth, told: bool) -> float:
    return (_FOOT if month.parts.marks else 1.0) + (_TELLING if told else 0.0)


def of_month(month: PrintedMonth, photo: Data | None, letters: Compositor) -> Data:
    """What ``month.typ`` sets."""
    its, heads = tables(month), bool(month.columns)
    _, row = row_height(month.leaf, len(month.rows), heads, _foot(month, heads and month.filled))
    caption = letters.paragraphs(month.photo.caption) if photo and month.photo else []
    alt = " ".join(part["t"] for part in caption) or f"Photo of {month_and_year(month.month)}"
    return {
        **common(month, month_and_year(month.month)), "month": month_and_year(month.month), "filled": month.filled,
        "parts": {name: getattr(month.parts, name) for name in ("question", "goals", "words")},
        "words": {**wording.HEADINGS, "goals": "Goals", "place": "Place", "night": "Night", "line": "Line"},
        "question": letters.paragraphs(month.question), "own-words": letters.paragraphs(month.words),
        "goals": [{"text": letters.plain(one.text), "told": letters.plain(wording.outcome(one.outcome, one.word))} for one in month.goals],
        "photo": {**photo, "alt": alt} if photo else None, "caption": caption,
        "frame": month.parts.photo,
        "codes": [modules(PageMark(month.month, sheet)) for sheet in range(1, _MOST_SHEETS + 1)] if month.parts.marks else [],
        "tables": [_table(one, month, letters) for one in its],
        "row": row, "head-row": _HEADS, "plain-head": _PLAIN_HEAD, "head": _HEADS - 5.8,
        "place-wide": _PLACE, "column": _COLUMN, "day": 9,
    }  # fmt: skip


def _table(table: NightsTable, month: PrintedMonth, letters: Compositor) -> Data:
    return {
        "line": table.line, "place": table.place, "told": table.told,
        "columns": [{"name": letters.plain(one.name), "values": [letters.plain(value) for value in one.values]} for one in table.columns],
        "rows": [
            {"index": one.date.day - 1, "long": sum(len(text) for _, text in one.lines) > _LONG_NIGHT, **lined(one, month.language, letters)}
            for one in table.rows
        ],
    }  # fmt: skip
