"""What a strip shows: one value a night of the month, and how it is drawn."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from keeper.review.month import MonthPlace, MonthView
from keeper.review.month_series import Series
from keeper.window.month import wording as month_wording

LINE, STICK, MARK, PLACE = "line", "stick", "mark", "place"
_AS = {"scale": LINE, "hours": LINE, "count": STICK, "amount": STICK, "mark": MARK}


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip: a value a night, drawn as ``how`` says.

    Of a PLACE strip the values are places. ``told`` gives each night's value
    in words; ``note`` stands small under the name; ``ems`` is a height of its own.
    """

    name: str
    how: str
    values: Sequence
    told: Sequence[str]
    low: float = 0.0
    high: float = 1.0
    note: str = ""
    band: tuple[float, float] | None = None
    heading: str = ""
    ems: float = 0.0


def strip_of(series: Series, name: str = "", heading: str = "") -> Strip:
    """The strip of a tracker's month."""
    tracker = series.tracker
    told = tuple("" if value is None else month_wording.value_told(tracker, value) for value in series.values)
    note = "" if name else tracker.unit
    return Strip(
        name or tracker.name, _AS[tracker.form], series.values, told, series.low, series.high, note, series.band, heading
    )


def strip_of_lines(view: MonthView, name: str, heading: str = "") -> Strip:
    """How many lines each night has."""
    counts = tuple(float(len(night.lines)) or None for night in view.nights)
    told = tuple(f"{count:.0f}" if count else "" for count in counts)
    return Strip(name, STICK, counts, told, 0.0, 3.0, heading=heading, ems=1.3)


def strip_of_places(view: MonthView, name: str, heading: str = "") -> Strip:
    """Where each night was spent."""
    where: dict[date, MonthPlace] = {night: place for place in view.places for night in place.nights}
    values = tuple(where.get(night.date) for night in view.nights)
    return Strip(name, PLACE, values, tuple(one.place.name if one else "" for one in values), heading=heading)
