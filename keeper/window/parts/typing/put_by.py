"""What is typed anywhere but in a night's lines: on disk within a second, offered again, gone once it is kept."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtWidgets import QLineEdit
from shiboken6 import isValid

from keeper.actions import drafts
from keeper.errors import KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.parts.typing.field import DRAFT_AFTER, Field

Write = Callable[[Any, str], object]
"""Keeps a text: ``write(store, text)``."""

AtOnce = Callable[[Any, str, str], object]
"""Keeps a text of one thing: ``write(store, ref, text)``."""

Key = tuple[str, str]


class _Stay:
    """One stay in a field: what is typed in it is one act, however often it is kept meanwhile.

    ``act`` is written and read by the writer's lane alone: what is sent before
    the answer to the last has come belongs to the same act all the same.
    """

    act: int | None = None


class PutBy(QObject):
    """Watches over one field. ``what`` it is for says the table of drafts, such as "question".

    With ``at_once`` the words are kept in each pause, and are a draft only
    when that fails; else they are a draft until ``write`` or ``add``. ``kept``
    comes with the thing and its words, ``failed`` with the sentence when they
    could not be kept; it is also said, unless ``tell`` is given.
    """

    kept = Signal(str, str)
    failed = Signal(str)

    def __init__(
        self, desk: Desk, edit: QLineEdit | Field, what: str, at_once: AtOnce | None = None,
        tell: Callable[[str], None] | None = None,
    ) -> None:  # fmt: skip
        super().__init__(edit)
        self._desk, self._edit, self._what, self._at_once = desk, edit, what, at_once
        self._tell = tell or desk.said.emit
        self._ref: str | None = None
        self._held = False
        self._showing = False
        self._typed_early = False
        self._stay = _Stay()
        self._left = False
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(DRAFT_AFTER)
        self._pause.timeout.connect(self.put_by)
        edit.textChanged.connect(self._on_typed)
        desk.keeping.connect(self.put_by)
        (edit.left if isinstance(edit, Field) else edit.editingFinished).connect(self._on_left)

    @property
    def key(self) -> Key:
        """Under which its words are known."""
        return (self._what, self._ref or "")

    # showing

    def shown(self, ref: str, kept: str) -> str | None:
        """The keeper holds this of the thing ``ref``; returns the words to show, None to leave the field as it is."""
        anew = ref != self._ref
        typed_before = self._text() if self._ref is None and self._typed_early else ""
        if anew:
            self.put_by()
            self._ref, self._stay = ref, _Stay()
        words = self._desk.words.shown(self.key, kept, self._waiting(), anew)
        if typed_before:
            # Before it was known what is kept there.
            words = None
            self._desk.words.typed(self.key, typed_before)
        if self.waits():
            self._pause.start()
        return words

    def show(self, ref: str, kept: str) -> None:
        """The same, shown in the field."""
        words = self.shown(ref, kept)
        if words is not None and words != self._text():
            self.put(words)

    def put(self, words: str) -> None:
        """Show words that nobody typed here."""
        self._showing = True
        if isinstance(self._edit, Field):
            self._edit.put_as_kept(words)
        else:
            self._edit.setText(words)
            self._edit.setCursorPosition(0)
        self._showing = False

    def call(self, ref: str) -> None:
        """The thing goes by another ref from now on; what is typed goes along."""
        before, self._ref = self.key, ref
        self._desk.words.called(before, self.key)
        self._draft(before)
        self.let_go()

    def hold(self) -> None:
        """Write nothing until it is known by which ref the thing goes: till ``call``, or ``let_go``."""
        self._held = True

    def let_go(self) -> None:
        """Write again, what was typed meanwhile first."""
        self._held = False
        self.put_by()

    def waits(self) -> bool:
        """Whether the field holds what is not kept."""
        return self._desk.words.state(self.key) not in ("", "kept")

    # keeping

    def put_by(self) -> None:
        """Put by what is typed, if it is neither kept nor put by already."""
        self._pause.stop()
        if self._held:
            return
        if self._at_once and self._ref is not None:
            ref = self._ref
            self.write(lambda store, text: self._at_once(store, ref, text))
        else:
            self._draft(self.key)

    def write(self, write: Write, anyway: bool = False, meant: bool = True) -> None:
        """Keep what is typed, if it is not kept or ``anyway``; its draft goes with that.

        Unless it is ``meant``, a draft left behind only waits until it is touched.
        """
        words, key = self._desk.words, self.key
        if meant:
            words.meant(key)
        typed, text = words.typed_in(key), words.to_send(key)
        if text is None and not anyway:
            self._draft(key)
            return
        self._pause.stop()
        self._keep(key, write, typed, lambda: words.was_kept(key, typed), lambda: self._failed(key, typed))

    def add(self, write: Write) -> None:
        """Keep what is typed as one more of its kind; the field is empty again, until that fails."""
        key, text = self.key, self._text().strip()
        if text:
            self._edit.clear()
            self._keep(key, write, text, lambda: None, lambda: self._give_back(key, text))

    def forget(self) -> None:
        """Let go of what was typed: it was kept some other way, or given up."""
        self._desk.words.give_up(self.key)
        self._draft(self.key)

    def _keep(self, key: Key, write: Write, text: str, done: Callable, failed: Callable) -> None:
        stay = self._stay

        def keep(store: Any) -> None:
            stay.act = drafts.keeping(store, *key, lambda: write(store, text), stay.act)

        def was_kept(_: None) -> None:
            done()
            # An answer may come after its window has gone.
            if isValid(self):
                self.kept.emit(key[1], text)
            self._desk.changed.emit()

        def has_failed(error: KeeperError) -> None:
            failed()
            if isValid(self):
                self.failed.emit(str(error))
                self._tell(str(error))

        self._desk.write(keep, was_kept, has_failed)

    def _on_left(self) -> None:
        self._left = True

    def _failed(self, key: Key, text: str) -> None:
        self._desk.words.has_failed(key, text)
        self._draft(key)

    def _give_back(self, key: Key, text: str) -> None:
        if isValid(self) and key == self.key:
            self._edit.setText(f"{text} {self._edit.text()}".strip())
        else:
            self._desk.write(lambda store: drafts.put_by(store, *key, text, self._desk.clock))

    def _draft(self, key: Key) -> None:
        words = self._desk.words
        text = words.to_draft(key)
        if text is not None:
            self._desk.write(
                lambda store: drafts.put_by(store, *key, text, self._desk.clock),
                lambda _: words.was_put_by(key, text),
                lambda error: self._not_put_by(key, text, error),
            )
        elif words.draft_to_drop(key):
            self._desk.write(lambda store: drafts.forget(store, *key))

    def _not_put_by(self, key: Key, text: str, error: KeeperError) -> None:
        self._desk.words.not_put_by(key, text)
        self._desk.said.emit(str(error))

    def _text(self) -> str:
        return self._edit.words() if isinstance(self._edit, Field) else self._edit.text()

    def _on_typed(self) -> None:
        if self._showing or self._ref is None:
            self._typed_early = not self._showing
            return
        if self._left:
            self._stay, self._left = _Stay(), False
        self._desk.words.typed(self.key, self._text())
        if not self._pause.isActive():
            self._pause.start()

    def _waiting(self) -> str | None:
        try:
            return drafts.waiting(self._desk.store, *self.key)
        except KeeperError as error:
            self._desk.said.emit(str(error))
            return self._desk.words.draft(self.key) or None
