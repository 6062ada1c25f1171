"""A page whose focus goes to one of its parts."""

from PySide6.QtWidgets import QWidget


class Leading:
    """Mixed into a page: what gives it the focus gives it to the part that leads.

    Not by Qt's focus proxy: Tab would enter the page at that part each time
    round, and what lies before it could not be reached.
    """

    _leading: QWidget | None = None

    def lead_with(self, part: QWidget) -> None:
        """Let this part have the focus that the page is given."""
        self._leading = part

    def setFocus(self, *why: object) -> None:
        (self._leading or super()).setFocus(*why)
