"""Small parts that every page is made of."""

import re
from collections.abc import Callable

from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from keeper.window.desk.early import NO_FOCUS, NO_SCROLL_BAR_BELOW, PLAIN_TEXT, setting
from keeper.window.desk.look import Look

GAP = 12
"""Dots between parts side by side, whatever the size of the text."""

_PERCENT = re.compile(r"(?<=\d) (?=%)")
_LONG = re.compile(r"\w{16,}")


def label(text: str = "", voice: str = "", *, wrap: bool = True) -> QLabel:
    """Words on the page; ``voice`` is quiet, head, words, question or plain."""
    made = QLabel(text)
    setting(made, PLAIN_TEXT)
    made.setWordWrap(wrap)
    if voice:
        made.setProperty(voice, True)
    return made


def name_within(made: QLabel, name: str, widest: int, least: int = 0) -> None:
    """Show a person's name for something in a label that stands beside others: in one row, or within ``widest`` dots in several."""
    made.setWordWrap(True)
    made.setText(breakable(name))
    made.ensurePolished()
    # Qt gives a row of words its width to the dot, and parts it all the same.
    wide = made.fontMetrics().horizontalAdvance(name) + 4
    made.setFixedWidth(max(min(wide, widest), least))


def quiet_button(text: str, pressed: Callable[[], None], told: str = "") -> QPushButton:
    """An action in small words, reachable by Tab, Enter and Space."""
    made = QPushButton(text)
    made.setProperty("quiet", True)
    made.setAutoDefault(True)
    made.setAccessibleName(told or text)
    made.clicked.connect(lambda: pressed())
    return made


def plain_button(text: str, pressed: Callable[[], object], *, by_enter: bool = False) -> QPushButton:
    """A dialog's button; one ``by_enter`` may be pressed by Enter while another part has the focus."""
    made = QPushButton(text)
    made.setProperty("plain", True)
    made.setAutoDefault(by_enter)
    made.clicked.connect(lambda: pressed())
    return made


def plainly(words: str) -> str:
    """A person's words for a button, where a lone & would make a key of the next letter."""
    return words.replace("&", "&&")


def breakable(words: str) -> str:
    """Words for a label that wraps: one longer than a row may be parted, where nothing is seen of it; a number keeps its %."""
    return _LONG.sub(lambda found: re.sub(r"\w{4}(?=\w)", "\\g<0>\u200b", found.group()), _PERCENT.sub("\u00a0", words))


def rule() -> QFrame:
    """A faint line across the page."""
    made = QFrame()
    made.setObjectName("rule")
    made.setFixedHeight(1)
    made.setAutoFillBackground(True)
    return made


def row(*parts: QWidget | int | None, gap: int = GAP) -> QHBoxLayout:
    """Parts side by side; None is a stretch."""
    made = QHBoxLayout()
    made.setContentsMargins(0, 0, 0, 0)
    made.setSpacing(gap)
    for part in parts:
        if part is None:
            made.addStretch(1)
        else:
            made.addWidget(part)
    return made


def headed(heading: QLabel, *beside: QWidget) -> QHBoxLayout:
    """A heading that takes what room there is, and small things at its right."""
    made = row(heading, *beside)
    made.setStretch(0, 1000)
    return made


def in_the_middle(column: QWidget) -> QHBoxLayout:
    """A column as wide as it may be, with what is left to either side."""
    made = row(None, column, None, gap=0)
    made.setStretch(1, 1000)
    return made


def emptied(layout: QVBoxLayout | QHBoxLayout) -> None:
    """Take everything out of a layout."""
    while layout.count():
        item = layout.takeAt(0)
        if item.widget():
            item.widget().hide()
            item.widget().deleteLater()
        elif item.layout():
            emptied(item.layout())
            item.layout().deleteLater()


class Paper(QScrollArea):
    """A single sheet in the middle of the page, scrolling when it is long."""

    def __init__(self, look: Look, ems: float = 44) -> None:
        super().__init__(look.stage)
        self._look = look
        self._ems = ems
        self.setWidgetResizable(True)
        setting(self, NO_SCROLL_BAR_BELOW, NO_FOCUS)
        outer = QWidget()
        self.sheet = QWidget()
        self.body = QVBoxLayout(self.sheet)
        beside = QHBoxLayout(outer)
        beside.addStretch(1)
        beside.addWidget(self.sheet, 1000)
        beside.addStretch(1)
        self.setWidget(outer)
        self.fit()

    def fit(self) -> None:
        """Take up the text size in force."""
        px = self._look.px
        self.sheet.setMaximumWidth(px(self._ems))
        self.body.setContentsMargins(px(1.5), px(2), px(1.5), px(1.5))
        self.body.setSpacing(px(0.5))

    def dress(self) -> None:
        """As a page it takes up no more than that."""
        self.fit()
