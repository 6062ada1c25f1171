"""What a search may be narrowed by, offered while it is typed: names that begin so, ranges of readings, dates."""

import re
from collections.abc import Iterator
from datetime import date

from keeper.actions.finding import phrases
from keeper.actions.finding.known import KnownNames
from keeper.actions.finding.phrases import Phrase, Within
from keeper.actions.finding.reading_words import read
from keeper.dates.spelling import ENGLISH, Spelling
from keeper.dates.typed import understood
from keeper.errors import UnknownThing, UnreadableDate
from keeper.model import Tracker
from keeper.store.folding import bare
from keeper.study.readings.numbers import number

_RANGE = re.compile(r"(?:from |between )?(\S+?)\s*(?:-|\u2013|\u2026|\.\.| to | and )\s*(\S+)")
_END = re.compile(r"(at least|over|at most|under|below|above|until|from|up to|<=?|>=?)\s*(\S+)")
_AT_LEAST = ("at least", "over", "above", "from", ">", ">=")
_DATED = {"from": "first", "since": "first", "until": "last", "to": "last"}

Offer = tuple[Phrase, ...]
"""One or several phrases that are taken together."""


def offered(known: KnownNames, typed: str, tonight: date, spelling: Spelling = ENGLISH) -> tuple[Offer, ...]:
    """What may be meant by what is typed so far, the likeliest first; all there is where nothing is."""
    wanted = bare(typed).split()
    if not wanted:
        return tuple((one,) for one in known.all)
    exact, begun, other = [], [], []
    for one in known.all:
        if bare(typed.strip()) in (bare(one.text), bare(one.name)):
            exact.append((one,))
        elif _begin(bare(one.name), wanted):
            (begun if bare(one.name).startswith(wanted[0]) else other).append((one,))
        elif _begin(bare(one.text), wanted):
            other.append((one,))
    ranges = [(one,) for one in _ranges(known, typed)]
    dates = [one for one in _ends(typed, tonight, spelling) if one]
    whole = read(known, typed, tonight, spelling)
    said = [whole.phrases] if whole and not whole.words else []
    return tuple(dict.fromkeys((*exact, *ranges, *dates, *begun, *said, *other)))


def meant(known: KnownNames, typed: str, tonight: date, spelling: Spelling = ENGLISH) -> Offer:
    """The phrases that are meant by one as it is typed. Raises UnknownThing."""
    found = offered(known, typed, tonight, spelling) if typed.strip() else ()
    if not found:
        raise UnknownThing(
            f"Nothing here is called \u201c{typed.strip()[:60]}\u201d. A place, a person, a theme, a kind of line, a weekday, a season, "
            "a date, \u201cwith a photo\u201d, or a reading such as \u201cmood 1 to 3\u201d can be said."
        )
    return found[0]


def _begin(text: str, wanted: list[str]) -> bool:
    there = re.split(r"[\s,]+", text)
    return all(any(word.startswith(one) for word in there) for one in wanted)


def _ranges(known: KnownNames, typed: str) -> Iterator[Phrase]:
    """Such as "mood 3", "mood 1-3", "sleep at most 6:30"."""
    plain = " ".join(bare(typed).removeprefix("with ").split())
    for tracker in known.trackers:
        name = bare(tracker.name)
        if tracker.form != "mark" and plain.startswith(f"{name} ") and (ends := _range(tracker, plain.removeprefix(name).strip())):
            yield phrases.between(tracker, Within(tracker.id, *ends))


def _range(tracker: Tracker, said: str) -> tuple[float, float] | None:
    if found := _END.fullmatch(said):
        value = _value(tracker, found[2])
        return None if value is None else (value, phrases.ANY) if found[1] in _AT_LEAST else (-phrases.ANY, value)
    found = _RANGE.fullmatch(said)
    low, high = (_value(tracker, one) for one in (found.groups() if found else (said, said)))
    return (min(low, high), max(low, high)) if low is not None and high is not None else None


def _value(tracker: Tracker, said: str) -> float | None:
    hours, colon, minutes = said.partition(":")
    if colon and tracker.form == "hours":
        return int(hours) + int(minutes) / 60 if hours.isdecimal() and minutes.isdecimal() and int(minutes) < 60 else None
    return number(said)


def _ends(typed: str, tonight: date, spelling: Spelling) -> Iterator[Offer]:
    """Such as "from June 2019"."""
    word, _, said = typed.strip().partition(" ")
    if (end := _DATED.get(word.casefold())) and said:
        try:
            nights = understood(said, tonight, spelling)
        except UnreadableDate:
            return
        yield phrases.nights(nights.first, None) if end == "first" else phrases.nights(None, nights.last)
