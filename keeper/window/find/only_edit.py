"""A field that narrows a search: a place, a person, a weekday, a reading's range and so on, offered while they are typed."""

from PySide6.QtCore import QModelIndex, QStringListModel, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QCompleter, QLineEdit

from keeper.actions.finding import offers
from keeper.actions.finding.known import KnownNames
from keeper.actions.finding.offers import Offer
from keeper.actions.finding.phrases import sentence
from keeper.errors import UnknownThing
from keeper.window.desk.desk import Desk
from keeper.window.desk.own_spelling import own_spelling

_AT_ONCE = 12


class OnlyEdit(QLineEdit):
    """``taken`` comes with the phrases settled on, ``last_off`` when Backspace is pressed where nothing is typed."""

    taken = Signal(object)
    last_off = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.known: KnownNames | None = None
        self.rows: tuple[Offer, ...] = ()
        self.setPlaceholderText("only \u2026")
        self.setAccessibleName("Only")
        self.setAccessibleDescription(
            "Narrows to a place, a person, a theme, a kind of line, a weekday, a season, with a photo, that rest, or a reading "
            "such as mood 1 to 3. Down shows all there are."
        )
        self.setToolTip("A place, a person, a theme, a weekday, a season, with a photo, that rest, mood 1 to 3")
        self.setMaxLength(120)
        self.list = QCompleter(QStringListModel(self), self)
        self.list.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
        self.list.setMaxVisibleItems(_AT_ONCE)
        self.list.setWidget(self)
        self.list.popup().setAccessibleName("What can be said")
        self.list.activated[QModelIndex].connect(lambda index: self._take(self.rows[index.row()]))
        self.textEdited.connect(self._offer)
        self.returnPressed.connect(self.settle)

    def settle(self) -> None:
        """Take what is picked out, or what is typed; what is none is said, and stays to be mended."""
        if not self.text().strip() or self.known is None:
            return
        at = self.list.popup().currentIndex().row() if self.list.popup().isVisible() else -1
        try:
            self._take(self.rows[at] if 0 <= at < len(self.rows) else self._meant())
        except UnknownThing as error:
            self._desk.said.emit(str(error))

    def _meant(self) -> Offer:
        return offers.meant(self.known, self.text(), self._desk.tonight(), own_spelling())

    def _offer(self, typed: str) -> None:
        if self.known is None:
            return
        self.rows = offers.offered(self.known, typed, self._desk.tonight(), own_spelling())
        self.list.model().setStringList([sentence(row) for row in self.rows])
        if not self.rows:
            self.list.popup().hide()
            return
        popup, colours = self.list.popup(), self._desk.look.palette
        popup.setStyleSheet(
            f"QListView {{ border: 1px solid {colours.line}; }} "
            f"QListView::item:selected {{ background: {colours.wash}; color: {colours.ink}; }}"
        )
        wide = max(self.width(), popup.sizeHintForColumn(0) + self._desk.look.px(3))
        self.list.complete(self.rect().adjusted(0, 0, wide - self.width(), 0))
        popup.setCurrentIndex(self.list.model().index(0, 0) if typed.strip() else QModelIndex())

    def _take(self, offer: Offer) -> None:
        self.list.popup().hide()
        self.clear()
        self.taken.emit(offer)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Down and not self.list.popup().isVisible():
            self._offer(self.text())
        elif event.key() == Qt.Key.Key_Backspace and not self.text():
            self.last_off.emit()
        elif event.key() == Qt.Key.Key_Escape and self.text():
            self.clear()
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        super().mousePressEvent(event)
        if not self.text():
            self._offer("")
