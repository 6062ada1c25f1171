"""A photo that is kept."""

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True)
class Photo:
    """An image file kept by its SHA-256, and what it says of when and where.

    ``bytes`` is the file's length. ``width`` and ``height`` are pixels of the
    picture as it is seen, turned as the person wants it; ``orientation`` is
    Exif's, 1 to 8, which says how the file's own rows lie, and ``turns`` are
    the quarters to the right (0 to 3) that the person turned it beyond that.
    ``taken_local`` is the camera's clock, without a zone;
    ``taken_offset_minutes`` is that clock minus UTC, if the camera told.
    ``dated_by`` says from what that is known: "" from when the camera says it
    was taken, "digitized" from when it became a file, "notes" from XMP,
    "name" guessed from the file's name; ``day_only`` that no hour is told
    (then it is noon). Coordinates are degrees (WGS 84). ``name`` is what the
    file was called when it came. One that is ``cut_off`` was taken in though
    its end is missing.
    """

    id: str
    sha256: str
    ending: str
    bytes: int
    width: int | None = None
    height: int | None = None
    orientation: int = 1
    taken_local: datetime | None = None
    taken_offset_minutes: int | None = None
    latitude: float | None = None
    longitude: float | None = None
    name: str = ""
    caption: str = ""
    resting: bool = False
    turns: int = 0
    dated_by: str = ""
    day_only: bool = False
    cut_off: bool = False
