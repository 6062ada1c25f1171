"""The course of a reading around a mark, from what was noted."""

from collections.abc import Callable

from keeper.actions.courses.asked import known, nights_of
from keeper.errors import UnreadableReading
from keeper.review.courses.around import AroundTold, around_told
from keeper.store import Store

SPANS = (1, 60)
"""So many nights before and after at the least, and at the most."""


def around_mark(
    store: Store, mark_key: str, reading_key: str, span: int, heard: Callable[[float], object] = lambda share: None
) -> AroundTold:
    """What is to be told of it; ``heard`` is told how far it is, and may break it off by what it raises.

    The same readings give the same answer. Raises UnknownThing; UnreadableReading for a span that cannot be.
    """
    # numpy is not brought in before somebody asks.
    from keeper.study.patterns.around import around, clusters

    if not SPANS[0] <= span <= SPANS[1]:
        raise UnreadableReading(f"Around a mark can be {SPANS[0]} to {SPANS[1]} nights on either side, not {span}.")
    mark, reading = known(store, mark_key, reading_key)
    its = nights_of(store, (mark, reading))
    values, marked = its.values[reading.key], its.values[mark.key]
    found = around(values, marked, span=span, heard=heard)
    return around_told(mark, reading.tracker, span, values, marked, found, clusters(marked, span))
