"""Opening the person's keeper, beginning a new one, copying the demo."""

import os
from datetime import date, datetime, time, timedelta
from pathlib import Path

from keeper import settings
from keeper.clock import Clock, StoppedClock
from keeper.errors import CannotWrite
from keeper.shipped import demo_keeper
from keeper.store import Store, create_store, is_keeper, lines, open_store
from keeper.store import settings as kept_settings

WHERE = "KEEPER_FOLDER"
"""The environment variable that names another folder."""


def own_folder() -> Path:
    """The folder of the person's keeper: the variable's, or the system's usual one."""
    named = os.environ.get(WHERE)
    if named:
        return Path(named).expanduser().absolute()
    import platformdirs

    return Path(platformdirs.user_data_dir("keeper", appauthor=False)) / "keeper"


def open_or_begin(folder: Path) -> Store:
    """Open the keeper in a folder; begin one where there is none."""
    return open_store(folder) if is_keeper(folder) else create_store(folder)


def has_keeper(folder: Path) -> bool:
    """Whether a keeper has been begun in a folder."""
    return is_keeper(folder)


def open_kept(folder: Path) -> Store:
    """Open the keeper in a folder, and never begin one.

    Raises NotAKeeper where there is none.
    """
    return open_store(folder)


def open_again(folder: Path) -> Store:
    """Another connection to a keeper that is open already, for another thread."""
    return open_store(folder)


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
    kept_settings.write(store, {name: settings.checked(name, value) for name, value in changed.items()})
