"""The lines of a large theme: what is laid out when more of them come, and when they are scrolled through."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from PySide6.QtWidgets import QApplication

from keeper.model import Found, Line, Moment
from keeper.window.parts.found_list import FoundDelegate
from keeper.window.themes.lines import ThemeLines

MANY, AT_ONCE = 1250, 50


def found(first: int, last: int) -> tuple[Found, ...]:
    """Lines of one to seven rows, each with words of its own."""
    return tuple(Found(_line(at, "felt and brass, rain on the pier, " * (at % 7 + 1)), "") for at in range(first, last))


def _line(at: int, words: str) -> Line:
    night = date(2023, 1, 1) + timedelta(at)
    return Line(f"line{at}", night, "gratitude", f"{at}: {words}", Moment(datetime.combine(night, time(21), UTC), 0, ""))


@pytest.fixture
def lines(qtbot, frame):
    made = ThemeLines(frame.desk.look, lambda: None)
    qtbot.addWidget(made)
    made.resize(700, 500)
    made.show()
    made.show_lines(found(0, MANY - AT_ONCE), True, True)
    # The scroll bar that comes takes a little of the width: laid out once more.
    QApplication.processEvents()
    made.doItemsLayout()
    made.scrollToBottom()
    QApplication.processEvents()
    return made


@pytest.fixture
def laid_out(monkeypatch, lines):
    counted = []
    whole = FoundDelegate._laid_out
    monkeypatch.setattr(FoundDelegate, "_laid_out", lambda *given: counted.append(1) or whole(*given))
    return counted


def test_only_lines_that_come_are_laid_out(lines, laid_out):
    lines.rows.append(found(MANY - AT_ONCE, MANY), False)
    lines.scrollToBottom()
    QApplication.processEvents()
    assert lines.rows.rowCount() == MANY
    # Beside the new ones, those that are seen are drawn.
    assert len(laid_out) < 2 * AT_ONCE


def test_scrolling_lays_out_what_is_seen_and_no_more(lines, laid_out):
    lines.verticalScrollBar().setValue(lines.verticalScrollBar().maximum() // 2)
    QApplication.processEvents()
    assert 0 < len(laid_out) < 40


def test_rows_are_as_high_as_their_words_after_another_width(lines):
    at = next(row for row in range(20) if row % 7 == 6)
    wide = lines.visualRect(lines.rows.index(at, 0)).height()
    lines.resize(320, 500)
    QApplication.processEvents()
    lines.doItemsLayout()
    assert lines.visualRect(lines.rows.index(at, 0)).height() > wide
