"""The first look at a file: how it is written and what its columns are, before anything is read in."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import tzinfo
from itertools import islice
from pathlib import Path

from keeper import settings
from keeper.actions.taking_in.meant import Meant, guessed, remembered
from keeper.clock import Clock
from keeper.dates import written
from keeper.dates.in_files import DatesInFile, order_of
from keeper.dates.spelling import ENGLISH, Spelling
from keeper.errors import UnreadableFile, shown_name
from keeper.exchange import odd_files
from keeper.exchange.tables.shape import How, Row
from keeper.store import Store
from keeper.store import settings as kept_settings

FIRST_ROWS = 20
"""So many rows are shown before anything is written."""

_COMMA = re.compile(r"[-+]?\d*,\d{1,2}|[-+]?\d{1,3}(\.\d{3})+,\d+|0,\d+")
_POINT = re.compile(r"[-+]?\d*\.\d{1,2}|[-+]?\d{1,3}(,\d{3})+\.\d+|0\.\d+")


@dataclass(frozen=True)
class FileLooked:
    """A file as it is understood so far.

    ``rows`` are the first twenty. ``known`` says that a file of this shape was
    read in before; ``order_sure`` that dates in numbers can be read one way only.
    """

    path: Path
    how: How
    names: tuple[str, ...]
    rows: tuple[Row, ...]
    meant: Meant
    dates: DatesInFile
    known: bool = False
    order_sure: bool = True


def look(store: Store, path: Path, clock: Clock, spelling: Spelling = ENGLISH, how: How | None = None) -> FileLooked:
    """Look at a file; ``how`` where the person has said how it is written. Raises UnreadableFile."""
    guess = how or odd_files.guess(path, spelling.order, written.habits().decimal)
    dates = dates_of(store, guess, clock, spelling)
    names = odd_files.columns(path, guess)
    if how is None and odd_files.with_header(guess, names, dates) != guess:
        guess = replace(guess, headed=False)
        names = odd_files.columns(path, guess)
    sample = list(islice((row for row in odd_files.rows(path, guess, dates) if row.cells), odd_files.LOOKED_AT))
    if not sample:
        raise UnreadableFile(f"{shown_name(path)} has nothing in it that can be read in.")
    before, sure = remembered(store, guess, names), True
    if how is None:
        guess, sure = _spelt(guess, sample, before)
        dates = dates_of(store, guess, clock, spelling)
    meant = before[0] if before else guessed(store, guess, names, sample, dates)
    return FileLooked(path, guess, names, tuple(sample[:FIRST_ROWS]), meant, dates, before is not None, sure)


def _spelt(how: How, sample: Sequence[Row], before: tuple[Meant, str, str] | None) -> tuple[How, bool]:
    """With the order of dates and the sign before decimals that the cells tell; where they do not, as it was the last time."""
    order, decimal = (before[1], before[2]) if before else (how.order, how.decimal)
    if how.form in ("text", "folder", "calendar"):
        return replace(how, order=before[1] if before else how.order), True
    cells = [cell for row in sample for cell in row.cells if cell[:1].isdigit() or cell[:1] in "-+,."]
    found, sure = order_of(cells, order)
    return replace(how, order=found, decimal=decimal_of(cells, decimal)), sure


def decimal_of(cells: Iterable[str], usual: str) -> str:
    """The sign that stands before decimals in numbers; ``usual`` where nothing tells."""
    cells = list(cells)
    comma, point = (sum(bool(sign.fullmatch(cell)) for cell in cells) for sign in (_COMMA, _POINT))
    return usual if comma == point else "," if comma > point else "."


def dates_of(store: Store, how: How, clock: Clock, spelling: Spelling) -> DatesInFile:
    """What understands the dates of a file, by the hour at which the person's night ends."""
    rollover = settings.number(kept_settings.read(store), "rollover")
    zone: tzinfo | None = clock.now().tzinfo
    return DatesInFile(how.order, clock.tonight(rollover), spelling, rollover, *((zone,) if zone else ()))
