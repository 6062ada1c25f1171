"""What a night's page says of what is tried: one line, by one small question."""

from dataclasses import dataclass
from datetime import date, timedelta

from keeper.model import Trying
from keeper.review.patterns.candidates import quoted
from keeper.store import Store
from keeper.store.trying import plans as kept_plans

_TOLD_FOR = timedelta(14)
"""So many nights after its end a trying is still told of."""


@dataclass(frozen=True, slots=True)
class TriedTonight:
    """``line`` is such as "Trying: without \u201ctea\u201d, night 3 of 7 in block 2 of 8"; ``at_its_end`` offers what came of it."""

    line: str = ""
    at_its_end: str = ""


def told(store: Store, night: date, tonight: date) -> TriedTonight:
    """What is tried on a night.

    Of nights to come nothing is said: what the lot has for them is told night by night.
    """
    found = kept_plans.on(store, night) if night <= tonight else None
    if found is None:
        return TriedTonight()
    one, name = found
    if one.spot(night):
        return TriedTonight(f"Trying: {where(one, name, night)}")
    return _at_its_end(one, name, night) if night == tonight else TriedTonight()


def where(one: Trying, name: str, night: date) -> str:
    """Such as "without \u201ctea\u201d, night 3 of 7 in block 2 of 8"; "" for a night that is not of it."""
    spot = one.spot(night)
    if spot is None:
        return ""
    how = "with" if spot.with_it else "without"
    return f"{how} {quoted(name)}, night {spot.night} of {one.length} in block {spot.block} of {len(one.withs)}"


def _at_its_end(one: Trying, name: str, tonight: date) -> TriedTonight:
    if one.stopped is not None or tonight > one.last + _TOLD_FOR:
        return TriedTonight()
    if not one.over(tonight):
        return TriedTonight(f"Trying {quoted(name)}: tonight\u2019s reading is its last")
    return TriedTonight(at_its_end=f"What came of trying {quoted(name)} can be seen")
