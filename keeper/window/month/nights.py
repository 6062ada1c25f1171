"""All nights of a month on one page: a ruled column, a row a night."""

from html import escape

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import (
    QBrush,
    QColor,
    QFocusEvent,
    QFontMetrics,
    QKeyEvent,
    QPainter,
    QResizeEvent,
    QTextLayout,
    QTextOption,
)
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from keeper.review.month import MonthNight
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.desk.look import Look
from keeper.window.month import wording as month_wording
from keeper.window.parts.places.mark import HATCHINGS, paint_mark, tint
from keeper.window.parts.typing.undo_keys import is_later

Index = QModelIndex | QPersistentModelIndex


class NightModel(QAbstractListModel):
    """The nights of a month."""

    def __init__(self) -> None:
        super().__init__()
        self.nights: tuple[MonthNight, ...] = ()

    def show(self, nights: tuple[MonthNight, ...]) -> None:
        """Show other nights."""
        self.beginResetModel()
        self.nights = nights
        self.endResetModel()

    def rowCount(self, parent: Index | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.nights)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        night = self.nights[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return month_wording.first_words(night)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return month_wording.night_told(night)
        if role == Qt.ItemDataRole.ToolTipRole and (night.lines or night.place):
            # Told to be rich text, so that words are never taken for it.
            told = "".join(f"<p>{escape(line.text).replace(chr(10), '<br>')}</p>" for line in night.lines)
            where = f", {night.place.name}" if night.place else ""
            return f"<qt><p>{escape(wording.long_date(night.date) + where)}</p>{told}</qt>"
        return None


class NightDelegate(QStyledItemDelegate):
    """Draws a row: day, first words, the place at a change; the row one is on shows its lines in full."""

    def __init__(self, look: Look, view: QListView) -> None:
        super().__init__(view)
        self._look = look
        self._view = view

    def unfolded(self, index: Index) -> bool:
        """Whether a row shows its lines in full."""
        return self._view.hasFocus() and self._view.currentIndex().row() == index.row()

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        width = self._view.viewport().width()
        row = self._look.px(1.72)
        night = index.model().nights[index.row()]
        if not (self.unfolded(index) and night.lines):
            return QSize(width, row)
        layouts = [layout for layout, _ in self._laid_out(night, width - self._left() - self._look.px(0.4))]
        tall = sum(layout.boundingRect().height() for layout in layouts)
        place = row * 0.8 if night.place and night.arrived else 0
        return QSize(width, max(row, int(tall + place + self._look.px(0.55))))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        night, area = index.model().nights[index.row()], QRectF(option.rect)
        colours = self._look.palette
        painter.save()
        if option.state & QStyle.StateFlag.State_MouseOver or self.unfolded(index):
            painter.fillRect(area, QColor(colours.wash))
        painter.setPen(QColor(colours.faint))
        painter.drawLine(area.bottomLeft(), area.bottomRight())
        self._paint_tint(painter, night, area)
        self._paint_day(painter, night, area)
        if self.unfolded(index):
            self._paint_in_full(painter, night, area)
        else:
            self._paint_first_words(painter, night, area)
        painter.restore()

    def _left(self) -> int:
        return self._look.px(3.4)

    def _paint_tint(self, painter: QPainter, night: MonthNight, area: QRectF) -> None:
        # A stay is one band; its name stands where it begins, and its hatching tells it from another of its tint.
        if night.place is None or night.place.mark is None:
            return
        mark = night.place.mark
        hatching = HATCHINGS[mark // len(self._look.palette.tints) % len(HATCHINGS)]
        begins = self._look.px(0.12) if night.arrived else 0
        band = QRectF(area.left(), area.top() + begins, self._look.px(0.24), area.height() - begins)
        painter.fillRect(band, QBrush(tint(self._look, mark), hatching))

    def _paint_day(self, painter: QPainter, night: MonthNight, area: QRectF) -> None:
        px, colours = self._look.px, self._look.palette
        middle = Qt.AlignmentFlag.AlignVCenter
        row = QRectF(area.left() + px(0.3), area.top(), px(1.45), px(1.72))
        painter.setFont(self._look.serif(1.05))
        painter.setPen(QColor(colours.ink if night.lines else colours.quiet))
        painter.drawText(row, middle | Qt.AlignmentFlag.AlignRight, str(night.date.day))
        painter.setFont(self._look.sans(0.72))
        painter.setPen(QColor(colours.quiet))
        beside = QRectF(row.right() + px(0.3), row.top(), px(1.3), row.height())
        painter.drawText(beside, middle, wording.weekday_and_day(night.date)[:2])

    def _paint_first_words(self, painter: QPainter, night: MonthNight, area: QRectF) -> None:
        px, colours = self._look.px, self._look.palette
        room = QRectF(area.left() + self._left(), area.top(), area.width() - self._left() - px(0.4), area.height())
        if night.place and night.arrived:
            room.setRight(room.right() - self._paint_place(painter, night, room) - px(0.6))
        painter.setFont(self._look.serif(1.05))
        painter.setPen(QColor(colours.ink))
        words = painter.fontMetrics().elidedText(
            month_wording.first_words(night), Qt.TextElideMode.ElideRight, int(room.width())
        )
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)

    def _paint_place(self, painter: QPainter, night: MonthNight, room: QRectF) -> float:
        painter.setFont(self._look.sans(0.85))
        painter.setPen(QColor(self._look.palette.quiet))
        metrics: QFontMetrics = painter.fontMetrics()
        name = metrics.elidedText(night.place.name, Qt.TextElideMode.ElideRight, int(room.width() * 0.4))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, name)
        wide = metrics.horizontalAdvance(name)
        if night.place.mark is None:
            return wide
        px = self._look.px
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_mark(painter, self._look, QPointF(room.right() - wide - px(0.55), room.center().y()), px(0.28), night.place.mark)
        return wide + px(0.9)

    def _paint_in_full(self, painter: QPainter, night: MonthNight, area: QRectF) -> None:
        px = self._look.px
        left, top = area.left() + self._left(), area.top() + px(0.25)
        if night.place and night.arrived:
            head = QRectF(left, area.top(), area.width() - self._left() - px(0.4), px(1.4))
            self._paint_place(painter, night, head)
            top = head.bottom()
        painter.setPen(QColor(self._look.palette.ink))
        for layout, later in self._laid_out(night, area.width() - self._left() - px(0.4)):
            painter.setPen(QColor(self._look.palette.quiet if later else self._look.palette.ink))
            layout.draw(painter, QPointF(left + (px(1.2) if later else 0), top))
            top += layout.boundingRect().height()

    def _laid_out(self, night: MonthNight, width: float) -> list[tuple[QTextLayout, bool]]:
        """The lines, each with what was said of it later beneath it."""
        found = []
        for line in night.lines:
            found.append((self._lines_of(line.text, max(60.0, width)), False))
            for word in (word for word in line.later if word.text):
                told = f"{wording.short_date(word.said_on)}: {word.text}"
                found.append((self._lines_of(told, max(60.0, width - self._look.px(1.2))), True))
        return found

    def _lines_of(self, text: str, width: float) -> QTextLayout:
        layout = QTextLayout(text.replace("\n", "\u2028"), self._look.serif(1.05))
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        option.setTextDirection(Qt.LayoutDirection.LayoutDirectionAuto)
        layout.setTextOption(option)
        layout.beginLayout()
        height = 0.0
        while (line := layout.createLine()).isValid():
            line.setLineWidth(width)
            line.setPosition(QPointF(0, height))
            height += line.height()
        layout.endLayout()
        return layout


