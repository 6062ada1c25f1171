"""Waiting for what the pages of themes show."""

from waiting.at_rest import at_rest


def shown(qtbot, page):
    """The page of a theme, as soon as it has its lines."""
    qtbot.waitUntil(lambda: page.theme is not None and page.currentWidget() is page.theme)
    qtbot.waitUntil(lambda: page.theme.lines.rows.rowCount() > 0 and page.theme.heading.text() != "")
    return page.theme


def settled(qtbot, page):
    """Wait until what was decided is laid over the themes."""
    at_rest(qtbot, page.desk)  # The window hears of it, and only then begins to look.
    qtbot.waitUntil(lambda: not page.work.running)
    at_rest(qtbot, page.desk)
