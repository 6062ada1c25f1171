"""A look inside a backup, to be read only; and chosen nights brought back out of it."""

from collections.abc import Callable, Iterable
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date

from keeper.dates.written import counted, full_date, long_date
from keeper.errors import UnknownThing
from keeper.model import Act, Night
from keeper.store import Store
from keeper.store import nights as kept_nights
from keeper.store.backups import nights
from keeper.store.backups.inside import opened
from keeper.store.backups.listing import Backup
from keeper.store.backups.making import Progress
from keeper.store.backups.place import told_of


@dataclass(frozen=True, slots=True)
class Inside:
    """The nights a backup holds, oldest first, and those of which it holds something that the keeper does not."""

    nights: tuple[date, ...]
    lacking: frozenset[date]


@contextmanager
def _open(backup: Backup):
    with told_of(backup.place, "cannot be read"), opened(backup.path) as copy:
        yield copy


def look_inside(store: Store, backup: Backup) -> Inside:
    """Which nights a backup holds. Raises KeeperError for one that cannot be read."""
    with _open(backup) as copy:
        return Inside(nights.every(copy), nights.lacking(store, copy))


def nights_inside(backup: Backup, wanted: Iterable[date]) -> tuple[Night, ...]:
    """What a backup holds of some nights, in the order asked for. Raises KeeperError for one that cannot be read."""
    with _open(backup) as copy:
        return kept_nights.some(copy, wanted)


def bring_nights(
    store: Store, backup: Backup, wanted: Iterable[date], progress: Progress = lambda *_: None,
    stopped: Callable[[], bool] = lambda: False,
) -> str:  # fmt: skip
    """Bring chosen nights back from a backup, in one act; a sentence on what came.

    Nothing is written over in silence: see ``keeper.store.backups.nights``.
    Raises UnknownThing when the backup holds none of them, CannotWrite, Stopped.
    """
    with _open(backup) as copy:
        chosen = sorted(set(wanted) & set(nights.every(copy)))
        if not chosen:
            raise UnknownThing("The backup holds nothing of these nights.")
        return _sentence(chosen, nights.bring(store, copy, backup, chosen, _act(backup, chosen), progress, stopped))


def _act(backup: Backup, chosen: list[date]) -> Act:
    what = f"The night of {full_date(chosen[0])}" if len(chosen) == 1 else counted(len(chosen), "night")
    return Act(f"{what}, brought back from the backup of {full_date(backup.day)}", "night", chosen[0])


def _sentence(chosen: list[date], came: nights.NightsBrought) -> str:
    what = long_date(chosen[0]) if len(chosen) == 1 else counted(len(chosen), "night")
    parts = [counted(many, one) for many, one in ((came.lines, "line"), (came.photos, "photo")) if many]
    told = [f"Brought back: {what}, with {' and '.join(parts)}." if parts else f"Brought back: {what}."]
    if came.worded:
        told.append(f"The words that {counted(came.worded, 'line')} had are among the earlier wordings.")
    if came.staying:
        told.append(f"{counted(came.staying, 'place or reading', 'places and readings')} stayed as now.")
    if came.lost:
        told.append(f"{counted(len(came.lost), 'photo')} could not be brought back; nowhere is there a whole copy.")
    return " ".join(told)
