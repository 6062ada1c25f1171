"""Noticing what was written elsewhere: by another program, or by a lane that says nothing of it."""

from PySide6.QtCore import QObject

from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk


class Elsewhere(QObject):
    """Lets the pages ask again when somebody else has written.

    The file's version as the writer's own connection tells it does not change
    with what the window writes there: drafts, settings, lines whose pages were
    told already. What the darkroom and the worker write does change it; so it
    counts only when the file as the window's thread sees it has changed too
    since the pages last heard of a change.
    """

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._looking = False
        self._by_the_writer: int | None = None
        # Taken before any page asks, so that nothing is missed between then and the first look.
        self._told = self._as_it_is()
        desk.changed.connect(self._note)

    def look(self) -> None:
        """Look whether somebody has written; while one look waits behind a long write, no other is begun."""
        if not self._looking:
            self._looking = True
            self._desk.writer.run(lambda store, task: store.version(), self._compare, self._fail)

    def _compare(self, version: int) -> None:
        self._looking = False
        # At the first look there is none before it: then only the other version tells.
        before, self._by_the_writer = self._by_the_writer, version
        if version != before and self._as_it_is() != self._told:
            self._desk.changed.emit()

    def _note(self) -> None:
        self._told = self._as_it_is()

    def _as_it_is(self) -> int | None:
        try:
            return self._desk.store.version()
        except KeeperError as error:
            self._desk.said.emit(str(error))
            return None

    def _fail(self, error: KeeperError) -> None:
        self._looking = False
        self._desk.said.emit(str(error))
