"""What was found, by month: each with how many lines, and a stroke as long."""

from datetime import date

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from keeper.window.desk import wording
from keeper.window.desk.look import Look

_BEFORE, _STROKE = 9.5, 0.5


class MonthsModel(QAbstractListModel):
    """The months, the newest first, and how many lines of each were found."""

    def __init__(self) -> None:
        super().__init__()
        self.months: tuple[tuple[date, int], ...] = ()

    def show(self, months: tuple[tuple[date, int], ...]) -> None:
        """Show other months."""
        self.beginResetModel()
        self.months = months
        self.endResetModel()

    def rowCount(self, parent: QModelIndex | QPersistentModelIndex | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self.months)

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if role not in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole) or not index.isValid():
            return None
        month, lines = self.months[index.row()]
        return f"{wording.month_and_year(month)}, {wording.counted(lines, 'line')}"


class _MonthDelegate(QStyledItemDelegate):
    def __init__(self, look: Look, view: QListView) -> None:
        super().__init__(view)
        self._look = look

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(self._look.px(20), self._look.px(2))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> None:
        months, px, colours = index.model().months, self._look.px, self._look.palette
        month, lines = months[index.row()]
        area = QRectF(option.rect)
        painter.save()
        if option.state & (QStyle.StateFlag.State_Selected | QStyle.StateFlag.State_MouseOver):
            painter.fillRect(area, QColor(colours.wash))
        area.adjust(px(0.4), 0, -px(0.4), 0)
        middle = Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft
        painter.setFont(self._look.sans(1))
        painter.setPen(QColor(colours.ink))
        painter.drawText(area, middle, wording.month_and_year(month))
        told = wording.number(lines)
        room = area.width() - px(_BEFORE) - painter.fontMetrics().horizontalAdvance(told) - px(1)
        long = max(2.0, room * lines / max(many for _, many in months))
        painter.fillRect(QRectF(area.left() + px(_BEFORE), area.center().y() - px(_STROKE) / 2, long, px(_STROKE)), QColor(colours.quiet))
        painter.setPen(QColor(colours.quiet))
        painter.drawText(area.adjusted(px(_BEFORE) + long + px(0.5), 0, px(1), 0), middle, told)
        painter.restore()


class MonthsFound(QListView):
    """The months with lines that were found; activating one is for whoever shows it."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.rows = MonthsModel()
        self.setModel(self.rows)
        self.setItemDelegate(_MonthDelegate(look, self))
        self.setUniformItemSizes(True)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setMouseTracking(True)
        self.setAccessibleName("Months of the lines found")
