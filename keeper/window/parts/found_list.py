"""The answers of Find: a list whose rows are drawn as needed."""

from collections.abc import Callable

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QResizeEvent, QTextCharFormat, QTextLayout, QTextOption
from PySide6.QtWidgets import QAbstractItemView, QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from keeper.actions.finding import marked, marked_words
from keeper.model import Found, Line
from keeper.model.later import LaterWord
from keeper.study.language.direction import runs_left
from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.parts.typing.undo_keys import is_later

_SHOWN = 600
"""The most characters of a line that a row shows."""


class FoundModel(QAbstractListModel):
    """The lines found so far; asks for more when the list is scrolled down."""

    def __init__(self, more: Callable[[], None]) -> None:
        super().__init__()
        self._more = more
        self._found: list[Found] = []
        self._unfinished = False
        self._groups: dict[int, tuple[str, str]] = {}
        self.typed = ""

    def show(self, found: tuple[Found, ...], typed: str, unfinished: bool) -> None:
        """Show other answers."""
        self.beginResetModel()
        self._found, self.typed, self._unfinished = list(found), typed, unfinished
        self._groups = {}
        self.endResetModel()

    def append_group(self, found: tuple[Found, ...], heading: str, typed: str) -> None:
        """Show answers to another question below, under a heading; ``typed`` are the words sought there."""
        if found:
            self._groups |= {len(self._found): (heading, typed)}
            self.append(found, False)

    def append(self, found: tuple[Found, ...], unfinished: bool) -> None:
        """Show more answers to the same question."""
        if found:
            self.beginInsertRows(QModelIndex(), len(self._found), len(self._found) + len(found) - 1)
            self._found += found
            self.endInsertRows()
        self._unfinished = unfinished

    def at(self, place: int) -> Found:
        """The answer in a row."""
        return self._found[place]

    def begins_nearest(self, place: int) -> bool:
        """Whether the rows that have but some of the words sought begin here, below others or by themselves."""
        return bool(self.typed) and self._found[place].near and not (place and self._found[place - 1].near)

    def heading(self, place: int) -> str:
        """What stands over a row, above what the row itself has; "" for nothing."""
        return "Nearest" if self.begins_nearest(place) else self._groups.get(place, ("", ""))[0]

    def words_sought(self, place: int) -> str:
        """The words that a row was found by."""
        first = max((first for first in self._groups if first <= place), default=None)
        return self.typed if first is None else self._groups[first][1]

    def rowCount(self, parent: QModelIndex | QPersistentModelIndex | None = None) -> int:
        return 0 if parent is not None and parent.isValid() else len(self._found)

    def canFetchMore(self, parent: QModelIndex | QPersistentModelIndex) -> bool:
        return self._unfinished

    def fetchMore(self, parent: QModelIndex | QPersistentModelIndex) -> None:
        self._unfinished = False
        self._more()

    def data(self, index: QModelIndex | QPersistentModelIndex, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        found = self._found[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return found.line.text
        if role == Qt.ItemDataRole.AccessibleTextRole:
            heading = self.heading(index.row())
            later = "".join(f" Later, {wording.short_date(word.said_on)}: {word.text}" for word in _said_later(found.line) if word.text)
            return f"{f'{heading}. ' if heading else ''}{_head(found)}. {found.line.text}{later}"
        return None


def _head(found: Found) -> str:
    parts = [wording.short_date(found.line.night), found.place_name, found.line.kind_title]
    parts.append("resting" if found.line.resting else "")
    return " \u00b7 ".join(part for part in parts if part)


def _said_later(line: Line) -> tuple[LaterWord, ...]:
    # An earlier wording, and what was done, have none.
    return getattr(line, "later", ())


class FoundDelegate(QStyledItemDelegate):
    """Draws a line found: when, where and kind, then its words, those sought marked."""

    def __init__(self, look: Look, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._look = look
        self._view = view
        self._heights: dict[tuple, dict[tuple, float]] = {}

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        width = self._view.viewport().width() - self._look.px(0.8)
        head = self._look.px(1.5)
        return QSize(width, int(self._above(index) + head + self._height(index, width)) + self._look.px(1.1))

    def _above(self, index: QModelIndex | QPersistentModelIndex) -> int:
        """The room for a heading of its own over a row."""
        return self._look.px(2.6) if index.model().heading(index.row()) else 0

    def _height(self, index: QModelIndex | QPersistentModelIndex, width: float) -> float:
        """How high the words of a row are.

        The list asks for all its rows each time some are added: what was laid out before is remembered.
        """
        model = index.model()
        now = (width, self._look.points, model.typed)
        known = self._heights.get(now)
        if known is None:
            # With and without a scroll bar; what was before that will hardly come back.
            self._heights = {**dict(list(self._heights.items())[-1:]), now: (known := {})}
        line = model.at(index.row()).line
        key = (line.text, _said_later(line))
        if key not in known:
            later = sum(layout.boundingRect().height() for layout in self._later(line, width))
            known[key] = self._laid_out(index, width).boundingRect().height() + later
        return known[key]

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        colours, px = self._look.palette, self._look.px
        found = index.model().at(index.row())
        area = QRectF(option.rect)
        painter.save()
        if above := self._above(index):
            self._draw_heading(painter, QRectF(area.left(), area.top(), area.width(), above), index.model().heading(index.row()))
            area.setTop(area.top() + above)
        if option.state & (QStyle.StateFlag.State_Selected | QStyle.StateFlag.State_MouseOver):
            painter.fillRect(area, QColor(colours.wash))
        painter.setPen(QColor(colours.quiet))
        painter.setFont(self._look.sans(0.9))
        head = QRectF(area.left() + px(0.4), area.top() + px(0.4), area.width() - px(0.8), px(1.4))
        painter.drawText(head, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, self.head(found))
        painter.setPen(QColor(colours.ink))
        words, at = self._laid_out(index, area.width() - px(0.8)), QPointF(area.left() + px(0.4), head.bottom())
        words.draw(painter, at)
        painter.setPen(QColor(colours.quiet))
        for later in self._later(found.line, area.width() - px(0.8)):
            at.setY(at.y() + words.boundingRect().height())
            (words := later).draw(painter, at + QPointF(px(1.2), 0))
        painter.setPen(QColor(colours.faint))
        painter.drawLine(area.bottomLeft(), area.bottomRight())
        painter.restore()

    def _draw_heading(self, painter: QPainter, area: QRectF, heading: str) -> None:
        painter.setPen(QColor(self._look.palette.quiet))
        painter.setFont(self._look.serif(1.1))
        area.adjust(self._look.px(0.4), 0, 0, -self._look.px(0.3))
        painter.drawText(area, Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignLeft,
                         painter.fontMetrics().elidedText(heading, Qt.TextElideMode.ElideRight, int(area.width())))  # fmt: skip

    def head(self, found: Found) -> str:
        """What stands over the words."""
        return _head(found)

    def _later(self, line: Line, width: float) -> list[QTextLayout]:
        """What was said of a line on later nights, beneath it."""
        told = (f"{wording.short_date(word.said_on)}: {word.text[:_SHOWN]}" for word in _said_later(line) if word.text)
        return [self._set(text, 1.05, width - self._look.px(1.2), []) for text in told]

    def _laid_out(self, index: QModelIndex | QPersistentModelIndex, width: float) -> QTextLayout:
        model = index.model()
        found = model.at(index.row())
        text, typed = found.line.text, model.words_sought(index.row())
        shown = text if len(text) <= _SHOWN else self._excerpt(text, self._spots(found, text, typed))
        return self._set(shown, 1.25, width, self._marks(shown, self._spots(found, shown, typed)))

    def _set(self, text: str, size: float, width: float, marks: list[QTextLayout.FormatRange]) -> QTextLayout:
        layout = QTextLayout(text.replace("\n", "\u2028"), self._look.serif(size))
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WrapAtWordBoundaryOrAnywhere)
        option.setTextDirection(Qt.LayoutDirection.LayoutDirectionAuto)
        if runs_left(text):
            option.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignAbsolute)
        layout.setTextOption(option)
        layout.setFormats(marks)
        layout.beginLayout()
        height = 0.0
        while (line := layout.createLine()).isValid():
            line.setLineWidth(max(40.0, width - self._look.px(0.8)))
            line.setPosition(QPointF(0, height))
            height += line.height()
        layout.endLayout()
        return layout

    def _spots(self, found: Found, text: str, typed: str) -> tuple[tuple[int, int], ...]:
        return marked_words(text, found.met) if found.near else marked(text, typed)

    def _excerpt(self, text: str, spots: tuple[tuple[int, int], ...]) -> str:
        start = max(0, spots[0][0] - _SHOWN // 3) if spots else 0
        cut = text[start : start + _SHOWN]
        return ("\u2026" if start else "") + cut + ("\u2026" if start + _SHOWN < len(text) else "")

    def _marks(self, text: str, spots: tuple[tuple[int, int], ...]) -> list[QTextLayout.FormatRange]:
        marks = []
        for start, end in spots:
            mark = QTextLayout.FormatRange()
            # Qt counts in UTF-16 units.
            mark.start = len(text[:start].encode("utf-16-le")) // 2
            mark.length = len(text[start:end].encode("utf-16-le")) // 2
            mark.format = QTextCharFormat()
            mark.format.setFontUnderline(True)
            mark.format.setBackground(QColor(self._look.palette.faint))
            marks.append(mark)
        return marks


class FoundList(QListView):
    """Shows the rows of a FoundModel; ``drawn`` is how.

    ``later_wanted`` comes with the line that is to be given a later word.
    """

    later_wanted = Signal(object)

    def __init__(self, look: Look, rows: FoundModel, name: str, drawn: type[FoundDelegate] = FoundDelegate) -> None:
        super().__init__()
        self.setModel(rows)
        self.setItemDelegate(drawn(look, self))
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setMouseTracking(True)
        self.setAccessibleName(name)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            # Also when a scroll bar came or went: words may take a row more, and Qt adjusts only to another height.
            self.scheduleDelayedItemsLayout()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if is_later(event) and self.currentIndex().isValid():
            self.later_wanted.emit([self.model().at(self.currentIndex().row()).line])
        else:
            super().keyPressEvent(event)
