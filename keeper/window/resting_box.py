"""What rests, in the settings: told by number until it is asked for, each thing with a way to wake it."""

from collections.abc import Callable, Sequence
from textwrap import shorten

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from keeper.actions import resting
from keeper.actions.resting import Resting
from keeper.errors import UnreadableDate
from keeper.window import wording
from keeper.window.asks_again import AsksAgain
from keeper.window.desk import Desk
from keeper.window.flow import Flow
from keeper.window.parts import emptied, label, quiet_button, row
from keeper.window.piecemeal import Piecemeal, few_at_a_time

TOLD = "Never brought up unasked, still found: nights, people, places, photos and lines."
AT_A_TIME, AT_MOST = 8, 80
LONGEST = 160
"""Letters of a line that are shown; the whole of it is on its night."""

_WHAT = {"span": "nights", "person": "a name", "place": "a place", "photo": "a photo", "line": "a line"}


class RestingRow(QWidget):
    """One thing that rests; ``wake`` lets it be brought up again."""

    def __init__(self, desk: Desk, one: Resting, wake: Callable[[Resting], None]) -> None:
        super().__init__()
        words = told(one)
        self.words = label(words, "spoken")
        self.wake = quiet_button("Wake", lambda: wake(one), f"Wake {_WHAT[one.what]}: {words}")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(desk.look.px(0.8))
        layout.addWidget(self.words, 1)
        layout.addWidget(label(_what(one), "quiet", wrap=False))
        layout.addWidget(self.wake)


class RestingBox(AsksAgain, QWidget):
    """How much rests; all of it when asked for; and a span of nights to let rest."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._found: tuple[Resting, ...] = ()
        self._coming = Piecemeal(self)
        self.rows: list[RestingRow] = []
        self.count = label("", "quiet")
        self.open = quiet_button("Show what rests", self._turn)
        self.opened = False
        self.first, self.last = _date("From, as year-month-day"), _date("Until, as year-month-day")
        self.rest = quiet_button("Let rest", self._rest_span, "Let these nights rest")
        self.told = label("", "quiet")
        self.told.hide()
        for edit in (self.first, self.last):
            edit.returnPressed.connect(self._rest_span)
        self._lay_out()
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self._fit)

    def _lay_out(self) -> None:
        px = self._desk.look.px
        body = QVBoxLayout(self)
        body.setContentsMargins(0, 0, 0, 0)
        body.setSpacing(px(0.3))
        self._list = QVBoxLayout()
        self._list.setSpacing(px(0.3))
        body.addWidget(label("What rests", "words"))
        body.addWidget(label(TOLD, "quiet"))
        body.addLayout(row(self.count, self.open, None, gap=px(0.8)))
        body.addLayout(self._list)
        ends = (label("Let a span of nights rest, from", wrap=False), self.first, label("until", wrap=False), self.last)
        body.addWidget(Flow(self._desk.look, *ends, self.rest, gap=0.6))
        body.addWidget(self.told)
        self._fit()

    def _fit(self) -> None:
        for edit in (self.first, self.last):
            edit.setFixedWidth(self._desk.look.px(8))

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        # Who comes for the size of the text is not to meet what rests.
        self.opened = False
        self.ask()

    def ask(self) -> None:
        """Ask for what is shown."""
        self._desk.reader.run(lambda store, task: resting.what_rests(store), self._show)

    def _show(self, found: Sequence[Resting]) -> None:
        at = next((place for place, one in enumerate(self.rows) if one.wake.hasFocus()), None)
        self._found = tuple(found)
        self.count.setText(f"{wording.counted(len(found), 'thing')} at rest." if found else "Nothing rests.")
        self.open.setVisible(bool(found))
        self.open.setText("Hide" if self.opened and found else "Show what rests")
        emptied(self._list)
        self.rows = []
        pieces = few_at_a_time(AT_A_TIME, self._add_row, found[:AT_MOST]) if self.opened else []
        if self.opened and len(found) > AT_MOST:
            pieces.append(self._tell_more)
        self._coming.begin(pieces, at_once=1 if at is None else len(pieces))
        if at is not None:
            (self.rows[min(at, len(self.rows) - 1)].wake if self.rows else self.first).setFocus()

    def _add_row(self, one: Resting) -> None:
        made = RestingRow(self._desk, one, self._wake)
        self._list.addWidget(made)
        self.setTabOrder(self.rows[-1].wake if self.rows else self.open, made.wake)
        self.setTabOrder(made.wake, self.first)
        self.rows.append(made)

    def _tell_more(self) -> None:
        self._list.addWidget(label(f"{wording.number(len(self._found) - AT_MOST)} more, to be woken from their nights.", "quiet"))

    def _turn(self) -> None:
        self.opened = not self.opened
        self._show(self._found)

    def _wake(self, one: Resting) -> None:
        self._write(lambda store: resting.wake(store, one), "It is brought up again.")

    def _rest_span(self) -> None:
        try:
            first, last = resting.read_span(self.first.text(), self.last.text(), self._desk.tonight())
        except UnreadableDate as error:
            self.told.setText(str(error))
            self.told.show()
            return
        self.first.clear()
        self.last.clear()
        said = f"{_span(first, last)}: at rest now, not brought up unasked."
        self._write(lambda store: resting.rest_span(store, first, last), said)

    def _write(self, work: Callable, said: str) -> None:
        def done(_: object) -> None:
            self._desk.said.emit(said)
            self._desk.changed.emit()

        self.told.hide()
        self._desk.write(work, done)


def told(one: Resting) -> str:
    """What rests, in its own words."""
    return _span(one.first, one.last) if one.what == "span" else shorten(one.told, LONGEST, placeholder="\u2026")


def _what(one: Resting) -> str:
    when = one.first if one.what in ("line", "photo") else None
    return _WHAT[one.what] + (f" \u00b7 {wording.short_date(when)}" if when else "")


def _span(first, last) -> str:
    one, other = wording.short_date(first), wording.short_date(last)
    return one if first == last else f"{one} to {other}"


def _date(name: str) -> QLineEdit:
    made = QLineEdit()
    made.setAccessibleName(name)
    made.setPlaceholderText("2026-11-14")
    made.setMaxLength(40)
    return made
