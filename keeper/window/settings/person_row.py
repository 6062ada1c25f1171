"""One person whose name was marked, as a row of the settings."""

from collections.abc import Callable

from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QWidget

from keeper.actions.people import Named
from keeper.window.desk import wording
from keeper.window.desk.desk import Desk
from keeper.window.parts.small import label, quiet_button
from keeper.window.parts.tips import plain_tip
from keeper.window.parts.typing.put_by import PutBy


class PersonRow(QWidget):
    """One name, the number of its lines, and what can be done with it."""

    def __init__(self, desk: Desk, named: Named, tell: Callable[[str], None]) -> None:
        super().__init__()
        self.person = named.person
        name = named.person.name
        self.name = QLineEdit(name)
        self.name.setProperty("words", True)
        self.name.setAccessibleName(f"Name {name}")
        self.name.setToolTip(plain_tip(name))
        self.name.setCursorPosition(0)
        self.words = PutBy(desk, self.name, "name", tell=tell)
        self.words.show(named.person.id, name)
        self.lines = label("", "quiet", wrap=False)
        self.lines.setMinimumWidth(desk.look.px(5))
        self.rest = _button("Let rest", f"Let {name} rest")
        self.out = _button("Remove", f"Remove {name} from the names that are marked")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(desk.look.px(0.8))
        layout.addWidget(self.name, 1)
        for part in (self.lines, self.rest, self.out):
            layout.addWidget(part)
        self.tell(named)

    def tell(self, named: Named) -> None:
        """Show how many lines there are by now."""
        self.lines.setText(wording.counted(named.lines, "line"))

    def has_focus(self) -> bool:
        """Whether somebody is at work in it."""
        return any(part.hasFocus() for part in (self.name, self.rest, self.out))


def _button(text: str, told: str) -> QPushButton:
    return quiet_button(text, lambda: None, told)
