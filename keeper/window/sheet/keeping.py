"""Cells on their way to the disk, in their order: kept at once, and put by where that cannot be."""

from functools import partial

from PySide6.QtCore import QObject, Signal

from keeper.actions import drafts
from keeper.actions.readings import month_sheet
from keeper.actions.readings.month_sheet import Cell
from keeper.errors import KeeperError, UnreadableReading
from keeper.window.desk.desk import Desk
from keeper.window.sheet.model import SheetModel, key


class CellKeeping(QObject):
    """Sends what is typed in cells to the writer; ``settled`` comes with a cell once it is kept, or not."""

    settled = Signal(object)

    def __init__(self, desk: Desk, model: SheetModel) -> None:
        super().__init__()
        self._desk, self._words, self._model = desk, desk.words, model

    def typed(self, cell: Cell, text: str) -> None:
        """This stands in a cell now, and is not sent yet."""
        self._words.typed(key(cell), text)

    def put_by(self, cell: Cell) -> None:
        """Put aside what a cell holds, if it is neither kept nor put aside."""
        text = self._words.to_draft(key(cell))
        if text is not None:
            self._desk.write(
                partial(_put_by, cell, text, self._desk.clock),
                lambda _: self._words.was_put_by(key(cell), text),
                partial(self._not_put_by, cell, text),
            )
        elif self._words.draft_to_drop(key(cell)):
            self._desk.write(partial(_forget, cell))

    def send(self, cell: Cell, text: str) -> None:
        """Keep this in a cell; "" is not noted."""
        self._words.typed(key(cell), text)
        self._words.meant(key(cell))
        sent = self._words.to_send(key(cell))
        if sent is None:
            # It is what is kept: nothing is wrong there any more.
            self.put_by(cell)
            self._settle(cell, "")
            return
        self._desk.write(
            partial(_fill_in, cell, sent, self._desk.clock), lambda _: self._kept(cell, sent), partial(self._failed, cell, sent)
        )
        self._model.touched(cell)

    def _kept(self, cell: Cell, text: str) -> None:
        self._words.was_kept(key(cell), text)
        self._settle(cell, "")
        self._desk.changed.emit()

    def _failed(self, cell: Cell, text: str, error: KeeperError) -> None:
        self._words.has_failed(key(cell), text)
        self.put_by(cell)
        self._settle(cell, str(error))
        if not isinstance(error, UnreadableReading):
            self._desk.said.emit(str(error))

    def _not_put_by(self, cell: Cell, text: str, error: KeeperError) -> None:
        self._words.not_put_by(key(cell), text)
        self._desk.said.emit(str(error))

    def _settle(self, cell: Cell, wrong: str) -> None:
        if wrong:
            self._model.wrong[cell] = wrong
        else:
            self._model.wrong.pop(cell, None)
        self._model.touched(cell)
        self.settled.emit(cell)


def _fill_in(cell, text, clock, store) -> None:
    month_sheet.fill_in(store, cell, text, clock)


def _put_by(cell, text, clock, store) -> None:
    drafts.put_by(store, month_sheet.DRAFT, month_sheet.ref(cell), text, clock)


def _forget(cell, store) -> None:
    drafts.forget(store, month_sheet.DRAFT, month_sheet.ref(cell))
