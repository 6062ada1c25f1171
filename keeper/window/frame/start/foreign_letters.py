"""The book's typefaces on screen, for letters that the program's own have not, where the system has none either."""

from collections.abc import Callable
from unicodedata import category

from PySide6.QtGui import QFontDatabase
from PySide6.QtWidgets import QLabel, QLineEdit, QPlainTextEdit, QWidget

from keeper.window.desk.look import load_faces

EAST_ASIAN = ("book/NotoSerifSC-Regular.ttf", "book/NotoSerifKR-Regular.ttf")
OTHERS = (
    "book/NotoEmoji-Regular.ttf",
    "book/NotoSansSymbols2-Regular.ttf",
    "book/NotoSansMath-Regular.ttf",
    "book/NotoSerifHebrew-Regular.ttf",
    "book/NotoNaskhArabic-Regular.ttf",
)
_EMOJI = "Noto Emoji"

_OWN_BELOW = 0x0530
"""The program's own faces have the letters below: Latin, Greek and Cyrillic."""


def pieces(window: QWidget, dress: Callable[[], None]) -> list[Callable[[], object]]:
    """What is to be done, some milliseconds each; ``dress`` is called where a letter already shown needs it."""

    def again() -> None:
        # What was laid out before a face came would go on without it.
        if any(map(is_foreign, shown(window))):
            dress()

    return [lambda: load_faces(EAST_ASIAN), _take_in_others, again]


def _take_in_others() -> None:
    load_faces(OTHERS)
    # In one ink, also where the system has coloured ones; Qt can be told from 6.9 on.
    if hasattr(QFontDatabase, "setApplicationEmojiFontFamilies"):
        QFontDatabase.setApplicationEmojiFontFamilies([_EMOJI])


def is_foreign(text: str) -> bool:
    """Whether a text has letters or signs for which the program's own faces may have none."""
    if text.isascii():
        return False
    return any(ord(letter) >= _OWN_BELOW and category(letter)[0] in "LMNS" for letter in text)


def shown(window: QWidget) -> list[str]:
    """The texts on a window, of labels and fields."""
    labels = [label.text() for label in window.findChildren(QLabel)]
    rows = [field.text() for field in window.findChildren(QLineEdit)]
    return labels + rows + [field.toPlainText() for field in window.findChildren(QPlainTextEdit)]
