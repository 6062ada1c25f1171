"""Readings that share an axis, and where they cross."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations

from keeper.model import Tracker
from keeper.review.month_series import Series
from keeper.study.readings.crossings import Crossing, crossings

MOST = 3
"""How many readings can share one axis: more cannot be told apart by their lines."""


@dataclass(frozen=True, slots=True)
class Crossed:
    """A crossing, and the names of the two that cross."""

    one: str
    other: str
    crossing: Crossing


@dataclass(frozen=True, slots=True)
class Axis:
    """One to three series drawn on one axis, from ``low`` to ``high``, in the person's order."""

    series: tuple[Series, ...]
    low: float
    high: float
    crossed: tuple[Crossed, ...] = ()


def can_share(trackers: Sequence[Tracker]) -> bool:
    """Whether these measure alike: two or three of one form and unit, of a scale from end to end the same."""
    first = trackers[0] if trackers else None
    alike = [(one.form, one.unit) == (first.form, first.unit) for one in trackers]
    ends = {(one.low, one.high) for one in trackers} if first and first.form == "scale" else {()}
    return 2 <= len(trackers) <= MOST and all(alike) and first.form != "mark" and len(ends) == 1


def axes(shown: Sequence[Series]) -> tuple[Axis, ...]:
    """The axes of a month, each where its first series stands.

    Those that were put on one axis and no longer measure alike stand alone.
    """
    together: dict[str, list[Series]] = {}
    for one in shown:
        together.setdefault(one.tracker.axis or one.tracker.id, []).append(one)
    made: list[Axis] = []
    for group in together.values():
        shares = can_share([one.tracker for one in group])
        made += [_axis(group)] if shares else [_axis([one]) for one in group]
    order = {one.tracker.id: place for place, one in enumerate(shown)}
    return tuple(sorted(made, key=lambda axis: order[axis.series[0].tracker.id]))


def _axis(group: Iterable[Series]) -> Axis:
    series = tuple(group)
    crossed = [
        Crossed(one.tracker.name, other.tracker.name, found)
        for one, other in combinations(series, 2) for found in crossings(one.values, other.values)
    ]  # fmt: skip
    crossed.sort(key=lambda one: one.crossing.at)
    return Axis(series, min(one.low for one in series), max(one.high for one in series), tuple(crossed))


def crossings_told(crossed: Sequence[Crossed]) -> str:
    """Such as "mood and stress cross: 4, 12 and 13"; "" for none."""
    told = []
    for one, other in dict.fromkeys((each.one, each.other) for each in crossed):
        days = [str(each.crossing.day) for each in crossed if (each.one, each.other) == (one, other)]
        listed = f"{', '.join(days[:-1])} and {days[-1]}" if len(days) > 1 else days[0]
        told.append(f"{one} and {other} cross: {listed}")
    return "; ".join(told)
