"""The row of pages above them."""

from PySide6.QtWidgets import QPushButton, QWidget

from keeper.window.desk.desk import Desk
from keeper.window.desk.early import FOCUS_BY_TAB, setting
from keeper.window.desk.pages import BEHIND, IN_ROW, KEY_OF
from keeper.window.frame.more import More
from keeper.window.parts.flow import Flow


def made(desk: Desk) -> tuple[dict[str, QPushButton], QWidget]:
    """The button that leads to each page, by the page's name, and the row in which they stand."""
    buttons: dict[str, QPushButton] = {}
    for page in IN_ROW:
        button = buttons[page.name] = QPushButton(page.title)
        button.setProperty("page", True)
        button.setCheckable(True)
        setting(button, FOCUS_BY_TAB)
        button.setToolTip(KEY_OF[page.name])
        button.clicked.connect(lambda _, name=page.name: desk.go(name))
    more = More(desk)
    buttons |= dict.fromkeys((page.name for page in BEHIND), more)
    return buttons, Flow(desk.look, *dict.fromkeys(buttons.values()), gap=0.4, tight=0, apart=True)
