"""The themes of a place, each leading to its own page."""

from collections.abc import Callable

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from keeper.window.desk import wording
from keeper.window.desk.look import Look
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import emptied, label, plainly, quiet_button
from keeper.window.parts.tips import plain_tip

LONGEST = 44
"""Characters of a name that are shown; the tip tells all of it."""

ThemeAt = tuple[int, str, int]
"""A theme's number, its name, and how many lines it has here."""


class PlaceThemes(QWidget):
    """What was written of at a place; hidden when nothing is known of it."""

    def __init__(self, look: Look, opened: Callable[[int], None]) -> None:
        super().__init__()
        self._look, self._opened = look, opened
        self._shown: tuple[ThemeAt, ...] = ()
        self.buttons: list[QPushButton] = []
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(0, 0, 0, 0)
        self.hide()

    def show_themes(self, found: tuple[ThemeAt, ...]) -> None:
        """Show these, in this order."""
        if found == self._shown:
            return
        self._shown = found
        emptied(self._rows)
        self.buttons = [self._button(*one) for one in found]
        if found:
            self._rows.addWidget(Flow(self._look, label("Themes:", "quiet", wrap=False), *self.buttons, gap=1.0))
        self.setVisible(bool(found))

    def _button(self, number: int, name: str, times: int) -> QPushButton:
        short = name if len(name) <= LONGEST else f"{name[: LONGEST - 1].rstrip()}\u2026"
        lines = wording.counted(times, "line")
        made = quiet_button(f"{plainly(short)} ({wording.number(times)})", lambda: self._opened(number), f"Theme {name}, {lines} here")
        made.setToolTip(plain_tip(made.accessibleName()))
        return made
