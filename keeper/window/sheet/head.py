"""What stands over the sheet: its nights, what can be done with it, and the current cell in words."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from keeper.window.desk.look import Look
from keeper.window.parts.flow import Flow
from keeper.window.parts.small import headed, label, quiet_button
from keeper.window.parts.tips import plain_tip

KEYS = "Enter goes down, Tab across. A place left empty is the one before."
NONE = "There is no column to type in. Choose some under Columns."


class SheetHead(QWidget):
    """``stepped`` comes with -1 or 1; the rest with what is asked for."""

    stepped = Signal(int)
    columns_wanted = Signal()
    nights_wanted = Signal()
    pages_wanted = Signal()
    beside_turned = Signal()
    month_wanted = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look, self._said = look, ""
        self.heading = label("", "head")
        self.before = quiet_button("\u2039 earlier", lambda: self.stepped.emit(-1), "The nights before")
        self.after = quiet_button("later \u203a", lambda: self.stepped.emit(1), "The nights after")
        self.keys = label(KEYS, "quiet", wrap=False)
        self.columns = quiet_button("Columns\u2026", self.columns_wanted.emit, "Choose the columns of the sheet")
        self.nights = quiet_button("Other nights\u2026", self.nights_wanted.emit, "Choose other nights for the sheet")
        self.bring = quiet_button("Bring pages\u2026", self.pages_wanted.emit, "Bring pages of the notebook")
        self.put_away = quiet_button("Put the pages away", self.beside_turned.emit)
        self.back = quiet_button("The month", self.month_wanted.emit, "To the page of the month")
        self.told = label("", "plain", wrap=False)
        # However long a line is, it does not hold the window open.
        self.told.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(look.px(0.4))
        layout.addLayout(headed(self.heading, self.before, self.after))
        layout.addWidget(Flow(look, self.keys, self.columns, self.nights, self.bring, self.put_away, self.back, gap=1.2))
        layout.addWidget(self.told)

    def say_pages(self, some: bool, shown: bool) -> None:
        """Whether there are pages of the notebook, and whether they stand beside."""
        self.put_away.setVisible(some)
        self.put_away.setText("Put the pages away" if shown else "Show the pages")

    def tell(self, said: str) -> bool:
        """Tell the current cell; whether that is news."""
        if said == self._said:
            return False
        self._said = said
        self.told.setToolTip(plain_tip(said))
        self._fit()
        return True

    def _fit(self) -> None:
        self.told.setText(self.told.fontMetrics().elidedText(self._said, Qt.TextElideMode.ElideRight, self.width()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()
