"""Which backups there are of a keeper, in its own folder and in those chosen besides."""

from pathlib import Path

from keeper.errors import UnknownThing
from keeper.store.backups import listing
from keeper.store.backups.listing import Backup
from keeper.store.file.folder import BACKUPS

__all__ = ["Backup", "is_good", "listed", "listed_in", "named", "newest_good", "place_of"]


def listed(folder: Path) -> tuple[Backup, ...]:
    """The backups in a keeper's own folder, the newest first. The keeper itself is not asked; it may be broken."""
    return listing.listed(folder / BACKUPS)


def listed_in(place: Path) -> tuple[Backup, ...]:
    """The backups in any folder of backups, the newest first."""
    return listing.listed(place)


def place_of(named: Path) -> Path:
    """The folder of backups that is meant: that which is named, or one that lies in it. Raises UnknownThing.

    A disk may be named on which a keeper's backups lie, or a keeper's folder.
    """
    for place in (named, *sorted(named.glob("keeper-backups-*")), named / BACKUPS):
        if any(True for _ in listing.files_in(place)):
            return place
    raise UnknownThing(f"There are no backups in {named}.")


def is_good(backup: Backup) -> bool:
    """Whether SQLite finds all of a backup sound; reads the whole file."""
    return backup.sound and listing.check(backup)


def newest_good(folder: Path) -> Backup | None:
    """The newest of a keeper's own backups that is good, or None; reads whole files until one is."""
    return next((backup for backup in listed(folder) if is_good(backup)), None)


def named(backups: tuple[Backup, ...], name: str) -> Backup:
    """The backup of this name, or the newest of a day, or with "latest" the newest of all. Raises UnknownThing."""
    wanted = name.strip()
    found = [one for one in backups if wanted in (one.name, one.day.isoformat()) or (wanted == "latest" and one.sound)]
    if not found:
        raise UnknownThing(f"There is no backup \u201c{wanted}\u201d. The backups are listed by: keeper backups.")
    return next((one for one in found if one.name == wanted), found[0])
