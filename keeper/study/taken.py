"""When a photo was taken, by the clocks of the place where it was taken."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from keeper.model import Photo
from keeper.study.where import zone_at


def taken_there(photo: Photo) -> datetime | None:
    """The local moment at which a photo was taken, where it was taken; None without a date.

    That is what its camera's clock showed, unless the photo tells both that
    clock's offset from UTC and a position in whose time zone (IANA) another
    held then: a camera that kept the time of home.
    """
    taken, offset = photo.taken_local, photo.taken_offset_minutes
    if taken is None or photo.day_only or None in (offset, photo.latitude, photo.longitude):
        return taken
    try:
        zone = ZoneInfo(zone_at(photo.latitude, photo.longitude))
        return (taken - timedelta(minutes=offset)).replace(tzinfo=UTC).astimezone(zone).replace(tzinfo=None)
    except (ZoneInfoNotFoundError, OverflowError, ValueError):
        return taken
