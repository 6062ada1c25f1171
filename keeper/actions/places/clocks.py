"""What the clock showed where a line was written: that of the night's place, where it was written there."""

from datetime import date, datetime

from keeper.days import night_of
from keeper.model import Moment, Place


def written_at(written: Moment, night: date, place: Place | None, rollover: int = 4) -> datetime:
    """The local moment at which a line of a night was written.

    A computer may still go by the clock of the place before; the place's own
    zone (IANA) is the right one for what was written on that night. Later, one
    may be anywhere: then it is the clock that the person saw.
    """
    there = _by_the_clock_of(place.zone, written.utc) if place and not place.on_the_way else None
    if there is not None and night_of(there, rollover) == night:
        return there
    return written.here()


def _by_the_clock_of(zone: str, moment: datetime) -> datetime | None:
    if not zone:
        return None
    from zoneinfo import ZoneInfo

    try:
        return moment.astimezone(ZoneInfo(zone))
    except (LookupError, ValueError, OSError):
        return None
