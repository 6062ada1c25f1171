"""When the person wrote: mostly late in the evening, now and then next morning."""

import random
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from demo_db.prose import ToldNight
from demo_db.towns import BY_NAME
from keeper.model import Moment

MORNINGS = 0.04
"""How many nights are written up the morning after."""


def zones(nights: list[ToldNight]) -> dict[date, str]:
    """The zone the clock is set to each night; at sea, that of the port left behind."""
    zone, found = "", {}
    for night in nights:
        zone = BY_NAME[night.place].zone or zone
        found[night.date] = zone
    return found


def first_moment(night: date, zone: str, chance: random.Random) -> Moment:
    """When the first line of a night was kept: 21:10 to 01:20, or after breakfast."""
    if chance.random() < MORNINGS:
        return local_moment(night + timedelta(days=1), chance.uniform(7.2, 9.4), zone)
    return local_moment(night, min(max(chance.gauss(22.9, 0.85), 21.17), 25.2), zone)


def later(moment: Moment, seconds: float) -> Moment:
    """The same evening, a little later."""
    return Moment(moment.utc + timedelta(seconds=seconds), moment.offset_minutes, moment.zone)


def local_moment(day: date, hours: float, zone: str) -> Moment:
    """So many hours after a day began on the wall clock; 25 is one in the morning."""
    wall = datetime.combine(day, time()) + timedelta(seconds=round(hours * 3600))
    there = wall.replace(tzinfo=ZoneInfo(zone))
    offset = round(there.utcoffset().total_seconds() / 60)
    return Moment(there.astimezone(UTC), offset, zone)
