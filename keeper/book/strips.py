"""A month's readings as the templates draw them: the same strips as on the month's page."""

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Any

from keeper.book import wording
from keeper.book.letters import Compositor
from keeper.review.book import BookStrip

Point = tuple[int, float]
"""A day of the month, and how high it stands: 0 to 1."""

_BESIDE = 34.0
"""Millimetres that a strip leaves for its name and its scale."""

_MARKED = (1, 5, 10, 15, 20, 25, 30)
"""The days that are named below the strips."""


def strip(of: BookStrip, wide: float, letters: Compositor) -> dict[str, Any]:
    """One strip: ``runs`` of days on which something was noted for each line; ``noughts`` and ``noes`` are days.

    ``ruled`` are the ends of what is ruled, those of a mark again where it was
    noted (``known``); nothing is drawn where nothing was noted.
    """
    how = "mark" if of.form == "mark" else of.how
    days = range(1, len(of.values) + 1)
    return {
        "names": [letters.plain(line.name) for line in of.lines],
        "kind": how,
        "scale": letters.plain(_scale(of)),
        "told": letters.plain(of.told),
        "wide": wide - _BESIDE,
        "days": len(of.values),
        "marks": [day for day in _MARKED if day <= len(of.values)],
        "ruled": _ends(day for day in days if of.in_force is None or day in of.in_force),
        "known": _ends(day for day in days if of.values[day - 1] is not None),
        "began": of.began, "ended": of.ended,
        "lines": [_runs(_points(of, line.values, how)) for line in of.lines],
        "noughts": [day for day in days if how == "stick" and of.values[day - 1] is not None and _share(of, of.values[day - 1]) == 0],
        "noes": [day for day in days if how == "mark" and of.values[day - 1] == 0],
        "crossed": [[at, _share(of, value)] for at, value in of.crossed],
    }  # fmt: skip


def _points(of: BookStrip, values: Sequence[float | None], how: str) -> list[tuple[int, float | None]]:
    shares = [None if value is None else _share(of, value) for value in values]
    # A stick or a stroke of no height is drawn otherwise.
    return [(day, share if how == "line" else share or None) for day, share in enumerate(shares, 1)]


def _share(of: BookStrip, value: float) -> float:
    return min(max((value - of.low) / ((of.high - of.low) or 1.0), 0.0), 1.0)


def _scale(of: BookStrip) -> str:
    if of.form == "mark":
        noted = [value for value in of.values if value is not None]
        return f"{sum(1 for value in noted if value)} of {len(noted)}"
    return f"{wording.number(of.low)}\u2013{wording.number(of.high)} {of.unit}".strip()


def _runs(points: Iterable[tuple[int, float | None]]) -> list[list[Point]]:
    """Days in a row on which something was noted; a line is not drawn over those without."""
    grouped = groupby(points, key=lambda point: point[1] is None)
    return [list(run) for empty, run in grouped if not empty]


def _ends(days: Iterable[int]) -> list[tuple[int, int]]:
    found: list[tuple[int, int]] = []
    for day in days:
        if found and found[-1][1] == day - 1:
            found[-1] = (found[-1][0], day)
        else:
            found.append((day, day))
    return found
