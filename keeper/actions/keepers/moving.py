"""Moving a keeper to another folder, so that it is found there from then on."""

import os
from collections.abc import Callable
from contextlib import suppress
from datetime import date
from pathlib import Path

from keeper.actions import opening
from keeper.actions.keepers import known
from keeper.errors import CannotWrite
from keeper.store.backups import moving
from keeper.store.backups.making import Progress


def target_in(chosen: Path, folder: Path) -> Path:
    """Where a keeper goes when a folder is chosen for it: there, if it is empty, else into one of the keeper's name below."""
    with suppress(OSError):
        if not chosen.exists() or not any(chosen.iterdir()):
            return chosen
    return chosen / folder.name


def move(
    folder: Path, target: Path, today: date, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False
) -> None:
    """Move a keeper with all that belongs to it; nobody may have it open.

    All is copied and checked before the old one goes. Raises CannotWrite,
    NotAKeeper, Stopped; then the keeper is where it was.
    """
    own = not os.environ.get(opening.WHERE) and folder == opening.own_folder()
    moving.move(folder, target, lambda: _settled(folder, target, today, own), progress, stopped)


def _settled(folder: Path, target: Path, today: date, own: bool) -> None:
    if own:
        # Without this the next start would begin a new one: then the old one must not go.
        opening.note_moved(target)
    with suppress(CannotWrite):
        known.note_moved(folder, target, today)
