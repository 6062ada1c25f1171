"""Typing in a cell: one editor for each sort of column, laid over the cell it is for."""

from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, QRect, Qt, Signal
from PySide6.QtWidgets import QTableView, QWidget

from keeper.window.desk.desk import Desk
from keeper.window.desk.timers import once_after
from keeper.window.parts.places.town_search import TownSearch
from keeper.window.parts.typing.field import DRAFT_AFTER
from keeper.window.sheet.editors import LineEdit, PlaceEdit, ReadingEdit
from keeper.window.sheet.keeping import CellKeeping
from keeper.window.sheet.model import SheetModel

_LINE_WIDTH, _PLACE_WIDTH = 30, 12
"""The least widths of a line and of a place being typed, in times the text's height."""

_READY_AFTER = 100
"""Milliseconds from when the sheet is there."""


class CellEditing(QObject):
    """Opens a cell of a view and keeps what is typed there; ``left`` comes with how many rows and columns on it goes.

    ``leaving`` comes with the same while what is typed still lies over its cell.
    """

    leaving = Signal(int, int)
    left = Signal(int, int)

    def __init__(self, desk: Desk, view: QTableView, model: SheetModel, keeping: CellKeeping) -> None:
        super().__init__(view)
        self._look, self._view, self._model, self._keeping = desk.look, view, model, keeping
        over = view.viewport()
        self.line, self.reading = LineEdit(over), ReadingEdit(over)
        self.place = PlaceEdit(over, lambda: model.places, lambda: TownSearch(desk))
        self._at: QPersistentModelIndex | None = None
        self._given_up = ""
        for edit in self._all:
            edit.setAccessibleName("What is typed in the cell")
            edit.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            edit.setProperty("cell", True)
            edit.show()
            edit.gone.connect(self.leave)
            edit.changed.connect(self._on_typed)
        self.line.mended.connect(lambda: desk.said.emit("Part of what you pasted was not text, and was left out."))
        self.line.document().documentLayout().documentSizeChanged.connect(lambda _: self.lay())
        self._pause = once_after(self, DRAFT_AFTER, self._put_by)
        # Before the first letter of a place, which would else make the list that opens below it.
        self._ready = once_after(self, _READY_AFTER, self._make_ready)
        model.modelReset.connect(self._ready.start)
        self._put_away()

    def _make_ready(self) -> None:
        if any(one.sort == "place" for one in (self._model.sheet.columns if self._model.sheet else ())):
            self.place.make_ready()
            self._keeping.make_ready()

    @property
    def _all(self) -> tuple[LineEdit, ReadingEdit, PlaceEdit]:
        return self.line, self.reading, self.place

    @property
    def under_way(self) -> bool:
        """Whether a cell is being typed in."""
        return self._at is not None

    @property
    def edit(self) -> LineEdit | ReadingEdit | PlaceEdit:
        """The editor of the cell that is typed in, or of the current one."""
        index = self._at or self._view.currentIndex()
        return getattr(self, self._model.column(index).sort if index.isValid() else "reading")

    def open(self, index: QModelIndex, typed: str | None = None) -> None:
        """Type in a cell: over what is there with what was ``typed`` first, or on in it."""
        self.close()
        self._given_up = self._model.text(index)
        self._view.scrollTo(index)
        self._at = QPersistentModelIndex(index)
        edit = self.edit
        edit.setAccessibleName(self._model.told(index))
        edit.begin(self._given_up, typed)
        self.lay()
        edit.raise_()
        edit.setFocus()
        if typed is not None:
            self._on_typed(edit.text() if edit is not self.line else edit.words())

    def close(self) -> None:
        """Keep what is being typed."""
        if self._at is not None:
            self.leave((0, 0))

    def leave(self, on: tuple[int, int] | None) -> None:
        """Keep what is typed and go so many rows and columns on; None gives it up."""
        if self._at is None:
            return
        edit = self.edit
        text = self._given_up if on is None else edit.words()
        chosen = edit.chosen_here if on is not None and edit is self.place else None
        goes_on = on is not None and on != (0, 0)
        if goes_on:
            self.leaving.emit(*on)
        cell, self._at = self._model.cell(self._at), None
        self._pause.stop()
        self.place.put_away()
        if edit.hasFocus():
            self._view.setFocus()
        self._put_away()
        self._keeping.send(cell, text, chosen)
        if goes_on:
            self.left.emit(*on)

    def _on_typed(self, text: str) -> None:
        if self._at is not None:
            self._keeping.typed(self._model.cell(self._at), text)
            if not self._pause.isActive():
                self._pause.start()

    def _put_by(self) -> None:
        if self._at is not None:
            self._keeping.put_by(self._model.cell(self._at))

    # where it lies

    def dress(self) -> None:
        """Take up the typefaces and sizes in force."""
        for edit in self._all:
            edit.ensurePolished()
        self.line.document().setDefaultFont(self.line.font())
        self.line.fit()
        self.lay()

    def lay(self) -> None:
        """Lay the editor over its cell, within what is seen of the sheet."""
        if self._at is None:
            return
        cell, edit, room = self._view.visualRect(QModelIndex(self._at)), self.edit, self._view.viewport().rect()
        if edit is not self.reading:
            least = self._look.px(_LINE_WIDTH if edit is self.line else _PLACE_WIDTH)
            cell.setWidth(min(max(cell.width(), least), room.width()))
        # A line has its own height, which follows its words once it has its width.
        edit.resize(cell.width(), edit.height() if edit is self.line else cell.height())
        if edit is self.line:
            # Qt tells of another width before the words are laid out in it.
            edit.fit()
        edit.move(_within(cell, edit, room).topLeft())

    def _put_away(self) -> None:
        # Out of sight, not hidden: for a part that comes or goes Qt lays out, and draws, all cells anew.
        for edit in self._all:
            edit.move(-2 * edit.width() - 9, 0)


def _within(cell: QRect, edit: QWidget, room: QRect) -> QRect:
    lies = QRect(cell.topLeft(), edit.size())
    lies.moveTop(max(min(lies.top(), room.bottom() - lies.height()), min(lies.top(), room.top())))
    lies.moveLeft(max(min(lies.left(), room.right() - lies.width()), room.left()))
    return lies
