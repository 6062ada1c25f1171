"""The keepers that were opened on this computer: a list outside any of them, its owner's alone."""

import json
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from keeper import private
from keeper.actions.opening import usual_folder
from keeper.errors import CannotWrite
from keeper.store.file.folder import FILE

LIST = "known-keepers.json"


@dataclass(frozen=True, slots=True)
class KnownKeeper:
    """A keeper's folder, the day it was last opened, and whether a keeper is there now."""

    folder: Path
    opened: date
    there: bool


def every() -> tuple[KnownKeeper, ...]:
    """The keepers known, the one opened last first. Looks at their disks, so for the background."""
    kept = [KnownKeeper(folder, opened, _is_there(folder)) for folder, opened in _read().items()]
    return tuple(sorted(kept, key=lambda one: one.opened, reverse=True))


def note(folder: Path, today: date) -> None:
    """Note that the keeper of a folder is opened. Raises CannotWrite."""
    kept = _read()
    if kept.get(folder) != today:
        _write({**kept, folder: today})


def forget(folder: Path) -> None:
    """Take a keeper off the list; the keeper itself is left alone. Raises CannotWrite."""
    _write({known: opened for known, opened in _read().items() if known != folder})


def note_moved(folder: Path, target: Path, today: date) -> None:
    """Let the list name another folder for a keeper that was moved. Raises CannotWrite."""
    _write({**{known: opened for known, opened in _read().items() if known != folder}, target: today})


def _is_there(folder: Path) -> bool:
    try:
        return (folder / FILE).is_file()
    except OSError:
        return False


def _file() -> Path:
    return usual_folder().parent / LIST


def _read() -> dict[Path, date]:
    # A list that is damaged or gone is begun anew: it can be made again.
    try:
        told = json.loads(_file().read_text("ascii"))
        return {Path(folder): date.fromisoformat(opened) for folder, opened in told.items()}
    except (OSError, ValueError, TypeError, AttributeError):
        return {}


def _write(kept: dict[Path, date]) -> None:
    file = _file()
    coming = file.with_name(f"{file.name}.new")
    try:
        private.make_folder(file.parent)
        with open(coming, "w", encoding="ascii", opener=private.opener) as out:
            # A name that is no text is spelt by its bytes.
            json.dump({str(folder): opened.isoformat() for folder, opened in kept.items()}, out, indent=1)
        private.close(coming)
        coming.replace(file)
    except OSError as error:
        raise CannotWrite(f"The list of keepers could not be written: {(error.strerror or str(error)).lower()}.") from error