class NightColumn(QListView):
    """The nights of a month; Enter opens one.

    ``moved_to`` comes with the area of the row one is on, for the page to
    scroll to.
    """

    moved_to = Signal(QRect)

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._model = NightModel()
        self.setModel(self._model)
        self.rows = NightDelegate(desk.look, self)
        self.setItemDelegate(self.rows)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setMouseTracking(True)
        self.setAccessibleName("The nights of the month")
        self.activated.connect(lambda index: desk.go("night", self.night_at(index).date))

    def night_at(self, index: Index) -> MonthNight:
        """The night of a row."""
        return self._model.nights[index.row()]

    def show_nights(self, nights: tuple[MonthNight, ...]) -> None:
        """Show the nights of a month; the row one is on stays."""
        row = self.currentIndex().row()
        self._model.show(nights)
        if 0 <= row < len(nights):
            self.setCurrentIndex(self._model.index(row, 0))
        self.fit()

    def fit(self) -> None:
        """Be as tall as all rows."""
        self.scheduleDelayedItemsLayout()
        option = QStyleOptionViewItem()
        rows = (self.rows.sizeHint(option, self._model.index(row, 0)).height() for row in range(self._model.rowCount()))
        self.setFixedHeight(max(1, sum(rows) + 2))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        lines = self.night_at(self.currentIndex()).lines if self.currentIndex().isValid() else ()
        if is_later(event) and lines:
            self._desk.later_wanted.emit(lines)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if not self.currentIndex().isValid() and self._model.nights:
            self.setCurrentIndex(self._model.index(0, 0))
        self.fit()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.fit()

    def currentChanged(self, current: QModelIndex, previous: QModelIndex) -> None:
        super().currentChanged(current, previous)
        self.fit()
        if self.hasFocus():
            self.executeDelayedItemsLayout()
            self.moved_to.emit(self.visualRect(current))
