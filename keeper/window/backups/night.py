"""A night as a backup holds it, to be read and perhaps chosen."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QGridLayout, QVBoxLayout, QWidget

from keeper.model import Line, Night
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, row
from keeper.window.parts.words_shown import line_words


class NightInside(QWidget):
    """The date with a tick, the place, its lines; ``lacking`` says that the keeper holds less, or other words."""

    def __init__(self, desk: Desk, night: Night, lacking: bool, chosen: bool) -> None:
        super().__init__()
        self.night = night
        px = desk.look.px
        self.tick = QCheckBox(wording.long_date(night.date))
        self.tick.setChecked(chosen)
        self.tick.setAccessibleName(f"Choose {wording.long_date(night.date)}")
        told = [night.place.name if night.place else "", wording.counted(night.photo_count, "photo") if night.photo_count else "",
                "differs from the keeper now" if lacking else ""]  # fmt: skip
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, px(0.6), 0, px(0.4))
        layout.setSpacing(px(0.2))
        beside = row(self.tick, label(" \u00b7 ".join(filter(None, told)), "quiet"), gap=px(1))
        beside.setStretch(1, 1)
        layout.addLayout(beside)
        grid = QGridLayout()
        grid.setHorizontalSpacing(px(1))
        grid.setColumnStretch(1, 1)
        for place, line in enumerate(night.lines):
            grid.addWidget(_kind(desk, line), place, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(line_words(line.text), place, 1)
        layout.addLayout(grid)


def _kind(desk: Desk, line: Line) -> QWidget:
    made = label(line.kind_title, "quiet", wrap=False)
    made.setMinimumWidth(desk.look.px(5.2))
    made.setContentsMargins(0, desk.look.px(0.35), 0, 0)
    return made
