"""What a night's date held in other years, with honest stand-ins."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from keeper.days import anniversary, days_apart, same_day
from keeper.model import Night, Photo
from keeper.study.awake import Awake

ON_THE_DAY = "on the day"
NEAR_THE_DAY = "near the day"
AT_THE_PLACE = "at the place"
NOTHING = "nothing"

WEEK = 3
"""How many days before and after still count as the same week."""

_LEAP_YEAR = 2000


@dataclass(frozen=True, slots=True)
class LookingBack:
    """Earlier nights worth showing for ``night``.

    ``why`` is ON_THE_DAY, NEAR_THE_DAY, AT_THE_PLACE or NOTHING. ``photos``
    are the nights' own, where there is one and it does not rest.
    """

    night: date
    why: str
    nights: tuple[Night, ...] = ()
    place_name: str = ""
    photos: Mapping[date, Photo] = field(default_factory=dict)

    @property
    def on_the_day(self) -> bool:
        """Whether these are nights of the very same day."""
        return self.why == ON_THE_DAY


def days_to_look_at(night: date) -> tuple[str, ...]:
    """Every day of the year, as ``MM-DD``, in the week around a night."""
    around = {(anniversary(night, _LEAP_YEAR) + timedelta(days=n)) for n in range(-WEEK - 1, WEEK + 2)}
    return tuple(sorted(day.isoformat()[5:] for day in around))


def chosen(night: date, candidates: Sequence[date]) -> tuple[str, tuple[date, ...]]:
    """Which of the candidate nights to show, and why these.

    Those on the very day, newest first; else the nearest of that week in each
    other year.
    """
    on_the_day = tuple(sorted((c for c in candidates if same_day(night, c)), reverse=True))
    if on_the_day:
        return ON_THE_DAY, on_the_day
    nearest: dict[int, date] = {}
    for candidate in sorted(candidates, key=lambda c: (abs(days_apart(night, c)), c)):
        if abs(days_apart(night, candidate)) <= WEEK and (night - candidate).days > 2 * WEEK:
            nearest.setdefault(anniversary_year(night, candidate), candidate)
    return (NEAR_THE_DAY, tuple(sorted(nearest.values(), reverse=True))) if nearest else (NOTHING, ())


def anniversary_year(night: date, other: date) -> int:
    """The year whose anniversary of ``night`` lies nearest to ``other``."""
    return (other - timedelta(days=days_apart(night, other))).year


def last_time_there(night: date, nights_there: Sequence[date]) -> tuple[date, ...]:
    """The last nights of the stay before the present one, newest first.

    ``nights_there`` are earlier nights at the place, newest first; those that
    run on unbroken to ``night`` are the present stay. At most three.
    """
    expected = night - timedelta(days=1)
    before = list(nights_there)
    while before and before[0] >= expected - timedelta(days=2):
        expected = before.pop(0) - timedelta(days=1)
    last = before[:1]
    for earlier in before[1:3]:
        if last and last[-1] - earlier <= timedelta(days=3):
            last.append(earlier)
    return tuple(last)


def without_resting(night: Night, rule: Awake) -> Night:
    """The night with only what may be brought up unasked."""
    awake = tuple(line for line in night.lines if rule.line(line))
    place = night.place if night.place and rule.place(night.place) else None
    return Night(night.date, awake, place, night.place_source, night.photo_count)
