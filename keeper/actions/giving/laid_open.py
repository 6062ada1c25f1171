"""An archive as a folder, be it one or lie in one file."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from keeper.actions.opening import passing_folder
from keeper.errors import BadArchive, shown_name
from keeper.exchange.archive import names, one_file
from keeper.store import Store
from keeper.store.backups.disk import FULL_OR_CLOSED
from keeper.store.backups.place import told_of

_UNPACKED = 0.2

Progress = Callable[[float, str], None]


@contextmanager
def laid_open(store: Store, place: Path, progress: Progress, stopped: Callable[[], bool]) -> Iterator[tuple[Path, Progress]]:
    """The folder of an archive while the block lasts, and how far the rest is. Raises BadArchive, CannotWrite, Stopped."""
    if place.is_dir():
        yield place, progress
        return
    if not place.exists():
        raise BadArchive(f"There is no archive {names.shown(str(place))}.")
    with passing_folder(store) as room:
        with told_of(Path(room), "could not be unpacked", "The archive"):
            folder = _unpacked(place, Path(room), lambda share, words: progress(_UNPACKED * share, words), stopped)
        yield folder, lambda share, words: progress(_UNPACKED + (1 - _UNPACKED) * share, words)


def _unpacked(place: Path, room: Path, progress: Progress, stopped: Callable[[], bool]) -> Path:
    try:
        return one_file.lay_open(place, room, progress, stopped)
    except OSError as error:
        if error.errno in FULL_OR_CLOSED:
            raise
        # Whatever else the system says, it says of what the file asked for.
        raise BadArchive(f"{shown_name(place)} is damaged, or asks for what cannot be: {(error.strerror or str(error)).lower()}.") from error
