"""Opening the person's keeper, beginning a new one, copying the demo."""

import os
from collections.abc import Callable
from contextlib import suppress
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from keeper import private, settings
from keeper.clock import Clock, StoppedClock
from keeper.errors import CannotWrite, UnknownThing
from keeper.model import Act
from keeper.shipped import demo_keeper
from keeper.store import Store, create_store, is_keeper, lines, open_store
from keeper.store import settings as kept_settings
from keeper.store.file.folder import BACKUPS, DAMAGE, PHOTOS, holds_something

if TYPE_CHECKING:
    from tempfile import TemporaryDirectory

WHERE = "KEEPER_FOLDER"
"""The environment variable that names another folder."""

MOVED = "own-keeper.txt"
"""Beside the usual folder: where the keeper that was begun there lies now."""


def own_folder() -> Path:
    """The folder of the person's keeper: the variable's, where it was moved to, or the system's usual one.

    Raises UnknownThing when the variable names the home of nobody.
    """
    named = os.environ.get(WHERE)
    if not named:
        return moved_to() or usual_folder()
    try:
        return Path(named).expanduser().absolute()
    except RuntimeError as error:
        raise UnknownThing(
            f"The variable {WHERE} names {named}, but this computer knows nobody with such a home."
        ) from error


def usual_folder() -> Path:
    """Where the system keeps what belongs to a person."""
    import platformdirs

    return Path(platformdirs.user_data_dir("keeper", appauthor=False)) / "keeper"


def moved_to() -> Path | None:
    """Where the person's keeper was moved to from the usual folder, or None."""
    try:
        return Path(os.fsdecode((usual_folder().parent / MOVED).read_bytes().rstrip(b"\n")))
    except OSError:
        return None


def note_moved(folder: Path) -> None:
    """Let the person's own keeper be the one in a folder from now on. Raises OSError."""
    file = usual_folder().parent / MOVED
    if folder == usual_folder():
        file.unlink(missing_ok=True)
        return
    private.make_folder(file.parent)
    private.make_file(file)
    file.write_bytes(os.fsencode(folder) + b"\n")


def begins_unasked(folder: Path) -> bool:
    """Whether a keeper may be begun in a folder without a word.

    Only in the usual one, and only the first time. Elsewhere a slip of the
    finger, or a disk that is not connected, would have the person write into
    a second keeper; and where photos or copies lie, the file was there once.
    """
    return folder == usual_folder() and not any(holds_something(folder / part) for part in (PHOTOS, BACKUPS))


def none_yet(folder: Path) -> str:
    """A sentence saying that there is no keeper in a folder, and what lies there of one."""
    left = [part for part in (PHOTOS, BACKUPS) if holds_something(folder / part)]
    beside = f", though something lies in its {' and '.join(left)}" if left else ""
    return f"There is no keeper in {folder}{beside}."


def open_or_begin(folder: Path) -> Store:
    """Open the keeper in a folder; begin one where there is none."""
    _finish_mending(folder)
    return open_store(folder) if is_keeper(folder) else create_store(folder)


def has_keeper(folder: Path) -> bool:
    """Whether a keeper has been begun in a folder."""
    return is_keeper(folder)


def open_kept(folder: Path) -> Store:
    """Open the keeper in a folder, and never begin one.

    Raises NotAKeeper where there is none.
    """
    _finish_mending(folder)
    return open_store(folder)


def _finish_mending(folder: Path) -> None:
    # One look at the disk, for every start. Whoever was killed between a mending and its end left a new file.
    if os.path.exists(folder / DAMAGE):
        from keeper.store.damage import placing

        with suppress(CannotWrite):
            placing.finish(folder)


def open_again(folder: Path) -> Store:
    """Another connection to a keeper that is open already, for another thread."""
    return open_store(folder)


def tidy(store: Store, stopped: Callable[[], bool] = lambda: False) -> None:
    """Clear away what broken work left in the keeper, and close every file to others; for the background.

    Raises Stopped.
    """
    if not store.only_read:
        from keeper.store import tidying

        tidying.let_go_old(store)
        tidying.tidy(store.folder, stopped)


def sweep(store: Store) -> None:
    """Clear away what broken work laid down, where that is quickly seen."""
    if not store.only_read:
        from keeper.store.file import passing

        passing.sweep(store.folder)


def passing_folder(store: Store) -> "TemporaryDirectory[str]":
    """A folder for what is needed only for a while, in the keeper where that can be written. Raises CannotWrite."""
    from keeper.store.file import passing

    try:
        return passing.lay_down(None if store.only_read else store.folder)
    except OSError as error:
        raise CannotWrite(f"There is no room for what is needed in passing: {(error.strerror or str(error)).lower()}.") from error


def demo_folder() -> Path:
    """Where the copy of the demo keeper is put, away from the person's own."""
    import platformdirs

    return Path(platformdirs.user_cache_dir("keeper", appauthor=False)) / "demo"


def lay_out_demo(folder: Path) -> Path:
    """Copy the demo keeper as it is shipped into a folder, anew each time.

    Raises CannotWrite when it cannot be copied.
    """
    import shutil

    try:
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(demo_keeper(), folder)
        (folder / "backups").mkdir(exist_ok=True)
    except (OSError, shutil.Error) as error:
        raise CannotWrite(f"The demo cannot be laid out in {folder}: {error}.") from error
    return folder


def demo_clock(store: Store) -> Clock:
    """A clock that stands on the evening after the demo's last night."""
    from zoneinfo import ZoneInfo

    ends = lines.span(store)
    last = ends[1] if ends else date.today()
    zone = ZoneInfo("Europe/Berlin")
    return StoppedClock(datetime.combine(last + timedelta(days=1), time(21, 40), zone), zone.key)


def read_settings(store: Store) -> dict[str, str]:
    """All settings as kept; read single ones with ``keeper.settings.read``."""
    return kept_settings.read(store)


def change_settings(store: Store, changed: dict[str, str]) -> None:
    """Keep settings after checking each. Raises BadSetting."""
    whole = {name: settings.checked(name, value) for name, value in changed.items()}
    told = ", ".join(settings.told(name, value) for name, value in whole.items() if not settings.BY_NAME[name].of_window)
    with store.writing(Act(told, "settings")):
        kept_settings.write(store, whole)
