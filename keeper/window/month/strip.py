"""What a strip shows: one value a night of the month, and how it is drawn."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from keeper.review.month import MonthPlace, MonthView
from keeper.review.month_series import LINE, MARK, STICK, Series, drawn_as
from keeper.review.readings.axes import Axis, Crossed, axes
from keeper.window.month import wording as month_wording

__all__ = ["LINE", "MARK", "PLACE", "STICK", "Strip", "strip_of", "strip_of_axis", "strip_of_lines", "strip_of_places", "strips_of"]

PLACE = "place"


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip: a value a night, drawn as ``how`` says.

    Of a PLACE strip the values are places. ``told`` gives each night's value
    in words; ``note`` stands small under the name; ``ems`` is a height of its
    own. ``in_force``: the days that are ruled, None for all. ``beside`` are
    other readings on the same axis, ``crossed`` where they cross.
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
    in_force: range | None = None
    began: int = 0
    ended: int = 0
    beside: tuple["Strip", ...] = ()
    crossed: tuple[Crossed, ...] = ()

    @property
    def lines(self) -> tuple["Strip", ...]:
        """All that is drawn on its axis."""
        return (self, *self.beside)

    @property
    def shares(self) -> bool:
        """Whether there are several readings on its axis."""
        return bool(self.beside)

    def ruled(self, day: int) -> bool:
        """Whether anything could have been noted on a day."""
        return self.in_force is None or day in self.in_force


def strip_of(series: Series, name: str = "", heading: str = "") -> Strip:
    """The strip of a tracker's month."""
    tracker = series.tracker
    note = month_wording.spot_kept(series) or ("" if name else tracker.unit)
    return Strip(
        name or tracker.name, drawn_as(tracker), series.values, month_wording.nights_told(series), series.low, series.high,
        note, series.band, heading, in_force=series.in_force, began=series.began, ended=series.ended,
    )  # fmt: skip


def strip_of_axis(axis: Axis) -> Strip:
    """The strip of one reading, or of those that share an axis: those are all drawn as lines."""
    if len(axis.series) == 1:
        return strip_of(axis.series[0])
    first, *others = (replace(strip_of(one), how=LINE, low=axis.low, high=axis.high) for one in axis.series)
    return replace(first, beside=tuple(others), crossed=axis.crossed)


def strips_of(view: MonthView) -> list[Strip]:
    """The strips of a month's readings, marks at the end."""
    return [strip_of_axis(axis) for axis in axes(view.series)]


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
