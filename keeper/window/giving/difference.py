"""One thing that a keeper and an archive have otherwise."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QGridLayout, QVBoxLayout, QWidget

from keeper.actions.giving.taking import Difference
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label
from keeper.window.parts.words_shown import line_words


class DifferenceRow(QWidget):
    """Its night and what it is, how it is here and in the archive; of a line, a tick that lets the archive's words stand."""

    def __init__(self, desk: Desk, difference: Difference) -> None:
        super().__init__()
        self.difference = difference
        px = desk.look.px
        told = ", ".join(filter(None, (wording.long_date(difference.night) if difference.night else "", difference.what)))
        self.tick = QCheckBox("Let the archive\u2019s words stand")
        self.tick.setAccessibleName(f"Let the archive\u2019s words stand: {told}")
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(1))
        grid.setColumnStretch(1, 1)
        for place, (where, words) in enumerate((("Here", difference.here), ("In the archive", difference.there))):
            named = label(where, "quiet", wrap=False)
            named.setMinimumWidth(px(6.5))
            named.setContentsMargins(0, px(0.35), 0, 0)
            grid.addWidget(named, place, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(line_words(words), place, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, px(0.6), 0, px(0.4))
        layout.setSpacing(px(0.2))
        layout.addWidget(label(told, "spoken"))
        layout.addLayout(grid)
        layout.addWidget(self.tick)
        if not difference.kind:
            self.tick.hide()

    @property
    def chosen(self) -> bool:
        """Whether the archive's words are to stand."""
        return self.tick.isChecked()
