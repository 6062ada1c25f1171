"""Paper: a month or any span of nights typed up like a ruled page, with the notebook beside it."""

from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from functools import cached_property
from pathlib import Path

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QDragEnterEvent,
    QDropEvent,
    QKeySequence,
    QShortcut,
)
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from keeper.actions import reading
from keeper.actions.scans import kept as scans
from keeper.actions.sheet import columns
from keeper.actions.sheet.asking import Cell, Sheet, sheet_of
from keeper.dates import written
from keeper.days import first_of_month, last_month, last_of_month, next_month
from keeper.model import Place
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.asks_again import AsksAgain
from keeper.window.parts.errand import Errand
from keeper.window.parts.low_window import LowWindow
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import in_the_middle
from keeper.window.sheet.beside import NotebookBeside
from keeper.window.sheet.bringing import Bringing
from keeper.window.sheet.grid import Grid
from keeper.window.sheet.head import KEYS, NONE, SheetHead
from keeper.window.sheet.keeping import CellKeeping
from keeper.window.sheet.model import SheetModel
from keeper.window.sheet.note import NoteBeside

_WIDEST, _LEAST, _LEAST_WITH_A_PAGE = 110, 12, 20
"""How wide the sheet is at most, and how tall at least, in times the text's height."""


class SheetPage(BasicPage, AsksAgain, QWidget):
    """Fills in a span of nights, cell by cell."""

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk.look.stage)
        self.desk = desk
        self.first = first_of_month(desk.tonight())
        self.last = last_of_month(self.first)
        self._errand, self._places = Errand(desk.reader), Errand(desk.reader)
        self._wanted: date | None = None
        self._visited = self.first
        self.model = SheetModel(desk.words)
        self.keeping = CellKeeping(desk, self.model)
        self.grid = Grid(desk, self.model, self.keeping)
        self.note = NoteBeside(desk.look, self.grid, self.model)
        self._build()
        self._add_keys((("Alt+PgUp", lambda: self.step(-1)), ("Alt+PgDown", lambda: self.step(1))))
        self.bringing = Bringing(desk, self, self.head.bring)
        self.grid.pointed.connect(self._tell)
        self.keeping.settled.connect(self._on_settled)
        self.model.modelReset.connect(self._begin)
        desk.changed.connect(self.refresh)
        desk.keeping.connect(self.keep)
        for bar in (self.grid.verticalScrollBar(), self.grid.horizontalScrollBar()):
            bar.valueChanged.connect(lambda _: self.note.show_again())
        self.setAcceptDrops(True)
        self.lead_with(self.grid)

    @cached_property
    def beside(self) -> NotebookBeside:
        """The notebook beside the rows; made when there are pages of it, as most months have none."""
        made = NotebookBeside(self.desk)
        made.hide()
        self.split.addWidget(made)
        for number, share in enumerate((3, 2)):
            self.split.setStretchFactor(number, share)
        self._add_keys(made.keys())
        return made

    @property
    def _is_beside(self) -> bool:
        return "beside" in self.__dict__ and not self.beside.isHidden()

    @property
    def month(self) -> date:
        """The first day of the month in which the sheet begins."""
        return first_of_month(self.first)

    def _build(self) -> None:
        self.head = SheetHead(self.desk.look)
        self.head.stepped.connect(self.step)
        self.head.columns_wanted.connect(self.choose_columns)
        self.head.nights_wanted.connect(self.choose_nights)
        self.head.pages_wanted.connect(lambda: self.bringing.ask(*self._room_for_pages()))
        self.head.beside_turned.connect(self._turn_beside)
        self.head.month_wanted.connect(lambda: self.desk.go("month", self._night()))
        self.split = QSplitter(Qt.Orientation.Horizontal)
        self.split.setChildrenCollapsible(False)
        self.split.addWidget(self.grid)
        self.column = QWidget()
        layout = QVBoxLayout(self.column)
        layout.addWidget(self.head)
        layout.addWidget(self.split, 1)
        self.low = LowWindow()
        self.low.within.setLayout(in_the_middle(self.column))
        outer = QVBoxLayout(self)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.addWidget(self.low)
        self.dress()

    def _add_keys(self, pressed: Iterable[tuple[str, Callable[[], object]]]) -> None:
        for keys, act in pressed:
            shortcut = QShortcut(QKeySequence(keys), self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(act)

    def dress(self) -> None:
        """Take up the palette and sizes in force."""
        px = self.desk.look.px
        self.column.setMaximumWidth(1 << 20 if self._is_beside else px(_WIDEST))
        self.column.layout().setContentsMargins(px(1.5), px(1.2), px(1.5), px(0.6))
        self.column.layout().setSpacing(px(0.4))
        self.split.setMinimumHeight(px(_LEAST_WITH_A_PAGE if self._is_beside else _LEAST))
        self.grid.fit()
        self.note.dress()

    # asking

    def show_night(self, night: date) -> None:
        """Show the month of a night, unless it is among the nights shown."""
        self.grid.editing.close()
        self._visited = night
        if not (self.model.sheet and self.first <= night <= self.last):
            self._take_span(first_of_month(night), last_of_month(night))
        self._ask_places()
        self.ask()

    def show_thing(self, thing: object) -> None:
        """Go to the row of a night, or to the page of an id and the row of the night it was gone to with."""
        if thing:
            self._wanted = thing if isinstance(thing, date) else self._visited
            self._begin()
        if thing and not isinstance(thing, date):
            self.beside.see(str(thing))

    def _take_span(self, first: date, last: date) -> None:
        self.first, self.last = first, last
        whole = (first, last) == (first_of_month(first), last_of_month(first))
        self.head.heading.setText(f"From paper: {wording.month_and_year(first) if whole else written.span(first, last)}")
        self.head.after.setEnabled(last < self.desk.tonight())

    def ask(self) -> None:
        """Ask for what the nights hold, and for the pages of the notebook."""
        first, last, keys = self.first, self.last, columns.picked(self.desk.kept)
        self._errand.anew(lambda store, task: (sheet_of(store, first, last, keys), scans.of_span(store, first, last)), self._show)

    def _ask_places(self) -> None:
        # Apart from the rest, since there may be a thousand; only when one of them may be new.
        self._places.anew(lambda store, task: _folded(reading.known_places(store)), lambda places: setattr(self.model, "places", places))

    def step(self, by: int) -> None:
        """Go to the month, or as many nights, before or after."""
        self.grid.editing.close()
        if self.first == self.month and self.last == last_of_month(self.first):
            month = next_month(self.first) if by > 0 else last_month(self.first)
            self.desk.go("sheet", min(month, self.desk.tonight()))
            return
        many = timedelta(days=((self.last - self.first).days + 1) * by)
        if self.first + many <= self.desk.tonight():
            self._take_span(self.first + many, self.last + many)
            self.ask()

    def _night(self) -> date:
        index = self.grid.currentIndex()
        return self.model.cell(index)[0] if index.isValid() else self.first

    def _show(self, found: tuple[Sheet, tuple]) -> None:
        sheet, pages = found
        if (sheet.first, sheet.last) != (self.first, self.last):
            return
        self.model.show(sheet, self.desk.latest_night())
        some = bool(sheet.columns)
        self.grid.setVisible(some)
        self.head.keys.setText(KEYS if some else NONE)
        self._show_pages(pages)
        self._tell(self.grid.currentIndex())

    def _show_pages(self, pages: tuple) -> None:
        if pages or "beside" in self.__dict__:
            self.beside.show_scans(pages)
        shown = bool(pages) and self.desk.kept.get("sheet_pages", "beside") == "beside"
        if shown != self._is_beside:
            self.beside.setVisible(shown)
            self.dress()
            # The rows one types in have the larger part.
            self.split.setSizes([3 * self.width() // 5, 2 * self.width() // 5])
        self.head.say_pages(bool(pages), shown)

    def _turn_beside(self) -> None:
        self.desk.change_setting("sheet_pages", "put away" if self._is_beside else "beside")
        self._show_pages(self.beside.scans)

    def _begin(self) -> None:
        """Go where one will begin to type: the row wanted, a cell left half typed, or the first night on which nothing is written."""
        if not (self.model.rowCount() and self.model.columnCount()):
            return
        if self._wanted and (at := self.model.place((self._wanted, self.model.sheet.columns[0].key))):
            self._wanted = None
            self.grid.setCurrentIndex(at)
            return
        first = (self.model.index(row, 0) for row in range(self.model.rowCount()))
        empty = next((at for at in first if self.model.open(at) and not self.model.text(at)), self.model.index(0, 0))
        left = (at for cell in sorted(self.model.wrong) if (at := self.model.place(cell)) is not None)
        self.grid.setCurrentIndex(next(left, empty))

    # what is shown of it

    def choose_columns(self) -> None:
        """Ask which columns the sheet is to have."""
        from keeper.window.sheet.columns_dialog import ColumnsDialog

        self.grid.editing.close()
        shown = columns.picked(self.desk.kept) or tuple(one.key for one in self.model.sheet.columns if self.model.sheet)
        dialog = ColumnsDialog(self.desk, columns.every(self.desk.store), shown, self)
        if dialog.exec():
            self.desk.change_setting(columns.SETTING, columns.as_setting(dialog.keys))
            self.ask()

    def choose_nights(self) -> None:
        """Ask for another span of nights."""
        from keeper.window.sheet.span_dialog import NightsDialog

        self.grid.editing.close()
        dialog = NightsDialog(self.desk, self.first, self.last, self)
        if dialog.exec():
            self._take_span(*dialog.span)
            self.ask()

    def _room_for_pages(self) -> tuple[date, date]:
        """The nights that pages to come belong to: those shown; where some have pages already, from the current one on."""
        return (self._night() if "beside" in self.__dict__ and self.beside.scans else self.first), self.last

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        sources = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        event.setDropAction(Qt.DropAction.CopyAction)
        event.accept()
        self.bringing.bring(sources, *self._room_for_pages())

    # telling

    def _tell(self, index: QModelIndex) -> None:
        if not index.isValid() or self.model.sheet is None:
            self.head.tell("")
            return
        if "beside" in self.__dict__:
            self.beside.follow(self.model.cell(index)[0])
        said = self.model.told(index)
        if self.head.tell(said):
            self._announce(said)
        self.note.of(self.model.cell(index))
        self.note.show_again()
        at = self.grid.visualRect(index)
        seen = self.grid.viewport().mapTo(self.low.within, at.center())
        self.low.ensureVisible(seen.x(), seen.y(), 0, 2 * at.height())

    def _on_settled(self, cells: Sequence[Cell]) -> None:
        for cell in (one for one in cells if one in self.model.wrong):
            if (at := self.model.place(cell)) is not None:
                self.note.of(cell)
                self._announce(self.model.told(at))
        if any(key == columns.PLACE for _, key in cells):
            self._ask_places()
        self.note.show_again()
        self._tell(self.grid.currentIndex())

    def _announce(self, said: str) -> None:
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self.grid, said))

    # leaving

    def keep(self) -> None:
        """Keep what is being typed in a cell."""
        self.grid.editing.close()

    def leave(self) -> None:
        """The same, when another page comes."""
        self.grid.editing.close()


def _folded(places: Iterable[Place]) -> tuple[tuple[str, Place], ...]:
    return tuple((reading.same_letters(one.name), one) for one in places)
