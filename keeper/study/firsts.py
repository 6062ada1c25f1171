"""First times: at a place, of a theme or a person's name, of something noted."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

PLACE, THEME, PERSON, TRACKER = "place", "theme", "person", "tracker"
"""What can come up for the first time."""

_ORDER = (PLACE, PERSON, THEME, TRACKER)


@dataclass(frozen=True, slots=True)
class First:
    """The first night of something; ``kind`` is PLACE, THEME, PERSON or TRACKER."""

    night: date
    kind: str
    name: str


def firsts_between(known: Iterable[First], first: date, last: date) -> tuple[First, ...]:
    """Those of the firsts that lie in a span, both ends included, in order of night."""
    inside = {one for one in known if first <= one.night <= last}
    return tuple(sorted(inside, key=lambda one: (one.night, _ORDER.index(one.kind), one.name)))


def earliest(seen: Iterable[tuple[date, str]]) -> dict[str, date]:
    """The first night of each thing, from (night, thing) in any order."""
    found: dict[str, date] = {}
    for night, thing in seen:
        if thing not in found or night < found[thing]:
            found[thing] = night
    return found
