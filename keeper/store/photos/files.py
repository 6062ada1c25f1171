"""Photos as files: the originals by their SHA-256, and thumbnails that may go.

Originals lie in ``photos/ab/<sha256>.<ending>``. A file is copied under a
passing name, forced to the disk and only then given its own, so a disk that
fills or a power cut leaves nothing that could be taken for a photo.
"""

import errno
import hashlib
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from secrets import token_hex

from keeper import private
from keeper.errors import CannotWrite, DamagedPhoto, UnreadablePhoto, shown_name
from keeper.model import Photo
from keeper.store.file import passing
from keeper.store.file.copies import force, force_folder
from keeper.store.file.folder import PHOTOS, THUMBNAILS

_COMING = ".coming-"
_CHUNK = 1 << 20

ROOM_LEFT = 1 << 20
"""Bytes that photos leave free on the disk: what is needed to write, and to take them away again."""


@dataclass(frozen=True, slots=True)
class Coming:
    """A copy that is in the keeper's folder, but not yet a photo of it."""

    file: Path
    sha256: str
    bytes: int


def receive(folder: Path, path: Path) -> Coming:
    """Copy a file into the keeper's folder under a passing name.

    ``settle`` makes it a photo, ``discard`` takes it away; one of them must
    follow. May be called from any thread. Raises UnreadablePhoto when the
    file cannot be read, CannotWrite when the copy cannot be written; then
    nothing is left behind.
    """
    with _writing(folder):
        coming = folder / PHOTOS / _coming_name(folder)
    try:
        with _writing(folder):
            private.make_folder(coming.parent)
            sha256, size = _copied(path, coming)
            _leave_room(folder)
    except BaseException:
        _gone(coming)
        raise
    return Coming(coming, sha256, size)


def _coming_name(folder: Path) -> str:
    return f"{_COMING}{passing.mark(folder)}-{token_hex(6)}"


def is_left_behind(folder: Path, file: Path) -> bool:
    """Whether a file is a copy or a thumbnail under way whose program is gone."""
    name = file.name
    return name.startswith(_COMING) and passing.left_behind(
        folder, file, name.removeprefix(_COMING).rpartition("-")[0]
    )


def settle(folder: Path, coming: Coming, ending: str) -> bool:
    """Give a received copy its own name; whether it was not there before.

    On return the bytes are on the disk; ``make_names_last`` does the same for
    the names. A photo that is there already stays, unless it was damaged:
    then the new copy takes its place. Raises CannotWrite; then the copy is
    gone.
    """
    target = folder / PHOTOS / relative_file(coming.sha256, ending)
    try:
        with _writing(folder):
            there = target.exists()
            if there and sha256_of(target) == coming.sha256:
                coming.file.unlink()
                return False
            private.make_folder(target.parent)
            force(coming.file)
            coming.file.replace(target)
    except BaseException:
        _gone(coming.file)
        raise
    return not there


def discard(coming: Coming) -> None:
    """Take away a received copy that is not to become a photo."""
    _gone(coming.file)


def make_names_last(folder: Path, sha256s: Iterator[str] | list[str]) -> None:
    """Force the names of settled photos to the disk. Raises CannotWrite."""
    with _writing(folder):
        for part in {folder / PHOTOS / sha256[:2] for sha256 in sha256s}:
            force_folder(part)
        force_folder(folder / PHOTOS)


def take_away(folder: Path, sha256: str, ending: str) -> None:
    """Delete a photo's file and its thumbnails, where they are. Raises CannotWrite."""
    with _writing(folder):
        (folder / PHOTOS / relative_file(sha256, ending)).unlink(missing_ok=True)
    for small in (folder / THUMBNAILS / sha256[:2]).glob(f"{sha256}-*.jpg"):
        _gone(small)


def sweep(folder: Path) -> None:
    """Clear away copies whose program is gone."""
    for left in (folder / PHOTOS).glob(f"{_COMING}*"):
        if is_left_behind(folder, left):
            _gone(left)


def relative_file(sha256: str, ending: str) -> Path:
    """Where a photo lies below ``photos/``."""
    return Path(sha256[:2]) / f"{sha256}.{ending}"


def check_file(file: Path, photo: Photo) -> None:
    """Raise DamagedPhoto, saying which photo and what is wrong with its file."""
    try:
        found = sha256_of(file)
    except FileNotFoundError:
        raise DamagedPhoto(_damaged(photo, f"its file is gone from {file.parent}")) from None
    except OSError as error:
        raise DamagedPhoto(_damaged(photo, f"its file cannot be read ({error.strerror or error})")) from error
    if found != photo.sha256:
        raise DamagedPhoto(_damaged(photo, f"its file {file.name} was changed or damaged"))


def sha256_of(file: Path) -> str:
    """The SHA-256 (FIPS 180-4) of a file, in hexadecimal. Raises OSError."""
    with file.open("rb") as source:
        return hashlib.file_digest(source, "sha256").hexdigest()


def thumbnail_file(folder: Path, sha256: str, longest_side: int, turns: int = 0) -> Path:
    """Where the thumbnail of a size (in pixels), so turned, is kept, be it there or not."""
    return folder / THUMBNAILS / sha256[:2] / f"{sha256}-{longest_side}-{turns}.jpg"


def kept_thumbnail(folder: Path, sha256: str, longest_side: int, turns: int = 0) -> bytes | None:
    """The JPEG kept of this size, so turned, or None when there is no whole one."""
    try:
        data = thumbnail_file(folder, sha256, longest_side, turns).read_bytes()
    except OSError:
        return None
    # Not forced to the disk when it was written, so a power cut may have cut it.
    return data if data.endswith(b"\xff\xd9") else None


def keep_thumbnail(folder: Path, sha256: str, longest_side: int, jpeg: bytes, turns: int = 0) -> None:
    """Keep a thumbnail. A disk that will not take it is let be: it can be made again."""
    file = thumbnail_file(folder, sha256, longest_side, turns)
    try:
        coming = file.with_name(_coming_name(folder))
    except OSError:
        return
    try:
        private.make_folder(file.parent)
        with open(coming, "wb", opener=private.opener) as small:
            small.write(jpeg)
        coming.replace(file)
    except OSError:
        _gone(coming)
    # Of this name when nothing could be turned, and clear pictures lay on white.
    _gone(file.with_name(f"{sha256}-{longest_side}.jpg"))


def _copied(path: Path, target: Path) -> tuple[str, int]:
    digest, size = hashlib.sha256(), 0
    with open(target, "xb", opener=private.opener) as out:
        for chunk in _read(path):
            digest.update(chunk)
            out.write(chunk)
            size += len(chunk)
    return digest.hexdigest(), size


def _leave_room(folder: Path) -> None:
    if shutil.disk_usage(folder).free < ROOM_LEFT:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def _read(path: Path) -> Iterator[bytes]:
    # Apart from the writing, so that a bad card is not taken for a full disk.
    try:
        with path.open("rb") as source:
            while chunk := source.read(_CHUNK):
                yield chunk
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise UnreadablePhoto(f"{shown_name(path)} cannot be read: {reason.lower()}.") from error


def _gone(file: Path) -> None:
    with suppress(OSError):
        file.unlink(missing_ok=True)


def _damaged(photo: Photo, what: str) -> str:
    named = shown_name(photo.name) if photo.name else "A photo without a name"
    return f"{named} cannot be shown: {what}. Take the same photo in again to mend it, or bring it back from a backup."


@contextmanager
def _writing(folder: Path) -> Iterator[None]:
    try:
        yield
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise CannotWrite(f"The photo cannot be kept in {folder}: {reason}.") from error
