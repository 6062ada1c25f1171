"""Names of files in a bag: as its manifests spell them, and which of them are safe to follow."""

import os
import stat
from pathlib import Path

from keeper.errors import BadArchive

PAYLOAD = "data"
"""The folder of what is kept in a bag; beside it lie the files that tell of it."""

_ENCODED = (("%0A", "\n"), ("%0a", "\n"), ("%0D", "\r"), ("%0d", "\r"), ("%25", "%"))
_SHOWN = 80


def spelt(path: str) -> str:
    """A path as a manifest spells it (RFC 8493, 2.1.3)."""
    return path.replace("%", "%25").replace("\n", "%0A").replace("\r", "%0D")


def read(text: str) -> str:
    """The path that a manifest spells so. Raises BadArchive for one that leads out of its bag."""
    path = text
    for code, letter in _ENCODED:
        path = path.replace(code, letter)
    must_stay_within(path, text)
    return path


def must_stay_within(path: str, told: str = "") -> None:
    """Raise BadArchive for a path that leads out of its archive; ``told`` is how it is spelt there."""
    parts = path.split("/")
    if path.startswith("~") or any(part in ("", ".", "..") for part in parts) or not _plain(path) or ":" in parts[0]:
        raise BadArchive(f"The archive names a file outside of itself, {shown(told or path)}. Nothing was read of it.")


def _plain(path: str) -> bool:
    return "\\" not in path and all(letter >= " " and letter != "\x7f" for letter in path.replace("\n", "").replace("\r", ""))


def shown(path: str) -> str:
    """A path as a sentence may hold it."""
    plain = "".join(letter if letter.isprintable() else "\ufffd" for letter in path)
    return f"\u201c{plain if len(plain) <= _SHOWN else plain[: _SHOWN - 1] + chr(0x2026)}\u201d"


def found(folder: Path, path: str) -> os.stat_result:
    """What the system says of a file of a bag. Raises BadArchive where there is none, or a link, or no plain file."""
    at = folder
    parts = path.split("/")
    for place, part in enumerate(parts):
        at = at / part
        try:
            told = at.lstat()
        except OSError:
            raise BadArchive(f"The file {shown(path)} is missing from the archive.") from None
        if not (stat.S_ISREG if place == len(parts) - 1 else stat.S_ISDIR)(told.st_mode):
            raise BadArchive(f"{shown(path)} in the archive is a link, or something else that is not a file. Nothing was read of it.")
    return told
