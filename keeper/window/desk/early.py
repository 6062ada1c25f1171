"""Qt's constants by number, for what is built before one can type.

The first mention of PySide6's ``Qt`` makes a hundred enumerations and takes
longer than opening the keeper; the same values can be set as properties.
"""

from PySide6.QtCore import QObject

PLAIN_TEXT = ("textFormat", 0)
CENTRED = ("alignment", 0x84)
NO_FOCUS = ("focusPolicy", 0)
FOCUS_BY_TAB = ("focusPolicy", 1)
NO_SCROLL_BAR_BELOW = ("horizontalScrollBarPolicy", 1)
NO_SCROLL_BAR_BESIDE = ("verticalScrollBarPolicy", 1)
SCROLL_BAR_BESIDE = ("verticalScrollBarPolicy", 0)


def setting(thing: QObject, *properties: tuple[str, int]) -> None:
    """Set properties of a thing by name."""
    for name, value in properties:
        thing.setProperty(name, value)
