"""The sheet of readings: one month, nights down and trackers across."""

from datetime import date

from PySide6.QtCore import QModelIndex, QRect
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from keeper.actions.readings import month_sheet
from keeper.actions.readings.month_sheet import Cell, ReadingsSheet
from keeper.days import first_of_month, last_month, next_month
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import headed, in_the_middle, label, quiet_button
from keeper.window.sheet.grid import Grid
from keeper.window.sheet.keeping import CellKeeping
from keeper.window.sheet.model import SheetModel

KEYS = "Digits note, Enter goes down, Tab across; Space sets a mark, Delete takes back to not noted."
NONE = "Nothing is noted each night in this month."


class SheetPage(BasicPage, AsksAgain, QWidget):
    """Fills in a month of readings, cell by cell."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self.month: date = first_of_month(desk.tonight())
        self._errand = Errand(desk.reader)
        self._noted: Cell | None = None
        self.model = SheetModel(desk.words)
        self.keeping = CellKeeping(desk, self.model)
        self.grid = Grid(desk.look, self.model, self.keeping)
        self._build()
        self.grid.pointed.connect(self._tell)
        self.keeping.settled.connect(self._on_settled)
        self.model.modelReset.connect(self._begin)
        desk.changed.connect(self.refresh)
        desk.keeping.connect(self.keep)
        for bar in (self.grid.verticalScrollBar(), self.grid.horizontalScrollBar()):
            bar.valueChanged.connect(lambda _: self._show_note())
        self.lead_with(self.grid)

    def _build(self) -> None:
        self.heading = label("", "head")
        self.before = quiet_button("\u2039 earlier", lambda: self.step(-1), "The month before")
        self.after = quiet_button("later \u203a", lambda: self.step(1), "The month after")
        self.back = quiet_button("The month", lambda: self.desk.go("month", self._night()), "Back to the month")
        self.keys = label(KEYS, "quiet")
        self.told = label("", "plain")
        self.note = QLabel(self.grid.viewport())
        self.note.setObjectName("beside")
        self.note.setWordWrap(True)
        self.note.hide()
        column = QWidget()
        layout = QVBoxLayout(column)
        layout.addLayout(headed(self.heading, self.before, self.after))
        layout.addLayout(headed(self.keys, self.back))
        layout.addWidget(self.told)
        layout.addWidget(self.grid, 1)
        self.column = column
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addLayout(in_the_middle(column))
        self.dress()

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        px, colours = self.desk.look.px, self.desk.look.palette
        self.column.setMaximumWidth(px(110))
        self.column.layout().setContentsMargins(px(1.5), px(1.2), px(1.5), px(0.6))
        self.column.layout().setSpacing(px(0.4))
        self.grid.fit()
        self.note.setStyleSheet(f"background: {colours.paper}; border: 1px solid {colours.line}; padding: {px(0.3)}px;")
        self._show_note()

    # asking

    def show_night(self, night: date) -> None:
        """Show the month of a night."""
        self.grid.close_edit()
        self.month = first_of_month(night)
        self.heading.setText(f"Readings of {wording.month_and_year(self.month)}")
        self.after.setEnabled(next_month(self.month) <= self.desk.tonight())
        self.ask()

    def ask(self) -> None:
        """Ask for what the month holds."""
        month = self.month
        self._errand.anew(lambda store, task: month_sheet.sheet_of(store, month), self._show)

    def step(self, by: int) -> None:
        """Go to the month before or after."""
        month = next_month(self.month) if by > 0 else last_month(self.month)
        self.desk.go("sheet", min(month, self.desk.tonight()))

    def _night(self) -> date:
        index = self.grid.currentIndex()
        return self.model.cell(index)[0] if index.isValid() else self.month

    def _show(self, sheet: ReadingsSheet) -> None:
        if sheet.month != self.month:
            return
        self.model.show(sheet, self.desk.latest_night())
        some = bool(sheet.trackers)
        self.grid.setVisible(some)
        self.keys.setText(KEYS if some else NONE)
        if not some:
            self.told.setText("")
        self._tell(self.grid.currentIndex())

    def _begin(self) -> None:
        # Where one will begin to type: the first night still to be noted.
        if self.model.rowCount() and self.model.columnCount():
            rows = range(self.model.rowCount())
            empty = [n for n in rows if self.model.open(self.model.index(n, 0)) and not self.model.text(self.model.index(n, 0))]
            self.grid.setCurrentIndex(self.model.index(empty[0] if empty else 0, 0))

    # telling

    def _tell(self, index: QModelIndex) -> None:
        if not index.isValid():
            return
        said = self.model.told(index)
        if said != self.told.text():
            self.told.setText(said)
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self.grid, said))
        if self.model.cell(index) in self.model.wrong:
            self._noted = self.model.cell(index)
        self._show_note()

    def _on_settled(self, cell: Cell) -> None:
        at = self.model.place(cell)
        if at is not None and cell in self.model.wrong:
            self._noted = cell
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self.grid, self.model.told(at)))
        self._show_note()
        self._tell(self.grid.currentIndex())

    def _show_note(self) -> None:
        """Say beside a cell what is wrong with its text, till it is mended; then of the next such cell."""
        here = [cell for cell in self.model.wrong if self.model.place(cell) is not None]
        self._noted = self._noted if self._noted in here else next(iter(here), None)
        self.note.setVisible(self._noted is not None)
        if self._noted is not None:
            self.note.setText(self.model.wrong[self._noted])
            self._place(self.model.place(self._noted))

    def _place(self, index: QModelIndex) -> None:
        px, room, cell = self.desk.look.px, self.grid.viewport().rect(), self.grid.visualRect(index)
        self.note.setFixedWidth(min(px(20), room.width()))
        self.note.setFixedHeight(self.note.heightForWidth(self.note.width()))
        beside = QRect(cell.right() + 4, cell.top(), self.note.width(), self.note.height())
        if beside.right() > room.right():
            beside.moveRight(cell.left() - 4)
        # Never over the cell one types in.
        typed_in = self.grid.visualRect(self.grid.currentIndex())
        if beside.intersects(typed_in):
            beside.moveTop(typed_in.bottom() + 2)
        self.note.setGeometry(beside)
        self.note.raise_()

    # leaving

    def keep(self) -> None:
        """Keep what is being typed in a cell."""
        self.grid.close_edit()

    def leave(self) -> None:
        """The same, when another page comes."""
        self.grid.close_edit()
