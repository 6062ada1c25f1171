"""Readings with a known structure, for closer looks."""

from datetime import date, timedelta

from keeper.model import Act, Reading, Tracker
from keeper.store import trackers

FIRST = date(2026, 1, 1)
ACT = Act("noted")


def night(number: int) -> date:
    """A night by its number, from 0."""
    return FIRST + timedelta(days=number)


def begin(store, name: str, form: str = "scale", **more) -> str:
    """A tracker that goes by its name."""
    ends = (0.0, 10.0) if form == "scale" else (None, None)
    told = {"unit": "", "better": "neither", "began": FIRST, **more}
    trackers.add(store, Tracker(name, name, form, *ends, **told), ACT)
    return f"reading:{name}"


def note(store, name: str, values, first: int = 0) -> None:
    """Values night by night; None is not noted."""
    noted = [Reading(night(first + number), name, float(one)) for number, one in enumerate(values) if one is not None]
    trackers.note(store, noted, ACT)


def dip_after(store, nights: int = 160, every: int = 16) -> tuple[str, str]:
    """A mark every so many nights, and a reading that goes up and down by one, and dips by three on the night after the mark."""
    mark, reading = begin(store, "ferry", "mark"), begin(store, "mood", body=True)
    yes = [float(number % every == 8) for number in range(nights)]
    note(store, "ferry", yes)
    note(store, "mood", [(number * 7 % 3) + 5 - 3 * (number % every == 9) for number in range(nights)])
    return mark, reading


def with_cycles(store, lengths=(28, 26, 30)) -> None:
    """Cycles that begin with a mark on two nights; the temperature rises on day 15, the mood is the day of the cycle over 10."""
    begin(store, "begun", "mark", body=True)
    begin(store, "temperature", "amount", unit="\u00b0C", body=True)
    begin(store, "mood", body=True)
    days = [day for length in (*lengths, 5) for day in range(1, length + 1)]
    note(store, "begun", [float(day <= 2) for day in days])
    note(store, "temperature", [36.4 + 0.05 * (day % 2) + 0.3 * (day >= 15) for day in days])
    note(store, "mood", [day // 10 + 1 for day in days])
