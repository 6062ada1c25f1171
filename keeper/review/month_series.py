"""A month's readings, night by night, on scales that are the same every month."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil, log10

from keeper.days import last_of_month, nights
from keeper.model import Reading, Tracker
from keeper.study.readings.measure import on_axis

USUAL_SLEEP = (7.0, 9.0)
"""Hours that adults usually sleep (Hirshkowitz et al., Sleep Health 1, 2015); shown, never advised."""

_SLEEP = ("sleep", "slept")

GUEST = timedelta(days=62)
"""A tracker that ends within so many days is a guest: it is given no spot in the months it is not in."""

LINE, STICK, MARK = "line", "stick", "mark"
"""How a tracker's values are drawn: as points along a line, as heights from nothing, or as there or not."""


@dataclass(frozen=True, slots=True)
class Series:
    """A tracker's values by night of the month, on a scale that is the same every month.

    A value is None where nothing was noted. ``band`` is a quiet strip behind
    the values, or None. ``readings`` are the same nights as they were noted.
    ``in_force`` are the days of the month on which the tracker was; ``began``
    and ``ended`` the day of it on which it did, or 0; ``over``: it had ended
    before.
    """

    tracker: Tracker
    values: tuple[float | None, ...]
    low: float
    high: float
    band: tuple[float, float] | None = None
    in_force: range = range(0)
    began: int = 0
    ended: int = 0
    over: bool = False
    readings: tuple[Reading | None, ...] = ()

    @property
    def noted(self) -> int:
        """On how many nights something was noted."""
        return sum(value is not None for value in self.values)

    @property
    def here(self) -> bool:
        """Whether the tracker belongs to this month at all; else only its spot is kept."""
        return bool(self.in_force or self.noted)


def month_series(
    trackers: Iterable[Tracker], readings: Iterable[Reading], month: date, highest: Mapping[str, float],
    kept: Collection[date] = frozenset(),
) -> tuple[Series, ...]:  # fmt: skip
    """The readings of a month, one series for each tracker, marks below the others.

    A tracker has the same spot in all months of a year in which it was under
    way for any night; guests come last, in their own months. ``highest`` is
    the highest value ever noted of those that have no scale of their own;
    ``kept`` are nights with a line: on these, and where any reading was noted,
    an empty mark is a no. None when nothing at all was noted.
    """
    dates = list(nights(month.replace(day=1), last_of_month(month)))
    trackers = list(trackers)
    known = {one.id for one in trackers}
    noted = {(one.tracker_id, one.night): one for one in readings if one.tracker_id in known}
    if not noted:
        return ()
    kept = {*kept, *(night for _, night in noted)}
    made = [_series(one, dates, noted, kept, highest.get(one.id, 0.0)) for one in trackers]
    # One that ended and was taken up again is another by the same name.
    here = {one.tracker.name for one in made if one.here}
    shown = [one for one in made if one.here or (one.tracker.name not in here and _has_a_spot(one.tracker, month))]
    return tuple(sorted(shown, key=lambda one: (_is_guest(one.tracker), one.tracker.form == "mark")))


def _series(
    tracker: Tracker, dates: Sequence[date], noted: Mapping[tuple[str, date], Reading], kept: Collection[date], highest: float
) -> Series:
    its = tuple(noted.get((tracker.id, night)) for night in dates)
    row = tuple(value_on(tracker, night, one, night in kept) for night, one in zip(dates, its, strict=True))
    days = [night.day for night in dates if tracker.in_force(night)]
    ends = [night.day if night in dates else 0 for night in (tracker.began, tracker.ended)]
    whole = range(days[0], days[-1] + 1) if days else range(0)
    over = tracker.ended is not None and tracker.ended < dates[0]
    return Series(tracker, row, *scale(tracker, highest), band_of(tracker), whole, *ends, over, its)


def value_on(tracker: Tracker, night: date, noted: Reading | None, kept: bool) -> float | None:
    """Where a night stands on a tracker's axis of today, or None where nothing was noted.

    A mark left empty on a night that was kept is a no.
    """
    if noted is not None:
        return on_axis(tracker, noted)
    return 0.0 if tracker.form == "mark" and kept and tracker.in_force(night) else None


def _has_a_spot(tracker: Tracker, month: date) -> bool:
    return not _is_guest(tracker) and tracker.began.year <= month.year <= (tracker.ended or month).year


def _is_guest(tracker: Tracker) -> bool:
    return tracker.ended is not None and tracker.ended - tracker.began < GUEST


def drawn_as(tracker: Tracker) -> str:
    """LINE, STICK or MARK; an amount with a lowest value of its own has no nothing to rise from."""
    if tracker.form == "mark":
        return MARK
    return STICK if tracker.form == "count" or (tracker.form == "amount" and tracker.low is None) else LINE


def scale(tracker: Tracker, highest: float) -> tuple[float, float]:
    """The lowest and highest value of a tracker's axis: the same whatever the month, and in the year.

    Hours are drawn from 0 to 12, or as far as they ever went.
    """
    if tracker.form == "mark":
        return 0.0, 1.0
    low = tracker.low if tracker.low is not None else 0.0
    if tracker.high is not None and tracker.high > low:
        return low, tracker.high
    if tracker.form == "hours":
        return low, max(12.0, float(ceil(highest)))
    return low, low + _round_above(max(highest - low, 1.0))


def _round_above(value: float) -> float:
    step = 10.0 ** ceil(log10(value) - 1) / 2
    return ceil(value / step) * step


def band_of(tracker: Tracker) -> tuple[float, float] | None:
    """The band behind the values: adults' usual sleep, for hours of sleep only."""
    sleep = tracker.form == "hours" and any(word in tracker.name.casefold() for word in _SLEEP)
    return USUAL_SLEEP if sleep else None
