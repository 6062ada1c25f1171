"""What a file is by its content, and opening it without falling into its traps."""

import os
import stat
import threading
import warnings
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from functools import cache
from io import BytesIO
from pathlib import Path
from types import ModuleType
from typing import TYPE_CHECKING

from keeper.errors import KeeperError, UnreadablePhoto, shown_name
from keeper.exchange.picture_kinds import BOXED, KINDS, NAMED, kind_of

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_PIXELS = {"image/jpeg": 256_000_000}
"""JPEG is read at a fraction of its size; the largest phone cameras make 200 megapixels."""

MOST_PIXELS_UNPACKED = 128_000_000
"""Other kinds have to be unpacked whole, four bytes a pixel."""

MOST_EXIF = 16 << 20
"""Bytes. JPEG holds 64 KB of Exif; no camera writes a thousandth of this limit more."""

LARGE, LARGE_AT_ONCE = 50_000_000, 2
"""Pixels from which on a picture is large, and how many large ones are unpacked at once, whatever the cores."""

_BLOCK = 64 << 20
"""Bytes: in pieces of this size the pixels of a picture lie in memory, small pictures in one as large as they are."""

_NEW_SUBFILE_TYPE, _DNG_VERSION = 254, 50706


def media_type(path: Path, called: Path | None = None) -> str:
    """What a file is by its content, whatever its ending; one of KINDS.

    ``called`` is the name that sentences give it, if not its own. Raises
    UnreadablePhoto for a folder, an empty file, a file that cannot be read,
    and anything that is none of these kinds.
    """
    name = shown_name(called or path)
    kind = kind_of(_start(path, name))
    if not kind:
        raise UnreadablePhoto(f"{name} is not a picture the keeper can take: {NAMED}.")
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
        raise UnreadablePhoto(f"{name} is not there.") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise UnreadablePhoto(f"{name} cannot be read: {reason.lower()}.") from error


def boxes_are_whole(path: Path) -> bool:
    """Whether the boxes of a HEIC or AVIF file fit into it.

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
def opened(path: Path, kind: str = "", called: Path | None = None, cut_off: bool = False) -> Iterator["Image"]:
    """The picture in a file, opened but not yet unpacked; ``kind`` if known.

    ``called`` is the name that sentences give it, if not its own. With
    ``cut_off`` a picture whose end is missing is opened as far as it goes.
    Whatever goes wrong within the block is told as UnreadablePhoto: damage,
    truncation, more pixels or Exif than a photo can have. Of large pictures
    no more than LARGE_AT_ONCE are open at a time; others wait.
    """
    kind = kind or media_type(path, called)
    name, pillow = shown_name(called or path), _pillow()
    try:
        if kind in BOXED and not (cut_off or boxes_are_whole(path)):
            raise UnreadablePhoto(_broken(name))
        source = _with_an_end(path, kind) if cut_off else path
        with pillow.open(source, formats=[KINDS[kind].decoder]) as image:
            _check_sane(name, kind, image)
            with _in_turn(image):
                if cut_off and kind != "image/jpeg":
                    _unpack_what_is_there(image)
                try:
                    yield image
                finally:
                    # Its pixels go before the next one's come.
                    image.close()
    except KeeperError:
        raise
    except (pillow.DecompressionBombError, MemoryError) as error:
        raise UnreadablePhoto(f"{name} has more pixels than can be opened safely.") from error
    except Exception as error:
        # Broken bytes make the decoders raise nearly anything there is.
        raise UnreadablePhoto(_broken(name)) from error


_turns = threading.BoundedSemaphore(LARGE_AT_ONCE)


def _in_turn(image: "Image") -> threading.BoundedSemaphore | nullcontext:
    # A large picture takes some hundred megabytes while it is unpacked.
    return _turns if image.width * image.height > LARGE else nullcontext()


def _with_an_end(path: Path, kind: str) -> Path | BytesIO:
    # With an end (ITU-T T.81, B.1.1.3, EOI) the decoder fills what is missing
    # of a JPEG with grey. Pillow's own switch for this is one for all threads.
    return BytesIO(path.read_bytes() + b"\xff\xd9") if kind == "image/jpeg" else path


def _unpack_what_is_there(image: "Image") -> None:
    try:
        image.load()
    except OSError:
        # What was unpacked until the end of the file stands; no more is to come.
        image.tile = []
        image.load()


def _check_sane(name: str, kind: str, image: "Image") -> None:
    width, height = image.size
    if width * height > MOST_PIXELS.get(kind, MOST_PIXELS_UNPACKED):
        millions = f"{width * height / 1e6:,.0f} million"
        raise UnreadablePhoto(f"{name} has {millions} pixels, more than can be opened safely.")
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
    # The C library gives blocks as large as this back when they are let go, and
    # keeps smaller ones for later, in each thread its own.
    Image.core.set_block_size(_BLOCK)
    # Pillow only warns up to twice its limit, and raises beyond. Within, our
    # own limits decide, by kind.
    Image.MAX_IMAGE_PIXELS = max(MOST_PIXELS.values()) // 2
    warnings.filterwarnings("ignore", category=Image.DecompressionBombWarning)
    # What is wrong with a file is told by raising, or is of no matter.
    warnings.filterwarnings("ignore", category=UserWarning, module=r"PIL\.")
    return Image
