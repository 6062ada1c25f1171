"""What the pages share: the open keeper, the clock, the lanes, the look."""

from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from keeper import settings
from keeper.actions import opening, reading
from keeper.clock import Clock
from keeper.dates import written
from keeper.days import FIRST_NIGHT
from keeper.errors import KeeperError
from keeper.window.desk import wording
from keeper.window.desk.lanes import Lane
from keeper.window.desk.look import Look
from keeper.window.desk.words import Words


class Desk(QObject):
    """The things every page needs, and the news they tell one another.

    ``store`` answers the small questions of the window's own thread; all
    writing goes through ``writer``, all long or large questions through
    ``reader``, and what takes minutes through ``worker``. What is but near to
    words is sought in a lane of its own, ``seeker``: what has them all never
    waits for it. In the ``darkroom``
    photos are taken in and made small, so that no line and no search waits.
    """

    changed = Signal()
    """Something was written, here or by another program: ask again."""

    said = Signal(str)
    """A sentence for the person."""

    narrowed = Signal()
    """Other nights are to stand out in the ribbon: those that the page seen has as ``only``."""

    photos_wanted = Signal(object, int, object)
    """Photos are to be seen whole: all of them, the place of the first to be shown, their night."""

    later_wanted = Signal(object)
    """A later word is to be written: the lines of one night that it may be under."""

    change_wanted = Signal(object, object)
    """A later word is to be changed or removed: its line, and the night on which it was said."""

    sheet_wanted = Signal(object)
    """A month is to be printed: any day of it."""

    book_wanted = Signal(int)
    """The book of a year is to be made."""

    turn_wanted = Signal(int)
    """What was done is to be taken back, or done again, by its number, whatever was done since."""

    damaged = Signal(str)
    """The keeper was found to be damaged, and why: from now on it can only be read."""

    mended = Signal()
    """A mended keeper waits to be put into the place of this one: the window is to open anew."""

    moving_wanted = Signal(object)
    """The keeper is to be moved to another folder, a Path; the window closes for that."""

    ending = Signal()
    """The window closes: what can be done another time is broken off."""

    keeping = Signal()
    """All that is typed is to be put by now."""

    dressed = Signal()
    """Another palette or text size is in force."""

    def __init__(self, folder: Path, store, clock: Clock, look: Look) -> None:
        super().__init__()
        written.follow(wording.habits)
        self.folder = folder
        self.store = store
        self.clock = clock
        self.look = look
        self.kept = opening.read_settings(store)
        # Of all fields but those of a night's lines, by what they are for and of which one.
        self.words = Words()
        self.writer = Lane(folder, "writer")
        self.reader = Lane(folder, "reader")
        self.seeker = Lane(folder, "seeker")
        self.worker = Lane(folder, "worker")
        self.darkroom = Lane(folder, "darkroom")
        for lane in (self.writer, self.reader, self.seeker, self.worker, self.darkroom):
            lane.damaged.connect(self.said)
        self._go: Callable[[str, date | None, object], None] = lambda *_: None

    def tonight(self) -> date:
        """The night being lived, by the person's rollover hour."""
        return self.clock.tonight(self.rollover())

    def shifted(self, night: date, days: int) -> date:
        """The night so many days on, no later than the latest that can be opened."""
        return min(max(night + timedelta(days=days), FIRST_NIGHT), self.latest_night())

    def latest_night(self) -> date:
        """Tonight, or the latest night kept: who crosses the date line has one ahead of tonight."""
        try:
            ends = reading.ends(self.store)
        except KeeperError as error:
            self._complain(error)
            return self.tonight()
        return max(self.tonight(), ends[1]) if ends else self.tonight()

    def rollover(self) -> int:
        """The hour at which a night ends."""
        return settings.number(self.kept, "rollover")

    def go(self, page: str, night: date | None = None, thing: object = None) -> None:
        """Open a page, perhaps on another night, perhaps on a thing of a kind that it knows how to show."""
        self._go(page, night, thing)

    def set_way(self, go: Callable[[str, date | None, object], None]) -> None:
        """Say who opens pages."""
        self._go = go

    def write(self, work: Callable, done: Callable | None = None, failed: Callable | None = None) -> None:
        """Queue ``work(store)`` behind all earlier writing."""
        self.writer.run(lambda store, task: work(store), done, failed or self._complain)

    def change_setting(self, name: str, value: str) -> None:
        """Keep a setting and put it in force."""
        self.kept[name] = settings.checked(name, value)
        self.write(lambda store: opening.change_settings(store, {name: value}))

    def take_up_settings(self) -> None:
        """Put in force what is kept now: another wrote it."""
        self.kept.clear()
        self.kept.update(opening.read_settings(self.store))
        self.look.dress(self.kept)
        self.dressed.emit()

    def end(self) -> None:
        """Let go of everything, writing last."""
        self.ending.emit()
        for lane in (self.reader, self.seeker, self.worker, self.darkroom, self.writer):
            lane.end()
        self.store.close()

    def _complain(self, error: Exception) -> None:
        self.said.emit(str(error))
