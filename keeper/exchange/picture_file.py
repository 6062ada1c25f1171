"""What a file is by its content, and opening it without falling into its traps."""

import os
import stat
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

from keeper.errors import KeeperError, UnreadablePhoto, shown_name

if TYPE_CHECKING:
    from PIL.Image import Image

ENDINGS = {
    "image/jpeg": "jpg",
    "image/png": "png",
    "image/webp": "webp",
    "image/heic": "heic",
    "image/heif": "heif",
    "image/tiff": "tif",
}
"""The kinds of pictures that are read, and the ending each is kept under."""

MOST_PIXELS = {"image/jpeg": 256_000_000}
"""JPEG is read at a fraction of its size; the largest phone cameras make 200 megapixels."""

MOST_PIXELS_UNPACKED = 128_000_000
"""Other kinds have to be unpacked whole, four bytes a pixel."""

MOST_EXIF = 16 << 20
"""Bytes. JPEG holds 64 KB of Exif; no camera writes a thousandth of this limit more."""

_FORMATS = {
    "image/jpeg": ["JPEG"],
    "image/png": ["PNG"],
    "image/webp": ["WEBP"],
    "image/heic": ["HEIF"],
    "image/heif": ["HEIF"],
    "image/tiff": ["TIFF"],
}
_HEIC_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs"}
_HEIF_BRANDS = {b"mif1", b"msf1"}
_AVIF_BRANDS = {b"avif", b"avis"}
_NEW_SUBFILE_TYPE, _DNG_VERSION = 254, 50706


def media_type(path: Path, called: Path | None = None) -> str:
    """What a file is by its content, whatever its ending; one of ENDINGS.

    ``called`` is the name that sentences give it, if not its own. Raises UnreadablePhoto for a folder, an empty file, a file that cannot be
    read, and anything that is none of these kinds.
    """
    name = shown_name(called or path)
    kind = _kind(_start(path, name))
    if not kind:
        raise UnreadablePhoto(f"{name} is no picture that can be taken in: JPEG, PNG, WebP, HEIC or TIFF.")
    return kind


def _start(path: Path, name: str) -> bytes:
    try:
        about = os.stat(path)
        if stat.S_ISDIR(about.st_mode):
            raise UnreadablePhoto(f"{name} is a folder, not a picture.")
        if not stat.S_ISREG(about.st_mode):
            # Opening a pipe or a device could wait for ever.
            raise UnreadablePhoto(f"{name} is not a file, so there is no picture in it.")
        if not about.st_size:
            raise UnreadablePhoto(f"{name} is empty: it has 0 bytes.")
        with open(path, "rb") as file:
            return file.read(64)
    except FileNotFoundError:
        raise UnreadablePhoto(f"{name} is not there any more.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise UnreadablePhoto(f"{name} cannot be read: {reason.lower()}.") from error


def _kind(start: bytes) -> str:
    if start.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if start.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if start[:4] == b"RIFF" and start[8:12] == b"WEBP":
        return "image/webp"
    if start[:4] in (b"II*\0", b"MM\0*", b"II+\0", b"MM\0+"):
        return "image/tiff"
    return _heif_kind(start) if start[4:8] == b"ftyp" else ""


def _heif_kind(start: bytes) -> str:
    # ISO/IEC 14496-12, 4.3: major brand, version, then the compatible brands.
    major, listed = start[8:12], start[16 : min(int.from_bytes(start[:4], "big"), 64)]
    brands = {major, *(listed[at : at + 4] for at in range(0, len(listed), 4))}
    if major in _HEIC_BRANDS:
        return "image/heic"
    return "image/heif" if major in _HEIF_BRANDS and not brands & _AVIF_BRANDS else ""


def boxes_are_whole(path: Path) -> bool:
    """Whether the boxes of a HEIC file fit into it.

    ISO/IEC 14496-12, 4.2: a box has its length in 32 bits, or 1 and then 64
    bits, or 0 for 'to the end'. The decoder itself fills what is missing with
    green and says nothing.
    """
    size, at = os.stat(path).st_size, 0
    with open(path, "rb") as file:
        while at < size:
            file.seek(at)
            head = file.read(16)
            length = int.from_bytes(head[:4], "big")
            if length == 0 and len(head) >= 8:
                return True
            if length == 1:
                length = int.from_bytes(head[8:16], "big")
            if length < 8 or at + length > size:
                return False
            at += length
    return True


@contextmanager
def opened(path: Path, kind: str = "", called: Path | None = None) -> Iterator["Image"]:
    """The picture in a file, opened but not yet unpacked; ``kind`` if known.

    ``called`` is the name that sentences give it, if not its own. Whatever
    goes wrong within the block is told as UnreadablePhoto: damage, truncation,
    more pixels or Exif than a photo can have.
    """
    kind = kind or media_type(path, called)
    name, pillow = shown_name(called or path), _pillow()
    try:
        if _FORMATS[kind] == ["HEIF"] and not boxes_are_whole(path):
            raise UnreadablePhoto(_broken(name))
        with pillow.open(path, formats=_FORMATS[kind]) as image:
            _check_sane(name, kind, image)
            yield image
    except KeeperError:
        raise
    except (pillow.DecompressionBombError, MemoryError) as error:
        raise UnreadablePhoto(f"{name} has more pixels than can be unpacked safely.") from error
    except Exception as error:
        # Broken bytes make the decoders raise nearly anything there is.
        raise UnreadablePhoto(_broken(name)) from error


def _check_sane(name: str, kind: str, image: "Image") -> None:
    width, height = image.size
    if width * height > MOST_PIXELS.get(kind, MOST_PIXELS_UNPACKED):
        millions = f"{width * height / 1e6:,.0f} million"
        raise UnreadablePhoto(f"{name} has {millions} pixels, more than can be unpacked safely.")
    if len(image.info.get("exif") or b"") > MOST_EXIF:
        raise UnreadablePhoto(f"{name} carries more Exif notes than any camera writes; it was left alone.")
    if kind == "image/tiff" and _is_raw(image):
        raise UnreadablePhoto(f"{name} is a camera\u2019s raw file. Take in the JPEG or HEIC made from it.")


def _is_raw(image: "Image") -> bool:
    # Raw files dress as TIFF and show a small preview first (TIFF 6.0,
    # NewSubfileType 1; DNG 1.6, DNGVersion).
    tags = image.tag_v2
    return _DNG_VERSION in tags or tags.get(_NEW_SUBFILE_TYPE) == 1


def _broken(name: str) -> str:
    return f"{name} is damaged or cut short, so it was left alone."


@cache
def _pillow() -> ModuleType:
    # Only when a picture is first read: neither belongs to the start.
    from pi_heif import register_heif_opener
    from PIL import Image

    register_heif_opener(thumbnails=False, depth_images=False, aux_images=False)
    # Pillow only warns up to twice its limit, and raises beyond. Within, our
    # own limits decide, by kind.
    Image.MAX_IMAGE_PIXELS = max(MOST_PIXELS.values()) // 2
    warnings.filterwarnings("ignore", category=Image.DecompressionBombWarning)
    # What is wrong with a file is told by raising, or is of no matter.
    warnings.filterwarnings("ignore", category=UserWarning, module=r"PIL\.")
    return Image
