"""What rests, in the settings: told by number until it is asked for, each thing with a way to wake it."""

from collections.abc import Callable, Sequence
from textwrap import shorten

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.actions import resting
from keeper.actions.resting import Resting
from keeper.errors import UnreadableDate
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.own_spelling import own_spelling
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.flow import Flow
from keeper.window.parts.piecemeal import Piecemeal, few_at_a_time
from keeper.window.parts.small import emptied, label, quiet_button, row
from keeper.window.parts.typing.date_edit import DateEdit, span_told
from keeper.window.settings.box import begun

TOLD = "These are not brought up unless you look for them: nights, people, places, photos and lines."
AT_A_TIME, AT_MOST = 8, 80
LONGEST = 160
"""Letters of a line that are shown; the whole of it is on its night."""

_WHAT = {"span": "nights", "person": "a name", "place": "a place", "photo": "a photo", "line": "a line"}


class RestingRow(QWidget):
    """One thing that rests, by its name or date; ``wake`` lets it be brought up again.

    What may hurt to read, a line or a caption, is shown by ``look`` alone: to
    wake one, the words of the others need not be met.
    """

    def __init__(self, desk: Desk, one: Resting, wake: Callable[[Resting], None]) -> None:
        super().__init__()
        self._told = told(one)
        self.hides = one.what in ("line", "photo") and bool(one.told)
        name = _when(one) if self.hides else self._told
        kind = f"\u201c{one.kind_name}\u201d" if one.kind_name else one.kind
        what = f"a line, {kind}" if kind else _WHAT[one.what]
        self.name, self.words = label(name, "spoken"), label("", "spoken")
        self.look = quiet_button("", self._turn)
        self._of = f"{_WHAT[one.what]} of {name}, {kind}" if kind else f"{what}, {name}"
        self.wake = quiet_button("Wake", lambda: wake(one), f"Wake {self._of}")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        beside = row(self.name, label(what, "quiet", wrap=False), self.look, self.wake, gap=desk.look.px(0.8))
        beside.setStretch(0, 1)
        layout.addLayout(beside)
        layout.addWidget(self.words)
        self.look.setVisible(self.hides)
        self.show_words(False)

    def show_words(self, shown: bool) -> None:
        """Show what it says, or not."""
        self.words.setText(self._told if shown else "")
        self.words.setVisible(shown)
        self.look.setText("Hide" if shown else "Read")
        self.look.setAccessibleName(f"{self.look.text()} {self._of}")
        self.look.setAccessibleDescription(self.words.text())

    def _turn(self) -> None:
        self.show_words(self.words.isHidden())


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
        self.first, self.last = _date(desk, "From", "the first night"), _date(desk, "To", "the last")
        self.rest = quiet_button("Let rest", self._rest_span, "Let these nights rest")
        self.told = label("", "quiet")
        self.told.hide()
        for edit in (self.first, self.last):
            edit.returnPressed.connect(self._rest_span)
            edit.textChanged.connect(lambda _: self._tell_dates())
        self._lay_out()
        desk.changed.connect(self.refresh)
        desk.dressed.connect(self._fit)

    def _lay_out(self) -> None:
        px = self._desk.look.px
        body, self._list = begun(self, self._desk.look, "What rests", TOLD, 0.3)
        body.addLayout(row(self.count, self.open, None, gap=px(0.8)))
        body.addLayout(self._list)
        ends = (label("Let the nights rest from", wrap=False), self.first, label("to", wrap=False), self.last)
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
        self.count.setText(f"{wording.counted(len(found), 'thing')} {'rests' if len(found) == 1 else 'rest'}." if found else "Nothing rests.")
        self.open.setVisible(bool(found))
        self.open.setText("Hide what rests" if self.opened and found else "Show what rests")
        self.open.setAccessibleName(self.open.text())
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
        self.setTabOrder(self.rows[-1].wake if self.rows else self.open, made.look)
        self.setTabOrder(made.look, made.wake)
        self.setTabOrder(made.wake, self.first)
        self.rows.append(made)

    def _tell_more(self) -> None:
        self._list.addWidget(label(f"{wording.number(len(self._found) - AT_MOST)} more, to be woken from their nights.", "quiet"))

    def _turn(self) -> None:
        self.opened = not self.opened
        self._show(self._found)

    def _wake(self, one: Resting) -> None:
        self._write(lambda store: resting.wake(store, one), "Awake. It can be brought up again.")

    def _tell_dates(self) -> None:
        told = span_told(self.first, self.last, "from", "to")
        self.told.setText(told)
        self.told.setVisible(bool(told))

    def _rest_span(self) -> None:
        try:
            first, last = resting.read_span(self.first.text(), self.last.text(), self._desk.tonight(), own_spelling())
        except UnreadableDate as error:
            self.told.setText(str(error))
            self.told.show()
            return
        self.first.clear()
        self.last.clear()
        said = f"Resting: {_span(first, last)}. These nights will not be brought up again."
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


def _when(one: Resting) -> str:
    return wording.short_date(one.first) if one.first else "of no night"


def _span(first, last) -> str:
    one, other = wording.short_date(first), wording.short_date(last)
    return one if first == last else f"{one} to {other}"


def _date(desk: Desk, name: str, placeholder: str) -> DateEdit:
    made = DateEdit(desk, name)
    made.setPlaceholderText(placeholder)
    return made
