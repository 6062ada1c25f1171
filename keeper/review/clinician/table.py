"""The page for a clinician as a table: nights down, readings across, then the counts, and what is said in words.

The first column says what a row is of; "night" rows alone are one row a night, with the values as numbers.
"""

from collections.abc import Callable, Iterator

from keeper.review.clinician.page import ClinicianPage, ClinicianReading
from keeper.review.clinician.wording import STANDS_OUT, TRIED, name

NIGHT = "night"

Cell = str | float | bool | None

_OF_ALL: tuple[tuple[str, Callable[[ClinicianReading], Cell]], ...] = (
    ("nights noted", lambda of: len(of.noted)),
    ("nights with yes", lambda of: round(sum(of.noted)) if _mark(of) else None),
    ("share of yes", lambda of: round(of.spread.middle, 4) if _mark(of) else None),
    ("share from", lambda of: round(of.spread.low, 4) if _mark(of) else None),
    ("share to", lambda of: round(of.spread.high, 4) if _mark(of) else None),
    ("median", lambda of: None if _mark(of) else _number(of.spread.middle)),
    ("lower quartile", lambda of: None if _mark(of) else _number(of.spread.low)),
    ("upper quartile", lambda of: None if _mark(of) else _number(of.spread.high)),
    ("lowest", lambda of: None if _mark(of) else _number(min(of.noted))),
    ("highest", lambda of: None if _mark(of) else _number(max(of.noted))),
)


def heads(page: ClinicianPage) -> tuple[str, ...]:
    """The names of the columns."""
    return ("row", NIGHT, *(name(one.tracker) for one in page.readings))


def rows(page: ClinicianPage) -> Iterator[tuple[Cell, ...]]:
    """All rows, each as long as the names."""
    for night, *values in zip(page.nights, *(one.values for one in page.readings), strict=True):
        told = (_value(of, value) for of, value in zip(page.readings, values, strict=True))
        yield (NIGHT, night.isoformat(), *told)
    for word, of_one in _OF_ALL:
        counted = tuple(of_one(one) for one in page.readings)
        if any(cell is not None for cell in counted):
            yield (word, None, *counted)
    rest = (None,) * (len(page.readings) - 1)
    for word, told in (*(((TRIED if one.tried else STANDS_OUT).lower(), f"{one.sentence} {one.small}".strip()) for one in page.said),
                       *(((STANDS_OUT.lower(), page.none),) if page.none else ()), ("how", page.method),
                       *(("caution", one) for one in page.cautions)):  # fmt: skip
        yield (word, None, told, *rest)


def _mark(of: ClinicianReading) -> bool:
    return of.tracker.form == "mark"


def _value(of: ClinicianReading, value: float | None) -> Cell:
    return bool(value) if value is not None and _mark(of) else _number(value)


def _number(value: float | None) -> float | int | None:
    # Without the noise of binary fractions: 6.1, not 6.1000000000000005.
    rounded = None if value is None else round(value, 6)
    return int(rounded) if rounded is not None and rounded.is_integer() else rounded
