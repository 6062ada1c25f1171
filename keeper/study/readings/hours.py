"""Hours as a person types them: a length, or from and until, past midnight and over a change of the clock."""

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from keeper.study.readings.numbers import number

LONGEST = 100.0
"""More hours than anybody fasts."""

_AT = r"(\d{1,2})(?:[:.h](\d{2})|h)?\s*(?:([ap])\.?m?\.?)?"
# Not compiled before they are needed: the window starts with them.
_TWO_TIMES = rf"(?i)(?:from\s+)?{_AT}\s*(?:-|\u2013|\u2014|to|until|till)\s*{_AT}"
_CLOCKED = r"(?i)(\d{1,3})\s*(?::|h|hrs?|hours?)\s*([0-5]?\d)?\s*(?:m|min|minutes)?"
_MINUTES = r"(?i)(\d{1,4})\s*(?:m|min|minutes)"
_UNIT = r"(?i)\s*(?:h|hrs?|hours?)$"
_ONE = timedelta(days=1)


def length(typed: str) -> float | None:
    """The hours that 7.5, 7,5, 7:30, 7h30 or 90 min mean; None for what is no length, or longer than LONGEST."""
    text = typed.strip()
    hours: float | None
    if (clocked := re.fullmatch(_CLOCKED, text)) and not (":" in text and len(clocked[2] or "") < 2):
        hours = int(clocked[1]) + int(clocked[2] or 0) / 60
    elif minutes := re.fullmatch(_MINUTES, text):
        hours = int(minutes[1]) / 60
    else:
        hours = number(re.sub(_UNIT, "", text))
    return hours if hours is not None and 0 <= hours <= LONGEST else None


def two_times(typed: str) -> tuple[time, time] | None:
    """From when until when, such as 23:30-6:45 or 11pm to 6:45; None for what is not that."""
    found = re.fullmatch(_TWO_TIMES, typed.strip())
    if not found:
        return None
    ends = _time(*found.groups()[:3]), _time(*found.groups()[3:])
    return None if None in ends else ends


def _time(hour: str, minute: str | None, half: str | None) -> time | None:
    at = int(hour)
    if half:
        at = at % 12 + (12 if half.lower() == "p" else 0) if 1 <= at <= 12 else 99
    return time(at % 24, int(minute or 0)) if at <= 24 and int(minute or 0) <= 59 else None


@dataclass(frozen=True, slots=True)
class Whence:
    """Where and when hours are noted: the zone of their night, the moment now (aware), and the hour at which a night ends."""

    zone: tzinfo
    now: datetime
    rollover: int = 4


def between(first: time, until: time, night: date, here: Whence) -> float:
    """The hours that passed from one local time until the next such other one, in the zone of the night.

    The first belongs to the night's day, which ends at the rollover hour; but
    what would not be over by now was a day earlier, as sleep that is noted in
    the evening. On the nights when clocks change an hour less or more passes. Of a
    time that comes twice the earlier is meant.
    """
    begins = datetime.combine(night + _ONE if first.hour < here.rollover else night, first, here.zone)
    if _end(begins, until) > here.now:
        begins = datetime.combine(begins.date() - _ONE, first, here.zone)
    passed = _end(begins, until) - begins.astimezone(UTC)
    return max(passed / timedelta(hours=1), 0.0)


def _end(begins: datetime, until: time) -> datetime:
    # By the clock on the wall, then as it was lived.
    on = begins.date() if until > begins.time() else begins.date() + _ONE
    return datetime.combine(on, until, begins.tzinfo).astimezone(UTC)
