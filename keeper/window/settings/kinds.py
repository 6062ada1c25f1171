"""The kinds of line, in the settings: named, ordered, asked for, left out and added."""

from collections.abc import Callable, Sequence
from itertools import pairwise

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from keeper.actions import kinds, reading
from keeper.errors import UnreadableDate
from keeper.model import LineKind
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import label
from keeper.window.parts.typing.put_by import PutBy
from keeper.window.settings.box import begun
from keeper.window.settings.kind_row import KindRow

TOLD = (
    "A night asks for these, in this order; for eight at most. They can be renamed, and no longer asked for: "
    "their lines stay. The answer to the month\u2019s question is that whatever it is called."
)


class KindsBox(AsksAgain, QWidget):
    """The kinds, those left out too, and a field for another. ``after`` is what one comes from with Tab."""

    def __init__(self, desk: Desk, after: QWidget) -> None:
        super().__init__()
        self._desk, self._after = desk, after
        self.rows: list[KindRow] = []
        self._new: dict[str, KindRow] = {}
        self._coming = Piecemeal(self)
        self.more = QLineEdit()
        self.more.setProperty("words", True)
        self.more.setPlaceholderText("Add a kind: a dream, what you read, a kindness")
        self.more.setAccessibleName("Add a kind of line")
        self.more.returnPressed.connect(self._add)
        self.told = label("", "quiet")
        self.told.hide()
        self._more_words = PutBy(desk, self.more, "new kind", tell=self._tell)
        self._more_words.show("", "")
        self._more_words.kept.connect(lambda *_: self.told.hide())
        self._lay_out()
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self._fit)

    def _lay_out(self) -> None:
        body, self._list = begun(self, self._desk.look, "Kinds of line", TOLD, 0.3)
        body.addLayout(self._list)
        body.addWidget(self.more)
        body.addWidget(self.told)

    def _fit(self) -> None:
        for one in self.rows:
            one.fit()

    # asking

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.ask()

    def ask(self) -> None:
        """Ask for what is shown."""
        self._desk.reader.run(lambda store, task: reading.every_kind(store), self._show)

    def _show(self, found: Sequence[LineKind]) -> None:
        known = {one.kind.key for one in self.rows} | self._new.keys()
        rows = few_at_a_time(1, self._make, [kind for kind in found if kind.key not in known])
        self._coming.begin([*rows, lambda: self._show_made(found)], at_once=0 if rows else 1)

    def _make(self, kind: LineKind) -> None:
        self._new[kind.key] = self._made(kind)

    def _show_made(self, found: Sequence[LineKind]) -> None:
        if [one.kind.key for one in self.rows] != [kind.key for kind in found]:
            self._put_in_order(found)
        for one, kind in zip(self.rows, found, strict=True):
            one.tell(kind)
        self.rows[0].up.setEnabled(False)
        self.rows[-1].down.setEnabled(False)
        for one in self.rows[1:]:
            one.up.setEnabled(True)
        for one in self.rows[:-1]:
            one.down.setEnabled(True)

    def _put_in_order(self, found: Sequence[LineKind]) -> None:
        known = {one.kind.key: one for one in self.rows} | self._new
        self.rows, self._new = [known.pop(kind.key) for kind in found], {}
        for gone in known.values():
            # Taken out of hearing first: a row that goes must not keep itself.
            gone.name.blockSignals(True)
            gone.hide()
            gone.deleteLater()
        for place, one in enumerate(self.rows):
            self._list.removeWidget(one)
            self._list.insertWidget(place, one)
        parts = [part for one in self.rows for part in one.parts()]
        for before, after in pairwise([self._after, *parts, self.more]):
            self.setTabOrder(before, after)

    def _made(self, kind: LineKind) -> KindRow:
        made = KindRow(self._desk, kind, self._tell)
        made.name.editingFinished.connect(lambda: self._rename(made))
        made.words.failed.connect(lambda _: made.name.setText(made.kind.title))
        made.prompt.editingFinished.connect(lambda: self._ask_otherwise(made))
        made.prompt_words.failed.connect(lambda _: made.prompt.setText(made.kind.prompt))
        for words in (made.words, made.prompt_words):
            words.kept.connect(lambda *_: self.told.hide())
        made.moved.connect(lambda by: self._move(made, by))
        made.themes.clicked.connect(lambda checked: self._write(lambda store: kinds.put_in_themes(store, made.kind.key, checked)))
        made.out.clicked.connect(lambda _: self._leave_out_or_take_up(made))
        for edit in (made.first, made.last):
            edit.returnPressed.connect(lambda: self._set_span(made))
            edit.editingFinished.connect(lambda: self._set_span(made))
        return made

    # what the person decides

    def _add(self) -> None:
        tonight = self._desk.tonight()
        self._more_words.add(lambda store, name: kinds.add(store, name, tonight))

    def _tell(self, sentence: str) -> None:
        self.told.setText(sentence)
        self.told.show()

    def _rename(self, one: KindRow) -> None:
        key, name = one.kind.key, one.name.text()
        if not name.strip():
            one.name.setText(one.kind.title)
            self._tell("A kind of line needs a name.")
        elif name != one.kind.title:
            one.words.write(lambda store, name: kinds.rename(store, key, name))

    def _ask_otherwise(self, one: KindRow) -> None:
        key = one.kind.key
        if one.prompt.text() != one.kind.prompt:
            one.prompt_words.write(lambda store, text: kinds.prompt(store, key, text))

    def _move(self, one: KindRow, by: int) -> None:
        keys = [other.kind.key for other in self.rows]
        place = keys.index(one.kind.key) + by
        if 0 <= place < len(keys):
            keys.insert(place, keys.pop(place - by))
            self._write(lambda store: kinds.order(store, keys))

    def _leave_out_or_take_up(self, one: KindRow) -> None:
        tonight, key = self._desk.tonight(), one.kind.key
        act = kinds.take_up if one.is_out(tonight) else kinds.leave_out
        self._write(lambda store: act(store, key, tonight))

    def _set_span(self, one: KindRow) -> None:
        try:
            first, last = one.first.meant(), one.last.meant()
        except UnreadableDate as error:
            self._tell(str(error))
            return
        began, ended, tonight, key = first and first.first, last and last.last, self._desk.tonight(), one.kind.key
        if (began, ended) != (one.kind.began, one.kind.ended):
            self._write(lambda store: kinds.set_span(store, key, began, ended, tonight))

    def _write(self, work: Callable) -> None:
        def done(_: object) -> None:
            self.told.hide()
            self._desk.changed.emit()

        def failed(error: Exception) -> None:
            self._tell(str(error))
            self.ask()

        self._desk.write(work, done, failed)
