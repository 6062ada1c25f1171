"""Making backups: once a day when something changed, into the keeper's own folder and those chosen besides."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path

from keeper.actions.backups.thinning import kept
from keeper.clock import Clock
from keeper.errors import HeldElsewhere, KeeperError, Stopped
from keeper.store import Store
from keeper.store.backups import comparing, listing, making
from keeper.store.backups.listing import ASIDE, DAILY
from keeper.store.backups.making import Made, Progress
from keeper.store.file.folder import BACKUPS


@dataclass(frozen=True, slots=True)
class BackedUp:
    """What came of backing up into a folder.

    ``made`` is None when there was nothing to do, or it ``failed``: that is a
    sentence then.
    """

    place: Path
    made: Made | None = None
    failed: str = ""

    @property
    def told(self) -> str:
        """What the person has to know: that it failed, or that photos are lacking; "" for nothing."""
        if self.failed or self.made is None or not self.made.lacking:
            return self.failed
        many = len(self.made.lacking)
        what = "1 photo is not in it, since its file is" if many == 1 else f"{many} photos are not in it, since their files are"
        return f"The backup in {self.place} was made, but {what} gone or damaged."


def own_place(store: Store) -> Path:
    """The folder of backups in the keeper's own folder."""
    return store.folder / BACKUPS


def is_due(store: Store, place: Path, today: date) -> bool:
    """Whether there is no backup of today in a folder, and the newest does not hold what the keeper holds."""
    daily = [(day, path) for path, day, kind in listing.files_in(place) if kind == DAILY]
    newest = max(daily, default=None)
    if newest is None:
        return True
    return newest[0] != today and not comparing.same(store.connection, newest[1])


def back_up_if_due(
    store: Store, place: Path, clock: Clock, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False
) -> BackedUp:
    """Make today's backup in a folder if that is due, and let go of those that need not stay.

    What goes wrong is in the outcome; another program that is at it already is
    no trouble. Raises Stopped.
    """
    today = clock.now().date()
    try:
        if not is_due(store, place, today):
            return BackedUp(place)
        made = making.make(store, place, today.isoformat(), today, progress, stopped)
        thin_out(store, place)
        return BackedUp(place, made)
    except Stopped:
        raise
    except HeldElsewhere:
        return BackedUp(place)
    except KeeperError as error:
        return BackedUp(place, failed=str(error))


def back_up_now(
    store: Store, place: Path, clock: Clock, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False
) -> Made:
    """Make a backup because it is asked for. Raises CannotWrite, HeldElsewhere, NotAKeeper, Stopped."""
    now = clock.now()
    made = making.make(store, place, name_of_moment(place, now), now.date(), progress, stopped)
    thin_out(store, place)
    return made


def keep_aside(
    store: Store, clock: Clock, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False
) -> Made:
    """Keep the keeper as it is now among its backups, for as long as nobody takes it away. Raises as ``back_up_now``."""
    place, now = own_place(store), clock.now()
    return making.make(store, place, name_of_moment(place, now, ASIDE), now.date(), progress, stopped)


def name_of_moment(place: Path, now: datetime, kind: str = "") -> str:
    """What a backup made at a moment is called, or a second later if there is one of that name."""
    # No colons: not every disk takes them.
    name = f"{now:%Y-%m-%d %H.%M.%S} {kind}".rstrip()
    return name_of_moment(place, now + timedelta(seconds=1), kind) if (place / name).exists() else name


def thin_out(store: Store, place: Path) -> None:
    """Let go of the daily backups that need not stay; of those of one day the newest stays. Raises CannotWrite."""
    making.take_away(place, store.folder, _to_go(place))


def _to_go(place: Path) -> list[str]:
    # By name, which for one day is by hour.
    daily = {day: path.parent.name for path, day, kind in listing.files_in(place) if kind == DAILY}
    staying = {daily[day] for day in kept(daily)}
    return [path.parent.name for path, _, kind in listing.files_in(place) if kind == DAILY and path.parent.name not in staying]
