"""Mending a broken keeper: what can be saved of it is told, and made into a new one when the person says so."""

from collections.abc import Callable, Iterable
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from keeper.actions.damage import backups
from keeper.errors import KeeperError, NotAKeeper
from keeper.store import is_keeper
from keeper.store.damage import mending, placing
from keeper.store.damage.carving import Carved
from keeper.store.damage.mending import Mended, Survey
from keeper.store.file import known_damage

__all__ = ["Carved", "Mended", "Survey"]

Progress = Callable[[float, str], None]


def can_be_mended(folder: Path) -> bool:
    """Whether a keeper lies there, however broken: a file that never was one is left alone. Reads all of it."""
    try:
        return is_keeper(folder) and mending.is_ours(folder, backups.newest_whole(folder))
    except KeeperError:
        return False


def look(folder: Path, progress: Progress = lambda *_: None, with_backup: bool = True) -> Survey:
    """What can be saved of the keeper in a folder; changes nothing.

    Raises NotAKeeper where there is none, CannotWrite when it cannot be read,
    and whatever ``progress`` raises.
    """
    if not can_be_mended(folder):
        raise NotAKeeper(f"There is nothing in {folder} that is, or was, a keeper. It was left as it is.")
    return mending.look(folder, backups.newest_whole(folder) if with_backup else None, progress)


def mend(survey: Survey, taken: Iterable[Carved], now: datetime, progress: Progress = lambda *_: None) -> Mended:
    """Make a new keeper of it beside the broken one, with the doubtful lines that are ``taken``.

    It waits until ``put_into_place``, or the next opening, gives it its name.
    Raises CannotWrite, NotAKeeper.
    """
    with suppress(OSError):
        if not known_damage.noted(survey.folder):
            known_damage.note(survey.folder, "It was found to be damaged, and was mended.")
    return mending.mend(survey, taken, f"{now:%Y-%m-%d %H.%M}", progress)


def put_into_place(folder: Path) -> Path | None:
    """Let a mended keeper that waits be the keeper; the folder in which the broken one is kept, None where none waits.

    Nobody may have it open. Raises CannotWrite; it waits then.
    """
    return placing.finish(folder)


def advice(folder: Path) -> str:
    """What can be done about a keeper that cannot be opened, as a sentence behind others; "" where nothing can."""
    return " What can be saved of it is told by: keeper mend." if can_be_mended(folder) else ""
