"""The lock that lets a keeper have one window, and the name under which that window listens."""

import os
import time
from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QCryptographicHash, QLockFile

_JUST_MADE = 2
"""Seconds."""


def address(folder: Path) -> str:
    """The name under which the window of a keeper listens, by whatever links its folder is reached."""
    real = os.fsencode(os.path.realpath(folder))
    digest = QCryptographicHash.hash(real, QCryptographicHash.Algorithm.Sha256)
    return "keeper-" + bytes(digest.toHex()[:24]).decode()


def lock(folder: Path) -> QLockFile | None:
    """The lock of a keeper's window; None when another window has it.

    It lies beside the folder, so that the demo's can be laid out anew under
    it; where nothing can be written there, or Qt cannot spell the name, among
    the system's passing files. Where none of them takes it the keeper is not
    locked: then nothing can be written either.
    """
    for file in _files(folder):
        made = QLockFile(file)
        made.setStaleLockTime(0)
        if made.tryLock(0):
            return made
        if made.error() == QLockFile.LockError.LockFailedError and not _left_behind(file):
            return None
    return made


def _left_behind(file: str) -> bool:
    """Whether the lock is that of a window that was killed, on a disk from which Qt cannot take it, or empty.

    Whoever is alive holds the file by the system too, which lets go at death.
    """
    try:
        import fcntl

        with open(file, "rb") as there:
            # Between making it and holding it there is a moment.
            if time.time() - os.fstat(there.fileno()).st_mtime < _JUST_MADE:
                return False
            fcntl.flock(there, fcntl.LOCK_EX | fcntl.LOCK_NB)
            return True
    except (ImportError, OSError):
        return False


def _files(folder: Path) -> Iterator[str]:
    real = Path(os.path.realpath(folder))
    beside = str(real.parent / f".{real.name}.lock")
    if not any("\ud800" <= letter <= "\udfff" for letter in beside):
        yield beside
    import tempfile

    whose = os.getuid() if hasattr(os, "getuid") else "mine"
    yield os.path.join(tempfile.gettempdir(), f"{address(folder)}-{whose}.lock")
