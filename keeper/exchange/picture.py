"""Reading pictures: what they say of themselves, and how they are to be seen."""

import os
from dataclasses import dataclass, replace
from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from keeper.errors import CutOffPhoto, UnreadablePhoto, shown_name
from keeper.exchange import exif
from keeper.exchange.dating import dated
from keeper.exchange.ground import ground_for
from keeper.exchange.picture_file import media_type, opened
from keeper.exchange.picture_kinds import KINDS

if TYPE_CHECKING:
    from PIL.Image import Image

_ORIENTATION, _EXIF_IFD, _GPS_IFD = 0x0112, 0x8769, 0x8825
_XMP = 700
_PROOF = 64
"""Pixels: small enough to be quick, and still every byte of the file is read."""

THUMBNAIL_QUALITY, COPY_QUALITY = 82, 92


@dataclass(frozen=True, slots=True)
class PictureFacts:
    """What a picture says of itself.

    ``media_type`` is by content. ``bytes`` is the file's length. ``width`` and
    ``height`` are pixels of the picture turned rightly; ``orientation`` is
    Exif's (1 to 8), 1 where the decoder has already turned it (HEIC).
    ``taken_local`` is the camera's clock, without a zone,
    ``taken_offset_minutes`` that clock minus UTC; ``dated_by`` and
    ``day_only`` as ``dating.Dated`` tells. Coordinates are degrees (WGS 84).
    None is not known. Of a picture that is ``cut_off`` the end is missing.
    """

    media_type: str
    bytes: int
    width: int
    height: int
    orientation: int = 1
    taken_local: datetime | None = None
    taken_offset_minutes: int | None = None
    latitude: float | None = None
    longitude: float | None = None
    dated_by: str = ""
    day_only: bool = False
    cut_off: bool = False

    @property
    def ending(self) -> str:
        """The ending, without a dot, that belongs to the content."""
        return KINDS[self.media_type].endings[0]


def read_picture(path: Path) -> PictureFacts:
    """What a picture says of itself, once it is proven whole.

    Raises UnreadablePhoto, with a sentence, for whatever is not a sound
    picture.
    """
    return read_with_thumbnail(path, _PROOF)[0]


def read_with_thumbnail(
    path: Path, longest_side: int, called: Path | None = None, cut_off: bool = False
) -> tuple[PictureFacts, bytes]:
    """``read_picture`` and ``thumbnail`` in one reading.

    ``called`` is the name that sentences give the file, if not its own, and
    that may tell its date. With ``cut_off`` a picture whose end is missing is
    read as far as it goes. Raises UnreadablePhoto, and of it CutOffPhoto for
    a picture that would be read with ``cut_off``.
    """
    kind = media_type(path, called)
    try:
        with opened(path, kind, called) as image:
            facts = _facts(path, kind, image, called)
            return facts, jpeg(_small(image, longest_side), THUMBNAIL_QUALITY)
    except UnreadablePhoto as problem:
        found = _as_far_as_it_goes(path, kind, longest_side, called)
        if found is None:
            raise
        if not cut_off:
            name = shown_name(called or path)
            raise CutOffPhoto(f"{name} is damaged or cut short; only a part of it can be seen.") from problem
        return found


def _as_far_as_it_goes(
    path: Path, kind: str, longest_side: int, called: Path | None
) -> tuple[PictureFacts, bytes] | None:
    try:
        with opened(path, kind, called, cut_off=True) as image:
            facts = replace(_facts(path, kind, image, called), cut_off=True)
            small = _small(image, longest_side)
    except UnreadablePhoto:
        return None
    # One colour all over is what decoders fill in where nothing was read.
    seen = any(low != high for low, high in small.getextrema())
    return (facts, jpeg(small, THUMBNAIL_QUALITY)) if seen else None


def look_at(path: Path) -> PictureFacts:
    """What a picture says of itself by its head alone, not yet proven whole: quick. Raises UnreadablePhoto."""
    kind = media_type(path)
    with opened(path, kind) as image:
        return _facts(path, kind, image, None)


def thumbnail(path: Path, longest_side: int, turns: int = 0, cut_off: bool = False) -> bytes:
    """The picture as a small JPEG; the rest as ``picture``. Raises UnreadablePhoto."""
    return jpeg(picture(path, longest_side, turns, cut_off), THUMBNAIL_QUALITY)


def picture(path: Path, longest_side: int | None = None, turns: int = 0, cut_off: bool = False) -> "Image":
    """The picture to look at: mode RGB in sRGB, turned rightly, its longer side at most so many pixels.

    ``turns`` are quarters to the right beyond what the file says of itself;
    with ``cut_off`` one whose end is missing is read as far as it goes. Raises
    UnreadablePhoto.
    """
    with opened(path, cut_off=cut_off) as image:
        seen = _small(image, longest_side) if longest_side else upright(image)
        return _turned(seen, turns)


