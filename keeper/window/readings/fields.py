"""The fields in which a tracker is asked for."""

from dataclasses import replace
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLineEdit, QWidget

from keeper.actions.readings import changing
from keeper.dates.written import full_date, shortest
from keeper.errors import UnreadableReading
from keeper.model import Tracker
from keeper.study.readings.numbers import number
from keeper.window.desk.desk import Desk
from keeper.window.parts.choice import Choice
from keeper.window.parts.small import label, row
from keeper.window.parts.typing.date_edit import DateEdit
from keeper.window.readings import wording

_ONLY_OF = {"Goes": ("scale",), "Steps": ("scale",), "In": ("count", "amount")}
"""Rows that only some forms have."""


class TrackerFields(QWidget):
    """What a tracker is, field below field; ``edited`` when any of it changes, ``entered`` on Enter."""

    edited = Signal()
    entered = Signal()

    def __init__(self, desk: Desk, of: Tracker | None) -> None:
        super().__init__()
        self._desk, self._of = desk, of
        self._build()
        self._lay_out()
        if of:
            self._fill(of)
        self._listen()
        self._show_rows()

    def _build(self) -> None:
        look = self._desk.look
        self.name = _edit("Its name")
        self.form = _choice(Choice(look, "How it is noted"), wording.FORMS)
        self.low, self.high = _edit("The scale from", "0"), _edit("The scale to", "10")
        self.half = QCheckBox("half steps too")
        self.unit = _edit("Its unit", "km, \u00b0C, cups")
        self.key = _edit("The letter that goes to it")
        self.key.setMaxLength(1)
        self.better = _choice(Choice(look, "What is better"), wording.BETTER)
        self.began = DateEdit(self._desk, "From, the first night")
        self.began.setText(full_date(self._desk.tonight()))
        self.ended = DateEdit(self._desk, "Until, the last night")
        self.ended.setPlaceholderText("no end")
        self.guest = QCheckBox("a guest for one month")
        self.body = QCheckBox("of the body or the mood")

    def _lay_out(self) -> None:
        px = self._desk.look.px
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(px(0.8))
        grid.setVerticalSpacing(px(0.4))
        grid.setColumnStretch(1, 1)
        to = label("to", "quiet", wrap=False)
        self._rows: dict[str, list[QWidget]] = {}
        for place, (word, *parts) in enumerate((
            ("Name", self.name), ("Noted", self.form), ("Goes", self.low, to, self.high), ("Steps", self.half), ("In", self.unit),
            ("Letter", self.key), ("Better", self.better), ("From", self.began), ("Until", self.ended), ("", self.guest), ("", self.body),
        )):  # fmt: skip
            named = label(word, "quiet", wrap=False)
            grid.addWidget(named, place, 0)
            grid.addLayout(row(*parts, None), place, 1) if len(parts) > 1 else grid.addWidget(parts[0], place, 1)
            self._rows[word] = [named, *parts]
        for edit in (self.low, self.high):
            edit.setMaximumWidth(px(5))

    def _fill(self, of: Tracker) -> None:
        self.name.setText(of.name)
        self.form.setCurrentIndex(self.form.findData(of.form))
        self.better.setCurrentIndex(self.better.findData(of.better))
        self.low.setText(shortest(of.low or 0.0))
        self.high.setText(shortest(10.0 if of.high is None else of.high))
        self.half.setChecked(of.step == 0.5)
        self.unit.setText(of.unit)
        self.key.setText(of.key.upper())
        self.began.setText(full_date(of.began))
        self.ended.setText(full_date(of.ended) if of.ended else "")
        self.body.setChecked(of.body)

    def _listen(self) -> None:
        for edit in (self.name, self.low, self.high, self.unit, self.key, self.began, self.ended):
            edit.textEdited.connect(lambda _: self.edited.emit())
            edit.returnPressed.connect(self.entered)
        for choice in (self.form, self.better):
            choice.currentIndexChanged.connect(lambda _: self._on_chosen())
        for box in (self.half, self.guest, self.body):
            box.toggled.connect(lambda _: self._on_chosen())

    def _on_chosen(self) -> None:
        self._show_rows()
        self.edited.emit()

    def _show_rows(self) -> None:
        for word, forms in _ONLY_OF.items():
            for part in self._rows[word]:
                part.setVisible(self.form.currentData() in forms)
        self.ended.setEnabled(not self.guest.isChecked())

    # what is asked for

    def meant(self) -> Tracker:
        """What is asked for. Raises KeeperError where something of it cannot be."""
        form = self.form.currentData()
        began = self.began.meant()
        first = began.first if began else self._desk.tonight()
        made = self._of or Tracker("", "", form, None, None, "", "neither", first)
        low, high = self._ends(made, form)
        step = (0.5 if self.half.isChecked() else 1.0) if form == "scale" else made.step
        return replace(
            made, name=self.name.text(), form=form, low=low, high=high, step=step, better=self.better.currentData(),
            unit=self.unit.text() if form in _ONLY_OF["In"] else "h" if form == "hours" else "", key=self.key.text(),
            began=first, ended=self._last(first), body=self.body.isChecked(),
        )  # fmt: skip

    def _ends(self, made: Tracker, form: str) -> tuple[float | None, float | None]:
        if form != "scale":
            return (made.low, made.high) if made.form == form else (None, None)
        ends = [number(edit.text() or edit.placeholderText()) for edit in (self.low, self.high)]
        if None in ends:
            raise UnreadableReading("A scale goes from one number to another.")
        return ends[0], ends[1]

    def _last(self, first: date) -> date | None:
        if self.guest.isChecked():
            return changing.guest_until(first)
        ended = self.ended.meant()
        return ended.last if ended else None


def _edit(name: str, usual: str = "") -> QLineEdit:
    made = QLineEdit()
    made.setAccessibleName(name)
    made.setPlaceholderText(usual)
    return made


def _choice(made: Choice, choices: tuple[tuple[str, str], ...]) -> Choice:
    for value, told in choices:
        made.addItem(told, value)
    return made
