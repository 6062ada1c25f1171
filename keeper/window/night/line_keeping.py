"""Writing what is typed on the pages of nights: lines and their drafts, each in its order."""

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import QObject, Signal

from keeper.actions import writing
from keeper.errors import KeeperError, UnreadableText
from keeper.window.desk.desk import Desk
from keeper.window.desk.words import Words

Key = tuple[date, str]
"""A night and a kind."""


class LineKeeping(QObject):
    """Sends ``words`` to the writer and hears what came of them; ``failed`` comes with the key of a line."""

    failed = Signal(object)

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self.words = Words()

    def send(self, key: Key) -> None:
        """Keep a line as it stands, if it is not kept."""
        known, text = self.words.draft(key), self.words.to_send(key)
        if text is None:
            self._drop_draft(key)
            return
        self._desk.write(
            lambda store: writing.write_line(store, *key, text, self._desk.clock, known),
            lambda _: self._on_kept(key, text),
            lambda error: self._on_failed(key, text, error),
        )

    def put_by(self, key: Key) -> None:
        """Put by a line as it stands, if it is neither kept nor put by."""
        known, text = self.words.draft(key), self.words.to_draft(key)
        if text is None:
            self._drop_draft(key)
            return
        self._desk.write(
            lambda store: writing.keep_draft(store, *key, text, self._desk.clock, known),
            lambda _: self.words.was_put_by(key, text),
            lambda error: self._not_put_by(key, text, error),
        )

    def set_aside(self, key: Key, draft: str, failed: Callable[[], None]) -> None:
        """Have the kept line back in place of a draft, which becomes an earlier wording."""

        def complain(error: KeeperError) -> None:
            failed()
            self._desk.said.emit(str(error))

        self._desk.write(
            lambda store: writing.set_draft_aside(store, *key, draft, self._desk.clock),
            lambda _: self._desk.changed.emit(), complain,
        )  # fmt: skip

    def _drop_draft(self, key: Key) -> None:
        known = self.words.draft(key)
        if self.words.draft_to_drop(key):
            self._desk.write(lambda store: writing.drop_draft(store, *key, known))

    def _on_kept(self, key: Key, text: str) -> None:
        self.words.was_kept(key, text)
        self._desk.changed.emit()

    def _on_failed(self, key: Key, text: str, error: KeeperError) -> None:
        self.words.has_failed(key, text)
        self.put_by(key)
        waits = " It waits here as a draft." if isinstance(error, UnreadableText) else ""
        self._desk.said.emit(f"{error}{waits}")
        self.failed.emit(key)

    def _not_put_by(self, key: Key, text: str, error: KeeperError) -> None:
        self.words.not_put_by(key, text)
        self._desk.said.emit(str(error))
