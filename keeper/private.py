"""Only their owner may read them: how a keeper's files and folders are made, and closed to others."""

import os
from contextlib import suppress
from pathlib import Path

FOLDER, FILE = 0o700, 0o600
_OTHERS = 0o077


def keep_to_oneself() -> None:
    """From now on, whatever this program makes is its owner's alone (libraries' files too)."""
    os.umask(_OTHERS)


def opener(path: str, flags: int) -> int:
    """For ``open``: a file that is made is its owner's alone."""
    return os.open(path, flags, FILE)


def make_folder(folder: Path) -> None:
    """Make a folder, its owner's alone, where there is none, and those it lies in. Raises OSError."""
    try:
        folder.mkdir(mode=FOLDER)
    except FileNotFoundError:
        make_folder(folder.parent)
        folder.mkdir(mode=FOLDER, exist_ok=True)
    except FileExistsError:
        if not folder.is_dir():
            raise


def make_file(file: Path) -> None:
    """Make an empty file, its owner's alone, where there is none. Raises OSError."""
    os.close(opener(os.fspath(file), os.O_RDWR | os.O_CREAT))


def close(path: str | os.PathLike) -> None:
    """Take from all others what they may do with a file or folder that is there.

    What belongs to somebody else, or lies where nothing can be changed, is
    let be.
    """
    if not hasattr(os, "geteuid"):
        return
    with suppress(OSError):
        told = os.stat(path)
        if told.st_mode & _OTHERS and told.st_uid == os.geteuid():
            os.chmod(path, told.st_mode & 0o7777 & ~_OTHERS)
