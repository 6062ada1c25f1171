"""The fields in which pages to print are asked for."""

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QGridLayout, QLineEdit, QVBoxLayout, QWidget

from keeper.actions.printing.wanted import USUAL_SIZE, BadPaper, MonthParts, PagesWanted
from keeper.dates.written import full_date, month_and_year
from keeper.days import first_of_month, last_of_month
from keeper.study.readings.numbers import number
from keeper.window.desk.desk import Desk
from keeper.window.desk.wording import capitalised
from keeper.window.parts.choice import Choice
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import label, row
from keeper.window.parts.typing.date_edit import SUCH_AS, DateEdit, in_words
from keeper.window.printing import wording

_TOP, _MIDDLE = Qt.AlignmentFlag.AlignTop, Qt.AlignmentFlag.AlignVCenter


class PagesForm(QWidget):
    """What is to be printed and on what paper; ``edited`` when any of it changes."""

    edited = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.night = desk.tonight()
        self.what = self._choice("What to print", wording.WHAT)
        self.when = DateEdit(desk, "Of which month, year or night")
        self.size, self.own = self._choice("Size of the page", wording.SIZES), _edit("Width and height in millimetres", "120 x 170")
        self.holes = _edit("Margin for holes, in millimetres", "12")
        self.ground = self._choice("To write on", wording.GROUNDS)
        self.paper = self._choice("Sheets in the printer", wording.PAPERS)
        self.sides = self._choice("Sides", wording.SIDES)
        self.booklet = QCheckBox("As a booklet to fold")
        self.booklet.setAccessibleDescription("Two pages side by side on each sheet, in the order of a booklet")
        self.ticked = _edit("What is ticked", "left empty")
        self.resting = QCheckBox("Include what rests")
        self.boxes = {part: _box(part, words) for part, words in wording.PARTS.items()}
        self.told, self.understood = label("", "quiet"), label("", "quiet")
        self._lay_out()
        self._listen()
        self._follow()

    @property
    def chosen(self) -> str:
        """What is to be printed: one of ``wanted.WHAT``."""
        return self.what.currentData() or "month"

    def _choice(self, name: str, choices: dict[str, str]) -> Choice:
        made = Choice(self._desk.look, name)
        for value, words in choices.items():
            made.addItem(words, value)
        return made

    def _lay_out(self) -> None:
        px = self._desk.look.px
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(1.2))
        grid.setVerticalSpacing(px(0.5))
        grid.setColumnStretch(1, 1)
        self.own.setMaximumWidth(px(11))
        self.holes.setMaximumWidth(px(4))
        self._parts = Flow(self._desk.look, *self.boxes.values(), self.resting, gap=1.2)
        rows = (
            ("Print", self.what), ("Of", self.when), ("", self.understood), ("For", self.ticked), ("Page", row(self.size, self.own, None)),
            ("Holes", row(self.holes, label("mm kept free", "quiet", wrap=False), None)), ("To write on", self.ground),
            ("Sheets", self.paper), ("Sides", self.sides), ("", self.booklet), ("With", self._parts),
        )  # fmt: skip
        self._rows: dict[str, QWidget] = {}
        for number_, (words, field) in enumerate(rows):
            if words:
                self._rows[words] = label(words, "quiet", wrap=False)
                grid.addWidget(self._rows[words], number_, 0, _TOP if field is self._parts else _MIDDLE)
            grid.addWidget(field, number_, 1) if isinstance(field, QWidget) else grid.addLayout(field, number_, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(px(0.6))
        layout.addWidget(self.told)
        layout.addLayout(grid)

    def _listen(self) -> None:
        self.what.currentIndexChanged.connect(lambda _: self._on_what())
        for choice in (self.size, self.ground, self.paper, self.sides):
            choice.currentIndexChanged.connect(lambda _: self._follow())
        for edit in (self.when, self.own, self.holes, self.ticked):
            edit.textEdited.connect(lambda _: self._follow())
        for box in (self.booklet, self.resting, *self.boxes.values()):
            box.toggled.connect(lambda _: self._follow())

    def _on_what(self) -> None:
        # Cards are small, and several of them stand on a sheet.
        cards = self.chosen == "cards"
        self.size.setCurrentIndex(self.size.findData(USUAL_SIZE.get(self.chosen, "a5")))
        self.paper.setCurrentIndex(self.paper.findData("a4" if cards else "same"))
        self.holes.setText("0" if cards else "12")
        self._follow()

    def _follow(self) -> None:
        what = self.chosen
        self.told.setText(wording.TOLD[what])
        self.own.setVisible(not self.size.currentData())
        for part in (self.when, self._rows["Of"]):
            part.setVisible(what != "ruler")
        self.when.setPlaceholderText(_offered(what, self.night))
        for part in (self.ticked, self._rows["For"]):
            part.setVisible(what == "year")
        for part in (self.ground, self._rows["To write on"]):
            part.setVisible(what in ("month", "nights"))
        for part, box in self.boxes.items():
            box.setVisible(part in wording.PARTS_OF[what])
        self.resting.setVisible(what == "filled")
        for part in (self._parts, self._rows["With"]):
            part.setVisible(bool(wording.PARTS_OF[what]))
        self._parts.updateGeometry()
        self.understood.setText(self._meant() if what != "ruler" else "")
        self.understood.setVisible(bool(self.understood.text()))
        self.edited.emit()

    def _meant(self) -> str:
        meant = self.when.meant_or_none()
        if meant is None:
            return f"Such as {SUCH_AS}." if self.when.text().strip() else ""
        what = self.chosen
        if what == "year":
            return str(meant.first.year)
        return month_and_year(meant.first) if what in ("month", "filled") else capitalised(in_words(meant))

    def show_night(self, night: date) -> None:
        """Offer the month, the year or the night the window is on, where nothing else was typed."""
        self.night = night
        self._follow()

    def wanted(self) -> PagesWanted:
        """What is asked for. Raises UnreadableDate, BadPaper."""
        what, meant = self.chosen, self.when.meant()
        first, last = (meant.first, meant.last) if meant else (self.night, self.night)
        if what in ("month", "filled"):
            first, last = first_of_month(first), last_of_month(first)
        elif what == "year":
            first, last = date(first.year, 1, 1), date(first.year, 12, 31)
        offered = wording.PARTS_OF[what]
        parts = MonthParts(**{part: box.isChecked() for part, box in self.boxes.items() if part in offered})
        wanted = PagesWanted(
            what, first, last, self.size.currentData() or self.own.text() or self.own.placeholderText(), self._free(),
            self.ground.currentData(), self.paper.currentData(), self.sides.currentData(), self.booklet.isChecked(), parts,
            self.ticked.text() if what == "year" else "", self.resting.isChecked() and what == "filled",
        )  # fmt: skip
        wanted.leaf  # noqa: B018 (says what is wrong before anything is made)
        return wanted

    def _free(self) -> float:
        free = number(self.holes.text() or "0")
        if free is None:
            raise BadPaper("The margin for holes is a number of millimetres, such as 12.")
        return free


def _offered(what: str, night: date) -> str:
    if what == "year":
        return str(night.year)
    return month_and_year(night) if what in ("month", "filled") else full_date(night)


def _edit(name: str, usual: str) -> QLineEdit:
    made = QLineEdit()
    made.setAccessibleName(name)
    made.setPlaceholderText(usual)
    made.setMaxLength(60)
    if usual.isdecimal():
        made.setText(usual)
    return made


def _box(part: str, words: str) -> QCheckBox:
    made = QCheckBox(words)
    made.setChecked(getattr(MonthParts(), part))
    made.setAccessibleDescription(wording.PARTS_TOLD.get(part, ""))
    return made
