"""A tracker asked for in words: what it is, from when until when, and what changing it would do."""

from dataclasses import replace
from datetime import date

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QCheckBox, QDialog, QGridLayout, QLineEdit, QVBoxLayout, QWidget

from keeper.actions.readings import changing, once, trackers
from keeper.actions.readings.shape import checked, free_key
from keeper.dates.written import full_date, shortest
from keeper.errors import KeeperError, UnreadableReading
from keeper.model import Tracker
from keeper.study.readings.numbers import number
from keeper.window.desk.desk import Desk
from keeper.window.parts.choice import Choice
from keeper.window.parts.small import label, plain_button, row
from keeper.window.parts.typing.date_edit import DateEdit
from keeper.window.readings import wording


class TrackerForm(QDialog):
    """Asks for a tracker; ``tracker`` is the one that is changed, or None for another one."""

    def __init__(self, desk: Desk, parent: QWidget, tracker: Tracker | None = None) -> None:
        super().__init__(parent)
        self.desk, self._was = desk, tracker
        self.setWindowTitle("Change a reading" if tracker else "A reading of your own")
        self._build()
        self._lay_out()
        if tracker:
            self._fill(tracker)
        self._listen()
        self._follow()
        self.name.setFocus()

    def _build(self) -> None:
        self.name = _edit("Its name")
        self.form = Choice(self.desk.look, "How it is noted")
        for value, told in wording.FORMS:
            self.form.addItem(told, value)
        self.low, self.high = _edit("The scale from", "0"), _edit("The scale to", "10")
        self.half = QCheckBox("half steps")
        self.unit = _edit("Its unit")
        self.key = _edit("The letter that goes to it")
        self.key.setMaxLength(1)
        self.better = Choice(self.desk.look, "What is better")
        for value, told in wording.BETTER:
            self.better.addItem(told, value)
        self.began = DateEdit(self.desk, "From, the first night")
        self.began.setText(full_date(self.desk.tonight()))
        self.ended = DateEdit(self.desk, "Until, the last night")
        self.ended.setPlaceholderText("no end")
        self.guest = QCheckBox("a guest for one month")
        self.body = QCheckBox("of the body or the mood")
        self.told = label("", "quiet")
        self.leave, self.act = plain_button("Cancel", self.reject), plain_button("Set" if self._was else "Begin", self.take)

    def _lay_out(self) -> None:
        px = self.desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.6))
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(0.8))
        grid.setVerticalSpacing(px(0.4))
        grid.setColumnStretch(1, 1)
        to = label("to", "quiet", wrap=False)
        self._rows: dict[str, list[QWidget]] = {}
        for place, (word, *parts) in enumerate((
            ("Name", self.name), ("Noted", self.form), ("Goes", self.low, to, self.high), ("By", self.half), ("In", self.unit),
            ("Letter", self.key), ("Of it", self.better), ("From", self.began), ("Until", self.ended), ("", self.guest), ("", self.body),
        )):  # fmt: skip
            named = label(word, "quiet", wrap=False)
            grid.addWidget(named, place, 0)
            grid.addLayout(row(*parts, None), place, 1) if len(parts) > 1 else grid.addWidget(parts[0], place, 1)
            self._rows[word] = [named, *parts]
        layout.addLayout(grid)
        layout.addWidget(self.told)
        layout.addStretch(1)
        layout.addLayout(row(None, self.leave, self.act))
        for edit in (self.low, self.high):
            edit.setMaximumWidth(px(5))
        # So that the sentence has room, and little moves when it changes.
        self.told.ensurePolished()
        self.told.setMinimumHeight(self.told.fontMetrics().lineSpacing() * 4)
        self.told.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)

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
        for edit in (self.low, self.high, self.unit, self.key, self.began, self.ended):
            edit.textEdited.connect(lambda _: self._follow())
        self.name.textEdited.connect(self._on_name)
        for choice in (self.form, self.better):
            choice.currentIndexChanged.connect(lambda _: self._follow())
        for box in (self.half, self.guest, self.body):
            box.toggled.connect(lambda _: self._follow())
        for edit in (self.name, self.low, self.high, self.unit, self.key, self.began, self.ended):
            edit.returnPressed.connect(self.take)

    def sizeHint(self) -> QSize:
        wide = self.desk.look.px(32)
        return QSize(wide, max(super().sizeHint().height(), self.layout().totalHeightForWidth(wide)))

    # what is asked for

    def _on_name(self, name: str) -> None:
        if self._was is None:
            under_way = trackers.in_force(self.desk.store, self.desk.tonight())
            self.key.setText(free_key(name, under_way).upper())
        self._follow()

    def meant(self) -> Tracker:
        """What is asked for. Raises KeeperError where something of it cannot be."""
        form = self.form.currentData()
        began = self.began.meant()
        first = began.first if began else self.desk.tonight()
        made = self._was or Tracker("", "", form, None, None, "", "neither", first)
        low, high = self._ends(made, form)
        step = (0.5 if self.half.isChecked() else 1.0) if form == "scale" else made.step
        return replace(
            made, name=self.name.text(), form=form, low=low, high=high, step=step, better=self.better.currentData(),
            unit=self.unit.text() if form in ("count", "amount") else "h" if form == "hours" else "", key=self.key.text(),
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

    def _follow(self) -> None:
        form = self.form.currentData()
        for word, forms in (("Goes", ("scale",)), ("By", ("scale",)), ("In", ("count", "amount"))):
            for part in self._rows[word]:
                part.setVisible(form in forms)
        self.ended.setEnabled(not self.guest.isChecked())
        self.tell(self._would())

    def _would(self) -> str:
        if not self.name.text().strip():
            return "A name is enough; all else can stay as it is."
        try:
            others = [one for one in trackers.every(self.desk.store) if self._was is None or one.id != self._was.id]
            made = checked(self.meant(), others)
            if self._was:
                return " ".join(changing.would(self.desk.store, made))
        except KeeperError as error:
            return str(error)
        until = f" until {full_date(made.ended)}" if made.ended else ""
        return f"{made.name} is asked for from {full_date(made.began)} on{until}."

    def tell(self, sentence: str) -> None:
        """Say what it would do, or what cannot be."""
        self.told.setText(sentence)
        layout = self.layout()
        layout.activate()
        needed = layout.totalHeightForWidth(self.width())
        if self.isVisible() and self.height() < needed:
            self.resize(self.width(), needed)

    # doing

    def take(self) -> None:
        """Keep it, and close; what cannot be is told, and stays to be mended."""
        try:
            made = self.meant()
        except KeeperError as error:
            self.tell(str(error))
            return
        act, tonight = (changing.change if self._was else changing.begin), self.desk.tonight()

        def keep(store) -> str:
            act(store, made)
            return once.of_many(store, tonight)

        self.desk.write(keep, self._on_kept, lambda error: self.tell(str(error)))

    def _on_kept(self, word: str) -> None:
        if word:
            self.desk.said.emit(word)
        self.desk.changed.emit()
        self.accept()


def _edit(name: str, usual: str = "") -> QLineEdit:
    made = QLineEdit()
    made.setAccessibleName(name)
    made.setPlaceholderText(usual)
    return made
