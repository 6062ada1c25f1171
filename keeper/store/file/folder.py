"""The folder of a keeper: what lies in it, what stands in the way of one, and that it is the person's alone."""

import os
import stat
from contextlib import suppress
from pathlib import Path

from keeper import private

FILE = "keeper.db"
PHOTOS, THUMBNAILS, BACKUPS, PASSING = "photos", "thumbnails", "backups", "passing"
BROKEN, DAMAGE, CHECKS = "broken", "damage.txt", "checks.json"
"""Where broken files are kept, what is known to be wrong, and when it was looked for last."""

_OURS = frozenset(
    {FILE, f"{FILE}-wal", f"{FILE}-shm", PHOTOS, THUMBNAILS, BACKUPS, PASSING, BROKEN, DAMAGE, CHECKS, "trouble.txt"}
)

_KINDS = {
    stat.S_IFDIR: "a folder", stat.S_IFREG: "a file", stat.S_IFIFO: "a pipe", stat.S_IFSOCK: "a socket",
    stat.S_IFCHR: "a device", stat.S_IFBLK: "a device",
}  # fmt: skip


def in_the_way(file: Path) -> str:
    """What has the name of a keeper's file and is none, as the end of a sentence; "" for nothing."""
    return _dangling(file) or (f"it is {kind_of(file)}, not a keeper" if file.exists() else "")


def no_folder(folder: Path) -> str:
    """What has the name of a keeper's folder and is none, as the end of a sentence; "" for a folder or nothing."""
    there = folder.exists() and not folder.is_dir()
    return _dangling(folder) or (f"it is {kind_of(folder)}, not a folder" if there else "")


def _dangling(path: Path) -> str:
    if not path.is_symlink() or path.exists():
        return ""
    return f"it is a link to {os.readlink(path)}, which is not there. That disk may not be connected"


def kind_of(path: Path) -> str:
    """What lies there: "a folder", "a pipe" and so on. Raises OSError."""
    return _KINDS.get(stat.S_IFMT(path.stat().st_mode), "something else")


def holds_something(folder: Path) -> bool:
    """Whether anything lies in a folder."""
    try:
        with os.scandir(folder) as there:
            return next(there, None) is not None
    except OSError:
        return False


def close_to_others(folder: Path) -> None:
    """Close the folder of a keeper, its file and the folders in it; some dozen looks, for every start.

    A folder that holds other things too may be meant for others: then only
    what is the keeper's own is closed.
    """
    with suppress(OSError):
        there = os.listdir(folder)
        for name in _OURS.intersection(there):
            private.close(os.path.join(folder, name))
        if all(name in _OURS or name.startswith((FILE, ".")) for name in there):
            private.close(folder)
