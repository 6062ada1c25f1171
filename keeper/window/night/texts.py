"""The text of each field of each night visited, so that undo reaches back across a save and across nights."""

from PySide6.QtCore import QObject
from PySide6.QtGui import QFont, QTextDocument
from PySide6.QtWidgets import QPlainTextDocumentLayout

from keeper.window.night.history import NightHistory, Typed
from keeper.window.night.line_keeping import Key
from keeper.window.parts.typing.field import Field

REMEMBERED = 160
"""For how many fields, left behind, what was typed can still be undone."""


class NightTexts(QObject):
    """Hands texts to fields; ``handing`` while it does, when what changes was not typed."""

    def __init__(self, history: NightHistory, parent: QObject) -> None:
        super().__init__(parent)
        self._history = history
        self._texts: dict[Key, QTextDocument] = {}
        self.handing = False

    def hand(self, key: Key, field: Field, both_ways: bool) -> None:
        """Give a field the text of a night and kind; an empty one when there is none yet."""
        text = self._texts.pop(key, None)
        if fresh := text is None:
            text = QTextDocument(self)
            text.setDocumentLayout(QPlainTextDocumentLayout(text))
            text.setDefaultFont(field.font())
        self._texts[key] = text
        self.handing = True
        field.setDocument(text)
        self.handing = False
        field.follow_document()
        if both_ways:
            field.read_both_ways()
        field.moveCursor(field.textCursor().MoveOperation.End)
        field.settle()
        if fresh:
            # Its margin and direction are no steps of the person's.
            text.clearUndoRedoStacks()
            text.undoCommandAdded.connect(lambda: self._history.did(Typed(*key, text.availableUndoSteps())))
        self._let_go()

    def _let_go(self) -> None:
        while len(self._texts) > REMEMBERED:
            key = next(iter(self._texts))
            self._texts.pop(key).deleteLater()
            self._history.forget(*key)

    def dress(self, font: QFont) -> None:
        """Take up a typeface."""
        for text in self._texts.values():
            text.setDefaultFont(font)

    def touched(self, key: Key) -> bool:
        """Whether anything was typed, here and since, that can be taken back or done again."""
        text = self._texts.get(key)
        return text is not None and (text.isUndoAvailable() or text.isRedoAvailable())

    def is_due(self, step: Typed, by: int) -> bool:
        """Whether a step can be taken back (-1) or done again (1); the field's own menu may have done so."""
        text = self._texts.get((step.night, step.kind))
        if text is None:
            return False
        if by < 0:
            return text.availableUndoSteps() >= step.level
        return text.isRedoAvailable() and text.availableUndoSteps() < step.level
