"""Going through a keeper's folder: what was left behind goes, and what others could read is closed to them.

What was made by an older version, or copied there by hand, may stand open.
"""

import os
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

from keeper import private
from keeper.errors import Stopped
from keeper.store.file import passing
from keeper.store.file.folder import BACKUPS, FILE, PASSING, PHOTOS, THUMBNAILS
from keeper.store.file.opening import Store
from keeper.store.history import letting_go
from keeper.store.photos import files as photo_files


def let_go_old(store: Store) -> None:
    """Let go of acts too old to be taken back, and of the photos that only they could have brought back."""
    for sha256, ending in letting_go.let_go_old(store):
        photo_files.take_away(store.folder, sha256, ending)


def tidy(folder: Path, stopped: Callable[[], bool] = lambda: False) -> None:
    """Clear away what is left of broken work and close every file; looks at each, so for the background.

    Raises Stopped.
    """
    passing.sweep(folder)
    _sweep_unfinished(folder)
    for part in (PHOTOS, THUMBNAILS, BACKUPS, PASSING):
        for file in _below(folder / part):
            if stopped():
                raise Stopped
            if photo_files.is_left_behind(folder, file):
                with suppress(OSError):
                    file.unlink()
            else:
                private.close(file)


def _sweep_unfinished(folder: Path) -> None:
    for file in folder.glob(f"{FILE}.*.new*"):
        its_mark = file.name.removeprefix(f"{FILE}.").partition(".new")[0]
        if passing.left_behind(folder, file, its_mark):
            with suppress(OSError):
                file.unlink()


def _below(folder: Path) -> Iterator[Path]:
    """The files and folders below a folder; links are not followed."""
    with suppress(OSError):
        with os.scandir(folder) as there:
            found = [(entry.path, entry.is_dir(follow_symlinks=False), entry.is_symlink()) for entry in there]
        for path, is_folder, is_link in found:
            if is_link:
                continue
            yield Path(path)
            if is_folder:
                yield from _below(Path(path))
