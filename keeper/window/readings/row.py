"""One tracker on the page of readings, and what can be done with it."""

from datetime import date

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from keeper.model import Tracker
from keeper.window.desk.look import Look
from keeper.window.parts.small import breakable, label, plainly, quiet_button, row
from keeper.window.readings import wording


class TrackerRow(QWidget):
    """Name, what is noted of it, and buttons; which of them there are depends on whether it has ended."""

    def __init__(self, look: Look, tracker: Tracker, tonight: date) -> None:
        super().__init__()
        self.tracker = tracker
        ended = tracker.ended is not None and tracker.ended < tonight
        name = plainly(tracker.name)
        self.name = label(breakable(tracker.name), "spoken")
        self.about = label(wording.about(tracker, tonight), "quiet")
        self.earlier = quiet_button("Earlier", lambda: None, f"Put {name} earlier in the row")
        self.later = quiet_button("Later", lambda: None, f"Put {name} later in the row")
        self.change = quiet_button("Change", lambda: None, f"Change {name}")
        self.end = quiet_button("Take up again" if ended else "End", lambda: None, f"Take up {name} again" if ended else f"End {name}")
        self.buttons: list[QPushButton] = [self.change, self.end] if ended else [self.earlier, self.later, self.change, self.end]
        words = QVBoxLayout()
        words.setSpacing(0)
        for part in (self.name, self.about):
            words.addWidget(part)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, look.px(0.35))
        layout.setSpacing(look.px(0.8))
        layout.addLayout(words, 1)
        layout.addLayout(row(*self.buttons, gap=look.px(0.8)))

    def pressed(self) -> QPushButton | None:
        """The button that has the focus."""
        return next((one for one in self.buttons if one.hasFocus()), None)
