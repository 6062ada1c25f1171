"""When and where a picture was taken, from its Exif tags.

Exif 2.32 (CIPA DC-008): DateTimeOriginal, DateTimeDigitized and their offsets
(4.6.5 D), the GPS tags (4.6.6). Whatever is unset or senseless is None; cameras write
much of both.
"""

import math
import re
from collections.abc import Mapping
from datetime import datetime

from keeper.days import FIRST_NIGHT

DATE_TIME_ORIGINAL, OFFSET_TIME_ORIGINAL = 0x9003, 0x9011
DATE_TIME_DIGITIZED, OFFSET_TIME_DIGITIZED = 0x9004, 0x9012
LATITUDE_REF, LATITUDE, LONGITUDE_REF, LONGITUDE = 1, 2, 3, 4

_DATE = re.compile(r"\s*(\d{4})[:/.-](\d{1,2})[:/.-](\d{1,2})[ T]+(\d{1,2}):(\d{1,2})(?::(\d{1,2}))?")
_OFFSET = re.compile(r"\s*([+-])(\d{2}):?(\d{2})\s*")
_FARTHEST = 14 * 60
"""Minutes; no clock on earth is farther from UTC (UTC+14, the Line Islands)."""


def taken_local(tags: Mapping) -> datetime | None:
    """The camera's clock when the picture was taken (DateTimeOriginal), without a zone.

    None for 0000:00:00, for days that do not exist, and before nights begin
    (1800); so for the first day of 1800 too, whose small hours are of a night
    before. DateTime, when a program last saved it, is never asked.
    """
    return _moment(tags.get(DATE_TIME_ORIGINAL))


def digitized_local(tags: Mapping) -> datetime | None:
    """When the picture was made into a file (DateTimeDigitized): of a photo its taking, of a scan the scan."""
    return _moment(tags.get(DATE_TIME_DIGITIZED))


def _moment(value: object) -> datetime | None:
    spelt = _DATE.match(_text(value))
    if not spelt:
        return None
    try:
        taken = datetime(*(int(part or 0) for part in spelt.groups()))
    except ValueError:
        return None
    return taken if taken.date() > FIRST_NIGHT else None


def offset_minutes(tags: Mapping, tag: int = OFFSET_TIME_ORIGINAL) -> int | None:
    """The camera's clock minus UTC, in minutes; None when it did not tell."""
    return read_offset(_text(tags.get(tag)))


def read_offset(text: str) -> int | None:
    """Minutes of an offset spelt as +02:00 or Z; None for what is none, or farther than any clock is."""
    if text.strip() == "Z":
        return 0
    spelt = _OFFSET.fullmatch(text)
    if not spelt or int(spelt[3]) > 59:
        return None
    minutes = int(spelt[2]) * 60 + int(spelt[3])
    if minutes > _FARTHEST:
        return None
    return -minutes if spelt[1] == "-" else minutes


def position(tags: Mapping) -> tuple[float, float] | None:
    """Latitude and longitude in degrees (WGS 84), north and east positive.

    None when either is missing, has no reference (N, S, E, W), is no number
    or lies outside the globe. Exactly 0, 0 is what devices write that have
    not found themselves, and open sea: None as well.
    """
    latitude = _degrees(tags.get(LATITUDE), _text(tags.get(LATITUDE_REF)), "NS")
    longitude = _degrees(tags.get(LONGITUDE), _text(tags.get(LONGITUDE_REF)), "EW")
    if latitude is None or longitude is None or (latitude, longitude) == (0.0, 0.0):
        return None
    if abs(latitude) > 90 or abs(longitude) > 180:
        return None
    return latitude, longitude


def _degrees(parts: object, reference: str, letters: str) -> float | None:
    letter = reference.strip()[:1].upper()
    if not letter or letter not in letters:
        return None
    try:
        degrees, minutes, *rest = (float(part) for part in parts)
    except (TypeError, ValueError, ZeroDivisionError, OverflowError):
        return None
    # Some devices write the minutes as a fraction and the seconds as 0/0.
    seconds = rest[0] if rest and math.isfinite(rest[0]) else 0.0
    value = degrees + minutes / 60 + seconds / 3600
    if not math.isfinite(value):
        return None
    return -value if letter == letters[1] else value


def _text(value: object) -> str:
    if isinstance(value, bytes):
        value = value.decode("ascii", "replace")
    return value.split("\0")[0] if isinstance(value, str) else ""
