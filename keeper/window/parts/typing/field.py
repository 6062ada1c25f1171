"""A field for a line: grows with the words, saves as they are typed."""

from math import ceil
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, QTimer, Signal
from PySide6.QtWidgets import QPlainTextEdit

from keeper.actions.writing import readable
from keeper.window.desk.early import NO_SCROLL_BAR_BELOW, NO_SCROLL_BAR_BESIDE, SCROLL_BAR_BESIDE, setting
from keeper.window.parts.typing.undo_keys import undo_step

if TYPE_CHECKING:
    from PySide6.QtCore import QMimeData
    from PySide6.QtGui import QFocusEvent, QKeyEvent, QResizeEvent, QTextCursor

DRAFT_AFTER = 600
"""Milliseconds from the first unsaved key to the draft: well within a second."""

_TALLEST = 12


class Field(QPlainTextEdit):
    """Where the words are typed.

    ``paused`` comes within a second of typing, ``entered_in`` on Enter, ``left``
    when the field is left by any way, ``onward`` and ``back`` when the person goes to the next or the
    former field by key, ``mended`` when what came in was not all text.
    """

    paused = Signal()
    entered_in = Signal()
    left = Signal()
    onward = Signal()
    back = Signal()
    mended = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setTabChangesFocus(True)
        setting(self, NO_SCROLL_BAR_BELOW, NO_SCROLL_BAR_BESIDE)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(DRAFT_AFTER)
        self._pause.timeout.connect(self.paused)
        self.textChanged.connect(self._on_typed)
        self._fitted = 0
        self._both_ways = False
        self.follow_document()

    def follow_document(self) -> None:
        """Take up the size of a document just set."""
        self.document().setDocumentMargin(0)
        self.document().documentLayout().documentSizeChanged.connect(self.fit)
        self.fit()

    def read_both_ways(self) -> None:
        """Let right-to-left words set themselves from the right, by paragraph."""
        from PySide6.QtCore import Qt

        option = self.document().defaultTextOption()
        option.setTextDirection(Qt.LayoutDirection.LayoutDirectionAuto)
        option.setWrapMode(option.WrapMode.WrapAtWordBoundaryOrAnywhere)
        self.document().setDefaultTextOption(option)
        self._both_ways = True
        self._take_side()

    def _take_side(self) -> None:
        # A plain text layout turns the words round, but leaves them at the left.
        if not self._both_ways:
            return
        from PySide6.QtCore import Qt

        runs_left = self.document().firstBlock().textDirection() == Qt.LayoutDirection.RightToLeft
        side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignAbsolute if runs_left else Qt.AlignmentFlag.AlignLeft
        option = self.document().defaultTextOption()
        if option.alignment() != side:
            option.setAlignment(side)
            self.document().setDefaultTextOption(option)

    def words(self) -> str:
        """The text as it was written; Qt's plain text has lost blanks that do not break."""
        return self.document().toRawText().replace("\u2029", "\n").replace("\u2028", "\n")

    def put(self, text: str) -> None:
        """Show another text; the change can be undone like any other."""
        if text == self.words():
            return
        cursor = self.textCursor()
        cursor.select(cursor.SelectionType.Document)
        cursor.insertText(text)
        self._pause.stop()

    def put_as_kept(self, text: str) -> None:
        """Show what the keeper holds; no step of the person's, so there is nothing to take back."""
        if text == self.words():
            return
        document = self.document()
        document.setUndoRedoEnabled(False)
        self.put(text)
        document.setUndoRedoEnabled(True)

    def settle(self) -> None:
        """The field is left: no draft is due any more, and what was typed is no step of the field's own any more."""
        self._pause.stop()
        self.document().clearUndoRedoStacks()

    def sizeHint(self) -> QSize:
        return QSize(super().sizeHint().width(), self._height())

    def minimumSizeHint(self) -> QSize:
        return QSize(120, self._height())

    def keyPressEvent(self, event: "QKeyEvent") -> None:
        from PySide6.QtCore import Qt

        plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if step := undo_step(event):
            self.undo() if step < 0 else self.redo()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and plain:
            self.entered_in.emit()
            self.left.emit()
            self.onward.emit()
        elif event.key() == Qt.Key.Key_Down and plain and self._at_edge(down=True):
            self.onward.emit()
        elif event.key() == Qt.Key.Key_Up and plain and self._at_edge(down=False):
            self.back.emit()
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: "QFocusEvent") -> None:
        from PySide6.QtCore import Qt

        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self.left.emit()

    def insertFromMimeData(self, source: "QMimeData") -> None:
        # Only words are taken in; what cannot be kept is left out, and said.
        came = _words_in(source)
        text = readable(came)
        if not text or text != came.replace("\r\n", "\n"):
            self.mended.emit()
        self.textCursor().insertText(text)
        self.ensureCursorVisible()

    def canInsertFromMimeData(self, source: "QMimeData") -> bool:
        # A link is words; files are not, and those that are photos go another way.
        return (source.hasText() or source.hasHtml()) and not any(url.isLocalFile() for url in source.urls())

    def resizeEvent(self, event: "QResizeEvent") -> None:
        super().resizeEvent(event)
        self._show_from_the_first_row()

    def _show_from_the_first_row(self) -> None:
        # Rows that came all at once were scrolled up before there was room for them; a single one cannot be.
        if 1 < self._rows() <= _TALLEST:
            self.verticalScrollBar().setValue(0)

    def fit(self, *_: object) -> None:
        """Be as tall as the words, up to a dozen rows; then scroll."""
        height = self._height()
        if height == self._fitted:
            return
        self._fitted = height
        self.setFixedHeight(height)
        tall = self._rows() > _TALLEST
        setting(self, SCROLL_BAR_BESIDE if tall else NO_SCROLL_BAR_BESIDE)

    def _at_edge(self, down: bool) -> bool:
        cursor: QTextCursor = self.textCursor()
        return not cursor.movePosition(cursor.MoveOperation.Down if down else cursor.MoveOperation.Up)

    def _on_typed(self) -> None:
        self._take_side()
        # Not begun anew with each key: a draft is never older than a second.
        if not self._pause.isActive():
            self._pause.start()

    def _height(self) -> int:
        below = self.fontMetrics().descent() + 2
        return max(self.fontMetrics().lineSpacing(), ceil(self._height_of_rows(_TALLEST))) + below

    def _height_of_rows(self, most: int) -> float:
        # As they are laid out: a row with other letters is taller than the typeface says.
        height, block = 0.0, self.document().firstBlock()
        while block.isValid() and most > 0:
            tall, rows = self.blockBoundingRect(block).height(), max(1, block.lineCount())
            height += tall * min(1, most / rows)
            most -= rows
            block = block.next()
        return height

    def _rows(self) -> int:
        return round(self.document().size().height())


def _words_in(source: "QMimeData") -> str:
    # Some programs hand over a link as a page, or by its address, and no words beside it.
    words = source.text()
    if not words.strip() and source.hasHtml():
        from PySide6.QtGui import QTextDocumentFragment

        words = QTextDocumentFragment.fromHtml(source.html()).toPlainText().strip()
    return words or "\n".join(url.toString() for url in source.urls())
