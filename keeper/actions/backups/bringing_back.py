"""Bringing a whole keeper back from a backup, with the present one kept aside."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from keeper.actions.backups.folders import WHICH
from keeper.actions.backups.making import keep_aside, name_of_moment
from keeper.clock import Clock
from keeper.errors import UnknownThing
from keeper.store import Store, open_store
from keeper.store.backups import bringing_back
from keeper.store.backups.listing import Backup
from keeper.store.backups.making import Progress
from keeper.store.file import known_damage
from keeper.store.file.folder import BACKUPS, FILE

_TRIES = 3

_STAYING = tuple(f"{which}_folder" for which in WHICH)
"""Settings that belong to this computer more than to that day."""


@dataclass(frozen=True, slots=True)
class BroughtBack:
    """Where the keeper that was there is kept now, None where there was none; and how many photos are nowhere whole."""

    aside: Path | None
    lacking: int


def bring_back(
    store: Store, backup: Backup, clock: Clock, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False
) -> BroughtBack:
    """Let the keeper hold what a backup holds. What it holds now is kept aside first, as a backup of its own.

    Whoever has the keeper open goes on with what was brought back. Raises
    CannotWrite, HeldElsewhere, NotAKeeper, NewerKeeper, Stopped; then the
    keeper holds what it held.
    """
    _must_be_sound(backup)
    tries = 0
    with open_store(store.folder) as watching:
        while True:
            version = watching.version()
            aside = keep_aside(store, clock, progress, stopped).path.parent
            try:
                lacking = bringing_back.into_place(
                    store, backup, _STAYING, lambda version=version: watching.version() == version, progress, stopped
                )
                _call_well(store.folder)
                return BroughtBack(aside, len(lacking))
            except bringing_back.ChangedMeanwhile:
                # What was just written must be in what is kept aside.
                tries += 1
                if tries == _TRIES:
                    raise


def bring_back_into(
    folder: Path, backup: Backup, clock: Clock, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False
) -> BroughtBack:
    """The same for a folder whose keeper is gone or cannot be opened; its file is kept aside as it is, byte by byte."""
    _must_be_sound(backup)
    aside = name_of_moment(folder / BACKUPS, clock.now(), "unreadable")
    there = (folder / FILE).exists()
    lacking = bringing_back.into_empty_place(folder, backup, aside, progress, stopped)
    _call_well(folder)
    return BroughtBack(folder / BACKUPS / aside if there else None, len(lacking))


def _call_well(folder: Path) -> None:
    # What was wrong with the file was wrong with the one that is kept aside.
    with suppress(OSError):
        known_damage.clear(folder)


def _must_be_sound(backup: Backup) -> None:
    if not backup.sound:
        raise UnknownThing(f"The backup {backup.name} cannot be read. Nothing was changed; take another.")
