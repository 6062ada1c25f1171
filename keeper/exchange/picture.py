"""Reading pictures: what they say of themselves, and how they are to be seen."""

import os
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from keeper.exchange import exif
from keeper.exchange.picture_file import ENDINGS, media_type, opened

if TYPE_CHECKING:
    from PIL.Image import Image

_ORIENTATION, _EXIF_IFD, _GPS_IFD = 0x0112, 0x8769, 0x8825
_PAPER = (255, 255, 255)
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
    ``taken_offset_minutes`` that clock minus UTC; coordinates are degrees
    (WGS 84). None is not known.
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

    @property
    def ending(self) -> str:
        """The ending, without a dot, that belongs to the content."""
        return ENDINGS[self.media_type]


def read_picture(path: Path) -> PictureFacts:
    """What a picture says of itself, once it is proven whole.

    Raises UnreadablePhoto, with a sentence, for whatever is not a sound
    picture.
    """
    return read_with_thumbnail(path, _PROOF)[0]


def read_with_thumbnail(path: Path, longest_side: int, called: Path | None = None) -> tuple[PictureFacts, bytes]:
    """``read_picture`` and ``thumbnail`` in one reading.

    ``called`` is the name that sentences give the file, if not its own.
    Raises UnreadablePhoto.
    """
    kind = media_type(path, called)
    with opened(path, kind, called) as image:
        facts = _facts(path, kind, image)
        return facts, jpeg(_small(image, longest_side), THUMBNAIL_QUALITY)


def thumbnail(path: Path, longest_side: int) -> bytes:
    """The picture as a small JPEG in sRGB, turned rightly, its longer side at most so many pixels.

    Raises UnreadablePhoto.
    """
    return jpeg(picture(path, longest_side), THUMBNAIL_QUALITY)


def picture(path: Path, longest_side: int | None = None) -> "Image":
    """The picture to look at: mode RGB in sRGB, turned rightly, made smaller if asked.

    Raises UnreadablePhoto.
    """
    with opened(path) as image:
        return _small(image, longest_side) if longest_side else upright(image)


def without_whereabouts(path: Path, longest_side: int | None = None) -> bytes:
    """A JPEG of the picture for whatever leaves the keeper: pixels and nothing else.

    Drawn anew, so no position, date, camera, caption, profile or embedded
    preview can be left in it. Raises UnreadablePhoto.
    """
    return jpeg(picture(path, longest_side), COPY_QUALITY)


def upright(image: "Image") -> "Image":
    """The picture turned rightly, in sRGB, on white where it was clear; mode RGB, no notes."""
    from PIL import Image, ImageOps

    turned = ImageOps.exif_transpose(_plain(image))
    profile = turned.info.get("icc_profile")
    alpha = turned.getchannel("A") if turned.mode == "RGBA" else None
    colours = _in_srgb(turned.convert("RGB") if alpha else turned, profile)
    if alpha:
        # Clear parts look as they would on paper.
        colours = Image.composite(colours, Image.new("RGB", colours.size, _PAPER), alpha)
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


def _facts(path: Path, kind: str, image: "Image") -> PictureFacts:
    orientation, tags, gps = _tags(image)
    width, height = image.size
    # TIFF gives its size as turned already; HEIC is turned by its decoder.
    if orientation >= 5 and kind != "image/tiff":
        width, height = height, width
    taken = exif.taken_local(tags)
    offset = exif.offset_minutes(tags) if taken else None
    where = exif.position(gps) or (None, None)
    return PictureFacts(kind, os.stat(path).st_size, width, height, orientation, taken, offset, *where)


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
