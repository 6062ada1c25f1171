"""What the columns of a file are: guessed, said by the person, remembered for the next file of the same shape."""

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import sha256

from keeper.clock import Clock
from keeper.dates.in_files import ORDERS, DatesInFile
from keeper.exchange.tables.shape import How, Row
from keeper.model import LineKind, Tracker
from keeper.store import Store, kinds, trackers
from keeper.store.folding import bare
from keeper.store.moments import utc_text
from keeper.store.taking_in import many

NOTHING, DATE, PLACE = "", "date", "place"
"""What a column can be, besides a kind ("kind:KEY"), a reading ("reading:ID") and a new one ("new:FORM")."""

NEW_FORMS = ("amount", "hours", "mark")
"""The forms of a reading that a column may begin."""

JOIN, ASIDE, REPLACE = "join", "aside", "replace"
OTHER_WORDS = (JOIN, ASIDE, REPLACE)
"""What becomes of words where a night has others of that kind: both in one line; those of the file among the earlier
wordings; those of the keeper there."""

_DATE_NAMES = frozenset(["date", "day", "night", "datum", "tag", "fecha", "data", "dia", "dato", "jour", "giorno", "when", "created"])
_PLACE_NAMES = frozenset(["place", "town", "where", "city", "location", "ort", "stadt", "lieu", "ville", "lugar", "ciudad", "luogo", "plaats", "sted", "miejsce", "misto"])
_WORDS_NAMES = frozenset(["text", "words", "note", "notes", "line", "entry", "body", "content", "texto", "texte", "testo", "tekst", "notiz", "nota", "notat"])
_ENOUGH = 0.6
_LINE_LIKE = 12


@dataclass(frozen=True, slots=True)
class Meant:
    """What each column is, in their order; and what becomes of other words."""

    columns: tuple[str, ...]
    other_words: str = JOIN

    def at(self, what: str) -> int | None:
        """The first column that is this."""
        return self.columns.index(what) if what in self.columns else None


def guessed(store: Store, how: How, names: Sequence[str], rows: Sequence[Row], dates: DatesInFile) -> Meant:
    """What the columns most likely are, by their names and by what stands in them."""
    every = kinds.every(store)
    first = f"kind:{next((kind.key for kind in every if kind.ended is None), every[0].key)}"
    if how.form in ("text", "folder"):
        return Meant((DATE, first))
    if how.form == "calendar":
        return Meant((DATE, first, first, PLACE))
    found = [_by_name(name, every, trackers.every(store)) for name in names]
    at = _date_column(names, rows, dates)
    found = [DATE if place == at else "" if one == DATE else one for place, one in enumerate(found)]
    if not any(one.startswith("kind:") for one in found):
        left = [place for place, one in enumerate(found) if not one]
        # One that is called so may hold a word or two a night.
        called_so = [place for place in left if set(re.split(r"[^\w]+", bare(names[place]))) & _WORDS_NAMES and _length(rows, place)]
        longest = max(called_so or left, key=lambda place: _length(rows, place), default=None)
        if longest is not None and (called_so or _length(rows, longest) >= _LINE_LIKE):
            found[longest] = first
    return Meant(tuple(found))


def _by_name(name: str, every: Sequence[LineKind], its: Sequence[Tracker]) -> str:
    word = bare(name)
    for kind in every:
        if word in (bare(kind.title), kind.key):
            return f"kind:{kind.key}"
    for tracker in its:
        if word == bare(tracker.name):
            return f"reading:{tracker.id}"
    words = set(re.split(r"[^\w]+", word))
    return DATE if words & _DATE_NAMES else PLACE if words & _PLACE_NAMES else NOTHING


def _date_column(names: Sequence[str], rows: Sequence[Row], dates: DatesInFile) -> int | None:
    """The column in which most cells are dates; of several the one that is called so, or the first."""
    shares = []
    for place, name in enumerate(names):
        cells = [row.cells[place] for row in rows if place < len(row.cells) and row.cells[place]]
        understood = sum(dates.night(cell) is not None for cell in cells)
        called_so = bool(set(re.split(r"[^\w]+", bare(name))) & _DATE_NAMES)
        # One that is called so may hold many a slip: each is told by its row.
        if understood and (called_so or understood >= _ENOUGH * len(cells)):
            shares.append((called_so, understood, -place))
    return -max(shares)[2] if shares else None


def _length(rows: Sequence[Row], place: int) -> float:
    cells = [row.cells[place] for row in rows if place < len(row.cells) and row.cells[place]]
    letters = [cell for cell in cells if any(letter.isalpha() for letter in cell)]
    return sum(map(len, letters)) / len(cells) if cells else 0.0


# remembering


def shape_of(how: How, names: Sequence[str]) -> str:
    """What files have in common that are to be read the same way, as a sum that tells nothing of them."""
    return sha256("\x1f".join((how.form, *names)).encode("utf-8", "replace")).hexdigest()


def remembered(store: Store, how: How, names: Sequence[str]) -> tuple[Meant, str, str] | None:
    """What was said of such a file last, with the order of its dates and its sign before decimals; None where nothing was."""
    told = many.shape(store, shape_of(how, names))
    try:
        said = json.loads(told) if told else None
        columns = tuple(_still_there(store, str(one)) for one in said["columns"]) if said else ()
    except (ValueError, KeyError, TypeError):
        return None
    if len(columns) != len(names):
        return None
    other = said.get("other_words")
    order, decimal = said.get("order"), said.get("decimal")
    return (Meant(columns, other if other in OTHER_WORDS else JOIN), order if order in ORDERS else how.order,
            decimal if decimal in (".", ",") else how.decimal)  # fmt: skip


def _still_there(store: Store, what: str) -> str:
    known = {f"kind:{kind.key}" for kind in kinds.every(store)} | {f"reading:{one.id}" for one in trackers.every(store)}
    return what if what in known or what in (DATE, PLACE) or what.removeprefix("new:") in NEW_FORMS else NOTHING


def remember(store: Store, how: How, names: Sequence[str], meant: Meant, clock: Clock) -> None:
    """Keep what the person said, for the next file of this shape."""
    said = {"columns": meant.columns, "other_words": meant.other_words, "order": how.order, "decimal": how.decimal}
    many.keep_shape(store, shape_of(how, names), json.dumps(said), utc_text(clock.moment().utc))
