"""A second folder for backups, and a third: a stick or another disk, caught up whenever it is there."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from keeper import private, settings
from keeper.actions.backups.making import BackedUp, Progress, back_up_if_due, own_place
from keeper.clock import Clock
from keeper.dates.written import full_date
from keeper.errors import BadSetting
from keeper.model import Act
from keeper.store import Store
from keeper.store import settings as kept_settings
from keeper.store.backups import listing
from keeper.store.backups.place import name_for, told_of

WHICH = ("second", "third")

OLD_AFTER, SPOKEN_EVERY = 30, 7
"""Days after which it is spoken of that a folder was not caught up, and between one time and the next."""


@dataclass(frozen=True, slots=True)
class Folder:
    """A folder for backups: ``which`` is own, second or third.

    ``place`` is where they lie; ``there`` whether it can be reached now;
    ``last`` the day on which it last held what the keeper holds, if ever.
    """

    which: str
    place: Path
    there: bool
    last: date | None


def every(store: Store) -> tuple[Folder, ...]:
    """The keeper's own folder for backups, then those chosen besides. Looks at their disks, so for the background."""
    own = own_place(store)
    return (Folder("own", own, True, listing.newest_day(own)), *_chosen(store))


def _chosen(store: Store) -> Iterator[Folder]:
    kept = kept_settings.read(store)
    for which in WHICH:
        if named := settings.read(kept, f"{which}_folder"):
            place = Path(named)
            yield Folder(which, place, place.is_dir(), _day(settings.read(kept, f"{which}_caught_up")))


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def choose(store: Store, which: str, chosen: Path) -> Path:
    """Let backups go into a folder too, in one of their own below it, which is returned.

    Only where that is there they are made later: an empty folder may be where
    a disk is shown that is not connected. Raises BadSetting, CannotWrite.
    """
    place = _place_in(store, chosen)
    _refuse(store, which, chosen, place)
    with told_of(place, "cannot be made there"):
        private.make_folder(place)
    with store.writing(Act(f"The {which} folder for backups", page="settings")):
        kept_settings.write(store, {f"{which}_folder": str(place), f"{which}_caught_up": ""})
    return place


def _place_in(store: Store, chosen: Path) -> Path:
    name = name_for(store)
    return chosen if chosen.name == name else chosen / name


def _refuse(store: Store, which: str, chosen: Path, place: Path) -> None:
    if not chosen.is_dir():
        raise BadSetting(f"There is no folder {chosen}.")
    if chosen.resolve().is_relative_to(store.folder.resolve()):
        raise BadSetting("That lies in the keeper itself. Choose a folder on a stick or another disk.")
    if any(other.which != which and other.place == place for other in _chosen(store)):
        raise BadSetting("Backups go into that folder already.")


def drop(store: Store, which: str) -> None:
    """Let no more backups go into a folder; those that lie there stay."""
    with store.writing(Act(f"No {which} folder for backups", page="settings")):
        kept_settings.write(store, {f"{which}_folder": "", f"{which}_caught_up": ""})


@dataclass(frozen=True, slots=True)
class Round:
    """What came of backing up into all folders: ``absent`` are those whose disk is not there, ``said`` is for the person."""

    outcomes: tuple[BackedUp, ...]
    absent: tuple[Folder, ...]
    said: str

    @property
    def failed(self) -> bool:
        """Whether one that is there could not be caught up."""
        return any(one.failed for one in self.outcomes)


def back_up_everywhere(
    store: Store, clock: Clock, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False
) -> Round:
    """Catch up all folders that are there. Raises Stopped."""
    outcomes, absent = [], []
    for folder in every(store):
        if not folder.there:
            absent.append(folder)
            continue
        outcomes.append(back_up_if_due(store, folder.place, clock, progress, stopped))
        if not outcomes[-1].failed:
            _note_caught_up(store, folder, clock.now().date())
    told = [one.told for one in outcomes if one.told]
    return Round(tuple(outcomes), tuple(absent), " ".join(told or _old(store, absent, clock.now().date())))


def _note_caught_up(store: Store, folder: Folder, today: date) -> None:
    if folder.which != "own" and folder.last != today:
        kept_settings.write(store, {f"{folder.which}_caught_up": today.isoformat()})


def _old(store: Store, absent: list[Folder], today: date) -> list[str]:
    spoken = _day(settings.read(kept_settings.read(store), "backups_spoken"))
    old = [one for one in absent if one.last and (today - one.last).days > OLD_AFTER]
    if not old or (spoken and 0 <= (today - spoken).days < SPOKEN_EVERY):
        return []
    kept_settings.write(store, {"backups_spoken": today.isoformat()})
    return [f"The {one.which} folder for backups, {one.place}, was last caught up on {full_date(one.last)}." for one in old]
