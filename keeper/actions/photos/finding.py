"""Finding the files of photos: folders gone through to the bottom, linked ones too, each once."""

import os
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path


def files_of(sources: Iterable[Path], keeper: Path, unread: Callable[[Path, str], None]) -> Iterator[Path]:
    """The files of folders and the files themselves, folder by folder, in the order of their names.

    Hidden ones are passed by, and so is the keeper's own folder. A folder that
    several links lead to is gone through once. ``unread`` hears of folders
    that cannot be read, and why.
    """
    seen = {os.path.realpath(keeper)}
    for source in sources:
        # Unlike Path.is_dir, this does not raise for a folder that is closed.
        if os.path.isdir(source):
            yield from _below(source, seen, unread)
        else:
            yield source


def _below(folder: Path, seen: set[str], unread: Callable[[Path, str], None]) -> Iterator[Path]:
    def failed(error: OSError) -> None:
        unread(Path(error.filename), f"cannot be read: {(error.strerror or '').lower()}")

    for here, folders, names in os.walk(folder, onerror=failed, followlinks=True):
        real = os.path.realpath(here)
        if real in seen:
            # A link back, or a second way to the same: all of it is looked at already.
            folders.clear()
            continue
        seen.add(real)
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        yield from (Path(here, name) for name in sorted(names) if not name.startswith("."))
