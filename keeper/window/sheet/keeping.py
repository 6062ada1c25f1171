"""Cells on their way to the disk, in their order: kept at once, and put by where that cannot be."""

from collections.abc import Mapping
from functools import partial

from PySide6.QtCore import QObject, Signal

from keeper.actions import drafts, writing
from keeper.actions.sheet import filling
from keeper.actions.sheet.asking import Cell
from keeper.actions.sheet.filling import Typed
from keeper.errors import CannotWrite, KeeperError
from keeper.window.desk.desk import Desk
from keeper.window.sheet.model import SheetModel, key, kind_of


class CellKeeping(QObject):
    """Sends what is typed in cells to the writer; ``settled`` comes with cells once they are kept, or not."""

    settled = Signal(object)

    def __init__(self, desk: Desk, model: SheetModel) -> None:
        super().__init__()
        self._desk, self._words, self._model = desk, desk.words, model

    def make_ready(self) -> None:
        """Let be brought in what writing will need; off the lane that writes."""
        self._desk.darkroom.run(lambda store, task: filling.make_ready(store), None, lambda error: None)

    def typed(self, cell: Cell, text: str) -> None:
        """This stands in a cell now, and is not sent yet."""
        self._words.typed(key(cell), text)

    def put_by(self, cell: Cell) -> None:
        """Put aside what a cell holds, if it is neither kept nor put aside."""
        known, text = self._words.draft(key(cell)), self._words.to_draft(key(cell))
        if text is not None:
            self._desk.write(
                partial(_put_by, cell, text, known, self._desk.clock),
                lambda _: self._words.was_put_by(key(cell), text),
                partial(self._not_put_by, cell, text),
            )
        elif self._words.draft_to_drop(key(cell)):
            self._desk.write(partial(_forget, cell, known))

    def send(self, cell: Cell, text: str, chosen: object = None) -> None:
        """Keep this in a cell; "" takes back what is there. ``chosen`` is what a place was settled on."""
        sent = self._to_send(cell, text, chosen)
        if sent is None:
            # It is what is kept: nothing is wrong there any more.
            self.put_by(cell)
            self._settle({cell: ""})
            return
        self._desk.write(
            partial(_fill_in, cell, sent, self._desk.clock, self._desk.tonight()),
            lambda _: self._kept(cell, sent.text), partial(self._failed, cell, sent.text),
        )  # fmt: skip
        self._model.touched(cell)

    def send_many(self, cells: Mapping[Cell, str], told: str) -> None:
        """Keep what many cells are to hold, as one act; ``told`` says what was done."""
        sent = {cell: one for cell, text in cells.items() if (one := self._to_send(cell, text))}
        self._settle(dict.fromkeys(cells.keys() - sent.keys(), ""))
        if not sent:
            return
        self._desk.write(
            partial(_fill_many, sent, told, self._desk.clock, self._desk.tonight()),
            partial(self._on_many, sent), partial(self._many_failed, sent),
        )  # fmt: skip
        for cell in sent:
            self._model.touched(cell)

    def _to_send(self, cell: Cell, text: str, chosen: object = None) -> Typed | None:
        self._words.typed(key(cell), text)
        self._words.meant(key(cell))
        known, sent = self._words.draft(key(cell)), self._words.to_send(key(cell))
        if sent is None and (chosen is None or isinstance(chosen, str)):
            return None
        return Typed(text.strip() if sent is None else sent, chosen, known)

    def _on_many(self, sent: Mapping[Cell, Typed], refused: Mapping[Cell, str]) -> None:
        for cell, one in sent.items():
            if cell in refused:
                self._has_failed(cell, one.text)
            else:
                self._words.was_kept(key(cell), one.text)
        self._settle({cell: refused.get(cell, "") for cell in sent})
        self._desk.changed.emit()

    def _many_failed(self, sent: Mapping[Cell, Typed], error: KeeperError) -> None:
        for cell, one in sent.items():
            self._has_failed(cell, one.text)
        self._settle(dict.fromkeys(sent, str(error)))
        self._desk.said.emit(str(error))

    def _kept(self, cell: Cell, text: str) -> None:
        self._words.was_kept(key(cell), text)
        self._settle({cell: ""})
        self._desk.changed.emit()

    def _failed(self, cell: Cell, text: str, error: KeeperError) -> None:
        self._has_failed(cell, text)
        self._settle({cell: str(error)})
        if isinstance(error, CannotWrite):
            self._desk.said.emit(str(error))

    def _has_failed(self, cell: Cell, text: str) -> None:
        self._words.has_failed(key(cell), text)
        self.put_by(cell)

    def _not_put_by(self, cell: Cell, text: str, error: KeeperError) -> None:
        self._words.not_put_by(key(cell), text)
        self._desk.said.emit(str(error))

    def _settle(self, cells: Mapping[Cell, str]) -> None:
        """Take up what is wrong with each of these cells; "" for nothing."""
        for cell, wrong in cells.items():
            if wrong:
                self._model.wrong[cell] = wrong
            else:
                self._model.wrong.pop(cell, None)
            self._model.touched(cell)
        if cells:
            self.settled.emit(tuple(cells))


def _fill_in(cell, typed, clock, tonight, store) -> None:
    filling.fill_in(store, cell, typed, clock, tonight)


def _fill_many(sent, told, clock, tonight, store) -> dict[Cell, str]:
    return filling.fill_many(store, sent, clock, tonight, told)


def _put_by(cell, text, known, clock, store) -> None:
    if kind := kind_of(cell):
        # Where the night's own page finds it too.
        writing.keep_draft(store, cell[0], kind, text, clock, known)
    else:
        drafts.put_by(store, *key(cell), text, clock)


def _forget(cell, known, store) -> None:
    if kind := kind_of(cell):
        writing.drop_draft(store, cell[0], kind, known)
    else:
        drafts.forget(store, *key(cell))
