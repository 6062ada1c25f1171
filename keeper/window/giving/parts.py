"""The parts of an archive, to be chosen."""

from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from keeper.window.desk.look import Look
from keeper.window.giving import wording as giving_wording
from keeper.window.parts.small import label


class PartsForm(QWidget):
    """Each part with a tick and what it is."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.boxes = {part: self._box(name, told) for part, name, told in giving_wording.PARTS}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(look.px(1.2))
        grid.setVerticalSpacing(look.px(0.3))
        grid.setColumnStretch(1, 1)
        for number, (part, _, told) in enumerate(giving_wording.PARTS):
            grid.addWidget(self.boxes[part], number, 0)
            grid.addWidget(label(told, "quiet"), number, 1)

    def chosen(self) -> frozenset[str]:
        """The parts that are ticked."""
        return frozenset(part for part, box in self.boxes.items() if box.isChecked())

    def _box(self, words: str, told: str) -> QCheckBox:
        made = QCheckBox(words)
        made.setChecked(True)
        made.setAccessibleDescription(told)
        return made
