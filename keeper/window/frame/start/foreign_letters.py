"""The book's typefaces on screen, for letters that the program's own have not, where the system has none either."""

from collections.abc import Callable, Iterable, Iterator
from unicodedata import category

from PySide6.QtCore import QLoggingCategory
from PySide6.QtGui import QFont, QFontDatabase, QFontMetrics
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
OF_TOWNS = (
    "\u4e0a\u6d77", "\uc11c\uc6b8", "\u3072\u3089", "\u0627\u0644\u0642\u0627\u0647\u0631\u0629", "\u05d9\u05e4\u05d5",
    "\u0926\u093f\u0932\u094d\u0932\u0940", "\u0aa8\u0ab5", "\u0a28\u0a35", "\u09a2\u09be\u0995\u09be", "\u0b2a\u0b41\u0b30\u0b40",
    "\u0bae\u0ba4\u0bc1\u0bb0\u0bc8", "\u0c17\u0c41\u0c02", "\u0cae\u0cc8", "\u0d15\u0d4a", "\u0d9c\u0dcf", "\u0e40\u0e25\u0e22", "\u0ea7\u0ebd",
    "\u0f63\u0fb7", "\u101b\u1014\u103a", "\u1797\u17d2", "\u10d7\u10d1", "\u0535\u0580", "\u12a0\u12f2", "\u0789\u07a7",
)  # fmt: skip
"""Letters in which towns of the world write their names: those of one writing in each."""

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


def looked_for(fonts: Iterable[QFont]) -> Iterator[Callable[[], object]]:
    """Pieces of work by which letters of each writing are looked for in the typefaces there are.

    Else that is done at the first town so written; where there is no typeface
    for it, it takes as long as a key may.
    """
    # Which typefaces lack them is no news to whoever started the program from a terminal.
    QLoggingCategory.setFilterRules("qt.text.font.db=false")
    return (lambda font=font, some=some: QFontMetrics(font).horizontalAdvance(some) for font in fonts for some in OF_TOWNS)


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
