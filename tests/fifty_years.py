"""A keeper of fifty years, for measuring: ``python tests/fifty_years.py FOLDER``.

Always the same 18,334 nights with 55,000 lines and 1,500 places. The words are
invented, with frequencies as in any language (Zipf): it is made for counting,
not for reading.
"""

import random
import sys
from collections.abc import Iterable, Iterator
from datetime import UTC, date, datetime, time, timedelta
from itertools import accumulate
from pathlib import Path

from keeper.actions.opening import open_or_begin
from keeper.model import FORMS, KINDS, Moment, Place, Reading, Tracker
from keeper.store import Store, lines, month_pages, nights, trackers
from keeper.store.moments import utc_text
from keeper.store.places import named as places

LAST = date(2025, 12, 31)
LINES = 55_000
NIGHTS = -(-LINES // len(KINDS))
PLACES = 1_500
WORDS = 14_000

_SMALL = (
    "the and a of in to it was with on for at that his her my we had but so all from not by out up as there "
    "again after before over some then one two late little long old new good last first back down home still"
)
_BEGIN = " b br c ch cl d dr f fl g gr h j k kl l m n p pl r s sh sk sl st t th tr v w z"
_MIDDLE = "a ai au e ea ee i ie o oa oo ou u y \u00e5 \u00f6 \u00fc \u00e9"
_END = " b ck d ft g l ld ll m n nd ng nt p r rd rn rt s sh sk st t th x"


def make(folder: Path, texts: Iterable[str] | None = None) -> Store:
    """Begin the keeper in an empty folder and return it open; ``texts`` are its lines, where they are not invented."""
    chance = random.Random(1875)
    store = open_or_begin(folder)
    with store.writing():
        stays = _stays(chance, [_place(store, chance, n) for n in range(PLACES)])
        for text, night, kind in zip(texts or _texts(chance), *_nights_and_kinds(), strict=False):
            moment = _moment(night)
            if kind == KINDS[0]:
                nights.set_place(store, night, next(stays), "said", utc_text(moment.utc))
                _question(store, night)
            lines.keep(store, night, kind, text, moment)
    store.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return store


def note(store: Store, many: int = 20) -> None:
    """Note so many trackers of all forms on nine nights of ten."""
    first = LAST - timedelta(days=NIGHTS - 1)
    with store.writing():
        for number in range(many):
            form = FORMS[number % len(FORMS)]
            ends, top = ((0.0, 10.0) if form == "scale" else (None, None)), 2 if form == "mark" else 11
            trackers.add(store, Tracker(f"t{number}", f"reading {number}", form, *ends, "", "neither", first, key=chr(97 + number)))
            kept = (first + timedelta(days=day) for day in range(NIGHTS) if (day + number) % 10)
            trackers.note(store, (Reading(night, f"t{number}", float((night.toordinal() + number) % top)) for night in kept))


def a_word(chance: random.Random) -> str:
    """A word that could be one."""
    syllables = chance.choices((1, 2, 3), (3, 5, 2))[0]
    # The first of the beginnings and of the ends is none at all.
    parts = (_BEGIN.split(" "), _MIDDLE.split(" "), _END.split(" "))
    return "".join(chance.choice(part) for _ in range(syllables) for part in parts)


def _texts(chance: random.Random) -> Iterator[str]:
    known = list(dict.fromkeys([*_SMALL.split(), *(a_word(chance) for _ in range(WORDS))]))
    often = list(accumulate(1 / (rank + 2) for rank in range(len(known))))
    for _ in range(LINES):
        said = chance.choices(known, cum_weights=often, k=chance.randint(6, 34))
        yield f"{' '.join(said).capitalize()}."


def _nights_and_kinds() -> tuple[Iterator[date], Iterator[str]]:
    first = LAST - timedelta(days=NIGHTS - 1)
    order = range(NIGHTS * len(KINDS))
    return (first + timedelta(days=n // len(KINDS)) for n in order), (KINDS[n % len(KINDS)] for n in order)


def _place(store: Store, chance: random.Random, number: int) -> str:
    where = round(chance.uniform(-60, 70), 4), round(chance.uniform(-180, 180), 4)
    name = f"{a_word(chance).capitalize()} {number}"
    return places.add(store, Place("", name, latitude=where[0], longitude=where[1])).id


def _stays(chance: random.Random, ids: list[str]) -> Iterator[str]:
    while True:
        chance.shuffle(ids)
        for place in ids:
            yield from [place] * chance.randint(1, 24)


def _question(store: Store, night: date) -> None:
    if night.day == 1:
        month_pages.set_question(store, night, f"What was new in the month of {night:%B}?")


def _moment(night: date) -> Moment:
    return Moment(datetime.combine(night, time(21, 30), UTC), 60, "Europe/Berlin")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("Usage: python tests/fifty_years.py FOLDER")
    make(Path(sys.argv[1])).close()
