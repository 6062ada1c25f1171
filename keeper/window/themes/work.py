"""Work on themes off the window's thread: looking for them, deciding, placing new lines."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal

from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.parts.errand import Errand

PLACE_AFTER = 800
"""Milliseconds of quiet after a change before new lines look for their themes."""

LOOKED_NEWLY = "Themes were looked for in a new way, so some have other lines and names. What you decided about them stays."


class ThemeWork(QObject):
    """One look for themes at a time, with progress; decisions of the person first.

    ``moved`` comes with what is being done and how far it is (0 to 1), or with
    "" when nothing is.
    """

    moved = Signal(str, float)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.desk = desk
        self._errand = Errand(desk.worker)
        self._anew = False
        self.at = ("", 0.0)
        """What ``moved`` came with last, for a page that is made while something is being done."""
        self.moved.connect(self._remember)
        desk.ending.connect(self.stop)

    def _remember(self, what: str, share: float) -> None:
        self.at = (what, share)

    @classmethod
    def of(cls, desk: Desk) -> "ThemeWork":
        """The one of a desk, so that a page shows what was begun before it was opened."""
        return desk.findChild(cls) or cls(desk)

    @property
    def running(self) -> bool:
        """Whether themes are being looked for."""
        return self._errand.under_way

    def look(self, anew: bool = False, unasked: bool = False) -> None:
        """Do what is due; find themes anew in any case where that is asked for.

        What is done unasked fails without a word.
        """
        from keeper.actions.themes import asking as themes

        # What was decided while one waits for that does not take it back.
        self._anew = anew = anew or (self._anew and self.running)
        self._errand.anew(
            lambda store, task: (themes.of_older_form(store), themes.look_apart(store, self.desk.clock, task.progress, task.stopped, anew)),
            lambda outcome: self._on_ended(*outcome), lambda error: self._on_failed(error, unasked), lambda share, words: self.moved.emit(words, share),
        )  # fmt: skip
        self.moved.emit("waiting", 0.0)

    def stop(self) -> None:
        """Break off; the themes stay as they were."""
        if self.running:
            self._errand.stop()
            self.moved.emit("", 0.0)

    def decide(self, act: Callable, done: Callable | None = None, failed: Callable | None = None) -> None:
        """Do ``act(store)`` as soon as writing allows, then lay what was decided over the themes."""
        self.desk.write(act, lambda result: self._on_decided(result, done), failed)

    def work_out(self, act: Callable, done: Callable, failed: Callable) -> None:
        """Work out ``act(store)``, which takes long and changes nothing, for the person to decide on."""
        self.stop()

        def on_failed(error: KeeperError) -> None:
            failed()
            self._say(error)

        self.desk.worker.run(lambda store, task: act(store), done, on_failed)

    def _on_decided(self, result: object, done: Callable | None) -> None:
        self.desk.changed.emit()
        self.look()
        if done:
            done(result)

    def _on_ended(self, older: bool, did: str) -> None:
        self.moved.emit("", 1.0)
        self.desk.changed.emit()
        if older and did:
            self._say(LOOKED_NEWLY)

    def _on_failed(self, error: KeeperError, unasked: bool) -> None:
        self.moved.emit("", 0.0)
        if not unasked:
            self._say(error)

    def _say(self, told: object) -> None:
        self.desk.said.emit(str(told))


class NewLines(QObject):
    """Lets lines that were written find their themes, a moment after the writing."""

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._wait = once_after(self, PLACE_AFTER, self._place)
        desk.changed.connect(self._wait.start)

    def _place(self) -> None:
        # Never on the writer's lane: the first time, much has to be read.
        self._desk.worker.run(lambda store, task: _place_new(store), failed=lambda error: None)


def _place_new(store) -> int:
    from keeper.actions.themes import asking as themes

    return themes.place_new(store)
