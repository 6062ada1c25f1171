"""When a picture was taken, by the best of what it tells: its camera, its notes, its name."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from keeper.days import FIRST_NIGHT
from keeper.exchange import exif, file_dates, xmp


@dataclass(frozen=True, slots=True)
class Dated:
    """When a picture was taken.

    ``local`` is the clock's, without a zone, noon where only the day is told
    (``day_only``); ``offset_minutes`` that clock minus UTC, if known. ``by``
    says from what: "" DateTimeOriginal, "digitized" DateTimeDigitized,
    "notes" XMP, "name" the file's name, which is a guess.
    """

    local: datetime | None = None
    offset_minutes: int | None = None
    by: str = ""
    day_only: bool = False


def dated(tags: Mapping[int, Any], packet: bytes, name: str) -> Dated:
    """The first that is told of: DateTimeOriginal, DateTimeDigitized, XMP, the file's name.

    When a program last saved the file is never asked. An empty Dated where
    nothing is told.
    """
    if taken := exif.taken_local(tags):
        return Dated(taken, exif.offset_minutes(tags))
    if taken := exif.digitized_local(tags):
        return Dated(taken, exif.offset_minutes(tags, exif.OFFSET_TIME_DIGITIZED), "digitized")
    return _by_notes(packet) or _by_name(name) or Dated()


def _by_notes(packet: bytes) -> Dated | None:
    found = xmp.taken(packet)
    if found is None or found.local.date() <= FIRST_NIGHT:
        return None
    return Dated(found.local, exif.read_offset(found.offset), "notes", found.day_only)


def _by_name(name: str) -> Dated | None:
    found = file_dates.taken(name)
    return Dated(found[0], None, "name", found[1]) if found else None
