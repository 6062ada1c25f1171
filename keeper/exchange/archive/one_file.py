"""A bag in one file, a ZIP (RFC 8493, section 4; APPNOTE.TXT): made, read back, and laid open again.

Such files come from anywhere. What they name is put nowhere but into the folder
given, no link is made, and no more is unpacked than the file can have held.
"""

import hashlib
import os
import shutil
import stat
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from keeper import private
from keeper.errors import BadArchive, CannotWrite, Stopped, shown_name
from keeper.exchange.archive import names
from keeper.exchange.picture_kinds import ENDINGS as PICTURES

ENDING = ".zip"

_AT_A_TIME = 1 << 20
_MOST_TOLD = 64 << 20
"""Bytes of its list of files; a million files are listed in not much more."""

_TIMES, _BESIDES = 100, 64 << 20
"""No more is unpacked than so many times what the file has, and so many bytes: texts are packed to a tenth."""

_ROOM_LEFT = 64 << 20
"""Bytes that stay free on the disk."""

_WAYS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)

Progress = Callable[[float, str], None]


def is_one_file(path: Path) -> bool:
    """Whether an archive of this name lies in one file."""
    return path.suffix.lower() == ENDING


def pack(folder: Path, target: Path, name: str, progress: Progress, stopped: Callable[[], bool]) -> None:
    """Put a bag into a new file, within it in a folder of this name. Raises OSError, Stopped."""
    files = sorted(one for one in folder.rglob("*") if one.is_file())
    whole, so_far = sum(one.stat().st_size for one in files) or 1, 0
    with open(target, "xb", opener=private.opener) as out, zipfile.ZipFile(out, "w", strict_timestamps=False) as made:
        for file in files:
            if stopped():
                raise Stopped
            # A picture is packed already.
            how = zipfile.ZIP_STORED if file.suffix[1:].lower() in PICTURES else zipfile.ZIP_DEFLATED
            made.write(file, f"{name}/{file.relative_to(folder).as_posix()}", how)
            so_far += file.stat().st_size
            progress(so_far / whole, "Into one file")


def differing(file: Path, name: str, sha256: Mapping[str, str], stopped: Callable[[], bool]) -> Iterator[str]:
    """Read all of it back: the files, by their paths within the bag, that are not as they should be. Raises OSError, Stopped."""
    with zipfile.ZipFile(file) as made:
        for path, wanted in sha256.items():
            if stopped():
                raise Stopped
            try:
                with made.open(f"{name}/{path}") as source:
                    same = hashlib.file_digest(source, "sha256").hexdigest() == wanted
            except (KeyError, zipfile.BadZipFile, zlib.error, EOFError):
                same = False
            if not same:
                yield path


def holds_a_bag(file: Path) -> bool:
    """Whether it is such a file, by its list alone."""
    try:
        with zipfile.ZipFile(file) as made:
            return any(name.count("/") == 1 and name.endswith("/bagit.txt") for name in made.namelist())
    except (OSError, zipfile.BadZipFile, ValueError, NotImplementedError):
        return False


def lay_open(file: Path, into: Path, progress: Progress, stopped: Callable[[], bool]) -> Path:
    """Unpack a bag into an empty folder; returns the bag's own folder.

    Raises BadArchive for a file that is none, or that no bag would be; CannotWrite where there is no room, Stopped.
    """
    called = shown_name(file)
    _must_have_a_bearable_list(file, called)
    try:
        with zipfile.ZipFile(file) as packed:
            # Not is_dir: of a file without a name it asks for the last letter.
            its = [one for one in packed.infolist() if not one.filename.endswith("/")]
            top = _checked(its, file, called)
            _must_have_room(sum(one.file_size for one in its), into)
            _unpack(packed, its, into, progress, stopped)
    except (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, UnicodeError, ValueError, struct.error) as error:
        raise BadArchive(f"{called} is damaged or cut short: it cannot be unpacked.") from error
    return into / top


def _must_have_a_bearable_list(file: Path, called: str) -> None:
    try:
        # Opening a pipe or a device could wait for ever.
        if not stat.S_ISREG(file.stat().st_mode):
            raise BadArchive(f"{called} is neither a folder nor a file.")
        with file.open("rb") as source:
            source.seek(-min(file.stat().st_size, (1 << 16) + 22), os.SEEK_END)
            end = source.read()
    except OSError as error:
        raise BadArchive(f"{called} cannot be read: {(error.strerror or str(error)).lower()}.") from error
    # The end of the central directory (APPNOTE 4.3.16) tells how long that is.
    at = end.rfind(b"PK\x05\x06")
    if at < 0 or len(end) < at + 22:
        raise BadArchive(f"{called} is no archive: it is not a whole ZIP file.")
    if struct.unpack_from("<I", end, at + 12)[0] > _MOST_TOLD:
        raise BadArchive(f"{called} lists more files than any archive has. It was not read.")


def _checked(its: list[zipfile.ZipInfo], file: Path, called: str) -> str:
    """The name of the one folder in which all of it lies. Raises BadArchive."""
    seen: set[str] = set()
    for one in its:
        names.must_stay_within(one.filename)
        kind = stat.S_IFMT(one.external_attr >> 16)
        if kind not in (0, stat.S_IFREG):
            raise BadArchive(f"{names.shown(one.filename)} in the archive is a link, or something else that is not a file. Nothing was read of it.")
        if one.flag_bits & 1:
            raise BadArchive(f"{called} is locked by a password. Unpack it, and take in its folder.")
        if one.compress_type not in _WAYS:
            raise BadArchive(f"{called} is packed in a way that is not read. Unpack it, and take in its folder.")
        if one.filename in seen:
            raise BadArchive(f"The archive lists {names.shown(one.filename)} twice.")
        seen.add(one.filename)
    tops = {name.partition("/")[0] for name in seen}
    if len(tops) != 1 or not all("/" in name for name in seen):
        raise BadArchive(f"{called} is no archive: there is not one folder in it that holds all else.")
    size = file.stat().st_size
    if sum(one.compress_size for one in its) > size or sum(one.file_size for one in its) > _TIMES * size + _BESIDES:
        raise BadArchive(f"{called} says that it holds more than it can. It was not unpacked.")
    return tops.pop()


def _must_have_room(wanted: int, into: Path) -> None:
    free = shutil.disk_usage(into).free
    if wanted + _ROOM_LEFT > free:
        raise CannotWrite(f"To unpack the archive {wanted / 1e6:,.0f} MB have to be free, and {free / 1e6:,.0f} MB are.")


def _unpack(packed: zipfile.ZipFile, its: list[zipfile.ZipInfo], into: Path, progress: Progress, stopped: Callable[[], bool]) -> None:
    whole, so_far = sum(one.file_size for one in its) or 1, 0
    for one in its:
        target = into / one.filename
        try:
            private.make_folder(target.parent)
            out = open(target, "xb", opener=private.opener)  # noqa: SIM115 (what it is opened for may be told otherwise)
        except (FileExistsError, NotADirectoryError, ValueError):
            raise BadArchive(f"{names.shown(one.filename)} in the archive stands where something else does. Nothing was taken in.") from None
        with out, packed.open(one) as source:
            while chunk := source.read(_AT_A_TIME):
                if stopped():
                    raise Stopped
                out.write(chunk)
                so_far += len(chunk)
                progress(so_far / whole, "Unpacking")