def without_whereabouts(path: Path, longest_side: int | None = None, turns: int = 0, cut_off: bool = False) -> bytes:
    """A JPEG of the picture for whatever leaves the keeper: pixels and nothing else.

    Drawn anew, so no position, date, camera, caption, profile or embedded
    preview can be left in it. Raises UnreadablePhoto.
    """
    return jpeg(picture(path, longest_side, turns, cut_off), COPY_QUALITY)


def _turned(image: "Image", turns: int) -> "Image":
    from PIL.Image import Transpose

    # Pillow counts against the clock.
    how = (None, Transpose.ROTATE_270, Transpose.ROTATE_180, Transpose.ROTATE_90)[turns % 4]
    return image if how is None else image.transpose(how)


def upright(image: "Image") -> "Image":
    """The picture turned rightly, in sRGB, on a ground where it was clear; mode RGB, no notes."""
    from PIL import Image, ImageOps

    turned = ImageOps.exif_transpose(_plain(image))
    profile = turned.info.get("icc_profile")
    alpha = turned.getchannel("A") if turned.mode == "RGBA" else None
    colours = _in_srgb(turned.convert("RGB") if alpha else turned, profile)
    if alpha:
        colours = Image.composite(colours, Image.new("RGB", colours.size, ground_for(colours, alpha)), alpha)
    colours.info = {}
    return colours


def jpeg(image: "Image", quality: int) -> bytes:
    """An RGB picture as JPEG (ITU-T T.81)."""
    out = BytesIO()
    image.save(out, "JPEG", quality=quality, subsampling=0 if quality >= COPY_QUALITY else 2)
    return out.getvalue()


def _small(image: "Image", longest_side: int) -> "Image":
    # JPEG is unpacked at an eighth to a half of its size where that will do.
    small = image if image.format in ("JPEG", "MPO") else _plain(image)
    small.thumbnail((longest_side, longest_side), reducing_gap=2.0)
    return upright(small)


def _facts(path: Path, kind: str, image: "Image", called: Path | None) -> PictureFacts:
    orientation, tags, gps = _tags(image)
    width, height = image.size
    # TIFF gives its size as turned already; HEIC is turned by its decoder.
    if orientation >= 5 and kind != "image/tiff":
        width, height = height, width
    when = dated(tags, _packet(image), (called or path).name)
    where = exif.position(gps) or (None, None)
    return PictureFacts(
        kind, os.stat(path).st_size, width, height, orientation, when.local, when.offset_minutes, *where,
        when.by, when.day_only,
    )  # fmt: skip


def _packet(image: "Image") -> bytes:
    found = image.info.get("xmp") or getattr(image, "tag_v2", {}).get(_XMP) or b""
    return found.encode("utf-8", "replace") if isinstance(found, str) else bytes(found)


def _tags(image: "Image") -> tuple[int, dict, dict]:
    try:
        found = image.getexif()
        orientation = found.get(_ORIENTATION, 1)
        tags, gps = found.get_ifd(_EXIF_IFD), found.get_ifd(_GPS_IFD)
    except Exception:
        # Broken notes do not make a picture less of a picture.
        return 1, {}, {}
    return (orientation if orientation in range(1, 9) else 1), tags, gps


def _plain(image: "Image") -> "Image":
    # Modes that neither shrink nor change colour well, as ones that do.
    if image.mode in ("P", "PA", "LA", "La", "RGBa") or "transparency" in image.info:
        image.load()
        clear = "transparency" in image.info or image.mode in ("PA", "LA", "La", "RGBa")
        return image.convert("RGBA" if clear else "RGB")
    if image.mode == "1":
        return image.convert("L")
    return _eight_bits(image) if image.mode[0] in "IF" else image


def _eight_bits(image: "Image") -> "Image":
    values = image.convert("F")
    low, high = (0.0, 65535.0) if image.mode.startswith("I;16") else values.getextrema()
    scale = 255.0 / (high - low) if high > low else 0.0
    grey = values.point(lambda value: value * scale - low * scale).convert("L")
    grey.info = dict(image.info)
    return grey


def _in_srgb(image: "Image", profile: bytes | None) -> "Image":
    from PIL import ImageCms

    if profile:
        try:
            source = ImageCms.ImageCmsProfile(BytesIO(profile))
            if not ImageCms.getProfileDescription(source).lower().startswith("srgb"):
                return ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
        except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
            # A broken or unfitting profile: the numbers as they stand.
            pass
    return image.convert("RGB")
