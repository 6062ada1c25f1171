"""Both halves of a theme, before it is split: what each is called, and all its lines."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QHBoxLayout, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from keeper.actions.themes.splitting import Half, Halves
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import breakable, label, plain_button, row


class SplitDialog(QDialog):
    """Shows the halves side by side; accepted when the theme is to be split so."""

    def __init__(self, desk: Desk, name: str, found: Halves, parent: QWidget) -> None:
        super().__init__(parent)
        self.desk = desk
        self.setWindowTitle("Split a theme")
        px = desk.look.px
        layout = QVBoxLayout(self)
        layout.setContentsMargins(px(1.4), px(1.2), px(1.4), px(1.2))
        layout.setSpacing(px(0.8))
        layout.addWidget(label(breakable(f"\u201c{name}\u201d would become these two themes. No line is changed, and Undo takes it back."), "quiet"))
        self.lists: list[QListWidget] = []
        sides = QHBoxLayout()
        sides.setSpacing(px(1.6))
        for half in (found.stays, found.goes):
            sides.addLayout(self._half(half), 1)
        layout.addLayout(sides, 1)
        self.leave, self.act = plain_button("Cancel", self.reject), plain_button("Split", self.accept)
        layout.addLayout(row(None, self.leave, self.act))
        self.resize(min(px(56), parent.window().width()), min(px(30), parent.window().height()))
        self.lists[0].setFocus()

    def _half(self, half: Half) -> QVBoxLayout:
        made = QVBoxLayout()
        made.setSpacing(self.desk.look.px(0.3))
        count = wording.counted(len(half.lines), "line")
        made.addWidget(label(breakable(half.name), "words"))
        made.addWidget(label(count, "quiet", wrap=False))
        shown = QListWidget()
        shown.setSpacing(self.desk.look.px(0.15))
        shown.setAccessibleName(f"{half.name}, {count}")
        shown.setWordWrap(True)
        # A theme may have a thousand lines: those further down are laid out while one reads.
        shown.setLayoutMode(QListWidget.LayoutMode.Batched)
        shown.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        shown.setVerticalScrollMode(QListWidget.ScrollMode.ScrollPerPixel)
        for line in half.lines:
            item = QListWidgetItem(" ".join(line.text.split()))
            item.setFont(self.desk.look.serif(1.05))
            shown.addItem(item)
        self.lists.append(shown)
        made.addWidget(shown, 1)
        return made
