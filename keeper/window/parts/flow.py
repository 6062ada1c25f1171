"""Small things side by side, going on in a further row where there is no more room."""

from PySide6.QtCore import QEvent, QSize
from PySide6.QtWidgets import QSizePolicy, QWidget

from keeper.window.desk.look import Look

Row = list[tuple[QWidget, QSize]]

_LAYOUT_REQUEST = QEvent.Type.LayoutRequest


class Flow(QWidget):
    """Small things in rows, as many in each as fit; its height follows its width.

    ``gap`` lies between two things, ``tight`` where that makes one row of
    two, both in times the text's height. The last thing stands at the right
    end of its row when it is ``apart``.
    """

    def __init__(self, look: Look, *things: QWidget, gap: float = 0.9, tight: float | None = None, apart: bool = False):
        super().__init__()
        self._look = look
        self._gap, self._tight, self._apart = gap, gap if tight is None else tight, apart
        self.things: list[QWidget] = []
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        for thing in things:
            self.add(thing)

    def add(self, thing: QWidget) -> None:
        """Put one more at the end; it is seen unless it is hidden afterwards."""
        thing.setParent(self)
        thing.show()
        self.things.append(thing)

    def show_things(self, *things: QWidget) -> None:
        """Let these be in it, in this order; of those that were, the others end."""
        for thing in self.things:
            if thing not in things:
                thing.hide()
                thing.deleteLater()
        new = [thing for thing in things if thing not in self.things]
        for thing in new:
            thing.setParent(self)
        self.things = list(things)
        for thing in new:
            thing.show()
        self.updateGeometry()
        self._place()

    def heightForWidth(self, width: int) -> int:
        rows, _ = self._rows(width)
        return sum(_height(row) for row in rows)

    def sizeHint(self) -> QSize:
        width = self._look.px(20)
        return QSize(width, self.heightForWidth(width))

    def resizeEvent(self, event) -> None:
        self._place()

    def event(self, event: QEvent) -> bool:
        # A thing was shown or hidden, or has become longer.
        if event.type() == _LAYOUT_REQUEST:
            self.updateGeometry()
            self._place()
        return super().event(event)

    def _rows(self, width: int) -> tuple[list[Row], int]:
        sized = [(thing, _fitting(thing, width)) for thing in self.things if not thing.isHidden()]
        long = sum(size.width() for _, size in sized)
        gap = self._look.px(self._gap)
        if long + gap * (len(sized) - 1) > width:
            gap = self._look.px(self._tight)
        return _broken(sized, width, gap), gap

    def _place(self) -> None:
        y, (rows, gap) = 0, self._rows(self.width())
        for row in rows:
            x, high = 0, _height(row)
            for thing, size in row:
                if self._apart and thing is self.things[-1]:
                    x = self.width() - size.width()
                thing.setGeometry(x, y + (high - size.height()) // 2, size.width(), size.height())
                x += size.width() + gap
            y += high


def _broken(sized: Row, width: int, gap: int) -> list[Row]:
    rows: list[Row] = []
    left = -1
    for thing, size in sized:
        if size.width() > left:
            rows.append([])
            left = width
        rows[-1].append((thing, size))
        left -= size.width() + gap
    return rows


def _fitting(thing: QWidget, width: int) -> QSize:
    size = thing.sizeHint().expandedTo(thing.minimumSize()).boundedTo(thing.maximumSize())
    size.setWidth(min(size.width(), width))
    return size


def _height(row: Row) -> int:
    return max(size.height() for _, size in row)
