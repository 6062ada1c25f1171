"""Middles and means of readings in words, and figures in rows."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isnan

from keeper.dates import written
from keeper.model import Tracker

NOTHING_YET = "Nothing can be said yet: "
"""How a sentence begins that tells what is lacking."""


@dataclass(frozen=True, slots=True)
class Figures:
    """The numbers behind a chart: what each column is, and the rows."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def value(tracker: Tracker, amount: float | None) -> str:
    """Such as "6.4", "7:12" or "5.25 km"; "" for none."""
    if amount is None or isnan(amount):
        return ""
    if tracker.form == "hours":
        minutes = round(abs(amount) * 60)
        return f"{'-' if amount < 0 and minutes else ''}{minutes // 60}:{minutes % 60:02}"
    decimals = 2 if tracker.form == "amount" or _is_fine(tracker) else 1
    unit = tracker.unit if tracker.form == "amount" else ""
    return f"{written.shortest(amount, decimals)} {unit}".strip()


def _is_fine(tracker: Tracker) -> bool:
    """Whether its scale is so short that a tenth of a step is a hundredth."""
    return tracker.form == "scale" and (tracker.high or 10.0) - (tracker.low or 0.0) <= 1


def share(part: float) -> str:
    """Such as "9 %", with a decimal where it is small."""
    return f"{written.shortest(part * 100, 0 if part >= 0.02 else 1)} %"


def listed(words: Sequence[str]) -> str:
    """Such as "a, b and c"."""
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else "".join(words)


def times(many: int) -> str:
    """Such as "once", "twice" or "7 times"."""
    return {1: "once", 2: "twice"}.get(many) or written.counted(many, "time")
