"""How a box of the settings begins: its title, a few words, and a list."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from keeper.window.desk.look import Look
from keeper.window.parts.small import label


def begun(box: QWidget, look: Look, title: str, told: str, gap: float) -> tuple[QVBoxLayout, QVBoxLayout]:
    """The layout of a box, and one for its list, ``gap`` ems between rows, which is still to be put into it."""
    body, rows = QVBoxLayout(box), QVBoxLayout()
    body.setContentsMargins(0, 0, 0, 0)
    body.setSpacing(look.px(0.3))
    rows.setSpacing(look.px(gap))
    body.addWidget(label(title, "words"))
    body.addWidget(label(told, "quiet"))
    return body, rows
