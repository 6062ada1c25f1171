"""All keys and what they do, as the sheet of keys and the settings show them."""

from PySide6.QtWidgets import QGridLayout

from keeper.window.desk.keys import KEYS
from keeper.window.desk.look import Look
from keeper.window.parts.small import label


def rows(look: Look) -> QGridLayout:
    """Each key beside what it does."""
    grid = QGridLayout()
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setHorizontalSpacing(look.px(1.5))
    grid.setVerticalSpacing(look.px(0.4))
    grid.setColumnStretch(1, 1)
    for place, key in enumerate(KEYS):
        grid.addWidget(label(key.told, wrap=False), place, 0)
        grid.addWidget(label(key.does, "quiet"), place, 1)
    return grid
