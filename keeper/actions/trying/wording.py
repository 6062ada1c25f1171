"""A trying in words: how sure it could be, and what came of it."""

from __future__ import annotations

from math import isinf
from typing import TYPE_CHECKING

from keeper.actions.readings import wording as readings
from keeper.actions.trying.results import CameOfIt, Known
from keeper.actions.trying.sureness import Sureness
from keeper.dates.written import counted, full_date, number, percent, shortest, span
from keeper.model import Tracker
from keeper.review.patterns.candidates import quoted

if TYPE_CHECKING:
    from keeper.study.patterns.trying import Tried

WHY_NOT_BEFORE = (
    "What comes of it is told at the end, or when it is stopped: who sees how it stands notes otherwise, and is "
    "tempted to stop when it pleases."
)

STANDS = 0.05
"""A p up to this stands out from chance."""


def plan(known: Known) -> str:
    """Such as "\u201ctea\u201d, and mood: 8 blocks of 7 nights, from 3 June to 28 July 2026"."""
    one = known.trying
    blocks = f"{counted(len(one.withs), 'block')} of {counted(one.length, 'night')}"
    later = " the night after" if one.later else ""
    return f"{quoted(known.mark.name)}, and {known.reading.name}{later}: {blocks}, {span(one.first, one.last)}"


def difference(tracker: Tracker, value: float) -> str:
    """How large a difference is, whichever way: "0.8", "0:45 hours", "1.2 km", or of a mark "12 of 100 nights"."""
    if tracker.form == "mark":
        return f"{number(abs(value) * 100)} of 100 nights"
    return _size(tracker, value)


def _size(tracker: Tracker, value: float) -> str:
    if tracker.form == "hours":
        return f"{readings.clock(abs(value))} hours"
    return f"{shortest(abs(value))} {tracker.unit}".strip()


_WAYS = {"count": ("more", "fewer"), "hours": ("more", "less")}


def _way(tracker: Tracker, value: float) -> str:
    if tracker.form == "mark":
        return f"{number(abs(value) * 100)} {'more' if value > 0 else 'fewer'} of 100 nights"
    more, fewer = _WAYS.get(tracker.form, ("higher", "lower"))
    return f"{_size(tracker, value)} {more if value > 0 else fewer}"


# before it begins


def sure(of: Sureness) -> tuple[str, ...]:
    """How sure a plan could be, in sentences."""
    said = []
    if of.blocks < of.least:
        said.append(
            f"{counted(of.blocks, 'block')} cannot tell anything from chance, however large the difference; "
            f"from {number(of.least)} blocks on it can."
        )
    elif of.told:
        said.append(_how_often(of))
        said.append(
            f"That is how it goes when the plan is tried on {counted(of.nights, 'night')} of {of.reading.name} that you noted before, "
            "with the lot drawn again each time."
        )
    else:
        said.append(_no_past(of))
    return tuple(said)


def _how_often(of: Sureness) -> str:
    first, *others = of.told
    told = [f"Were the difference {difference(of.reading, first[0])}, {_tries(first[1])} such tryings would tell it from chance"]
    told += [f"were it {difference(of.reading, one)}, {_tries(share)}" for one, share in others]
    return "; ".join(told) + "."


def _tries(share: float) -> str:
    return f"{number(share * 100)} of 100"


def _no_past(of: Sureness) -> str:
    if not of.nights:
        return f"How sure it could be cannot be told: {of.reading.name} was not noted before."
    if of.needed > of.nights:
        return (
            f"How sure it could be cannot be told yet: it takes {counted(of.needed, 'night')}, and {of.reading.name} was noted "
            f"on {number(of.nights)} before."
        )
    return f"How sure it could be cannot be told: {of.reading.name} was the same each night."


# at its end


def came_of_it(of: CameOfIt) -> tuple[str, ...]:
    """What came of a trying, in sentences."""
    said = [_compared(of), *_chance(of), _kept_to(of), _stopped(of)]
    if of.sureness and of.sureness.told and of.sureness.blocks >= of.sureness.least:
        said.append(f"Before it began: {_lowered(_how_often(of.sureness))}")
    return tuple(one for one in said if one)


def headline(of: CameOfIt) -> str:
    """The same as one sentence, for a list."""
    return _compared(of)


def _lowered(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]


def _compared(of: CameOfIt) -> str:
    mark, reading, tried = of.known.mark, of.known.reading, of.tried
    if tried is None:
        return f"Nothing can be compared: {reading.name} has to be noted of nights with {quoted(mark.name)} and of nights without."
    on = "after" if of.known.trying.later else "on"
    withs, without = f"{on} {counted(of.noted[0], 'night')} drawn to be with {quoted(mark.name)}", f"{on} {number(of.noted[1])} without"
    if not round(tried.difference, 9):
        return f"{_raised(reading.name)} was the same {withs} as {without}."
    came = "came on" if reading.form == "mark" else "was on average"
    return f"{_raised(reading.name)} {came} {_way(reading, tried.difference)} {withs} than {without}{_between(reading, tried)}."


def _between(reading: Tracker, tried: Tried) -> str:
    if isinf(tried.low) or isinf(tried.high):
        return "; there are too few blocks to say between what that lies"
    if tried.low * tried.high > 0:
        low, high = sorted((tried.low, tried.high), key=abs)
        return f" (between {difference(reading, low)} and {difference(reading, high)})"
    return f" (between {_way(reading, tried.low)} and {_way(reading, tried.high)})"


def _raised(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]


def _chance(of: CameOfIt) -> tuple[str, ...]:
    if of.tried is None:
        return ()
    from keeper.study.patterns.trying import MOST_DRAWS

    tried, name = of.tried, quoted(of.known.mark.name)
    ways = f"all {number(tried.draws)} ways" if tried.exact else f"{number(MOST_DRAWS)} of the many ways"
    return (
        f"If {name} made no difference, {_share(tried.p)} of {ways} in which the lot could have fallen would give one as large, "
        f"either way (randomization test, {_p(tried.p)}).",
        "That stands out from chance." if tried.p <= STANDS else "That does not stand out from chance.",
    )


def _share(p: float) -> str:
    return percent(p) if p >= 0.01 else "fewer than 1 %"


def _p(p: float) -> str:
    return f"p = {shortest(p, 3)}" if p >= 0.001 else "p below 0.001"


def _kept_to(of: CameOfIt) -> str:
    its = of.keeping
    many = its.to + its.not_to + its.unknown
    told = [f"What was drawn was kept to on {number(its.to)} of {counted(many, 'night')}"]
    told += [f"on {number(its.not_to)} it was not"] if its.not_to else []
    told += [f"of {number(its.unknown)} nothing is noted"] if its.unknown else []
    return f"{', '.join(told)}{'; all count as drawn' if its.to < many else ''}."


def _stopped(of: CameOfIt) -> str:
    one = of.known.trying
    if one.stopped is None:
        return ""
    return f"It was stopped on {full_date(one.stopped)}, after {number(of.known.lived)} of {counted(one.nights, 'night')}."


def lot(of: CameOfIt) -> str:
    """How the lot fell, block by block."""
    return f"The lot, block by block: {', '.join('with' if one else 'without' for one in of.known.trying.withs)}."
