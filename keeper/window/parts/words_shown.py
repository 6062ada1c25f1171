"""A line's words as they stand on a page."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from keeper.study.language.direction import runs_left
from keeper.window.parts.small import label


def line_words(text: str) -> QLabel:
    """The words, to be read and copied; those that run from the right stand there."""
    made = label(text, "words")
    made.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    if runs_left(text):
        made.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignAbsolute)
    return made
