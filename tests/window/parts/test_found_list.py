"""A list of lines found, as it lays them out."""

from datetime import date
from itertools import pairwise

import pytest

from keeper.model import KINDS, Found, Line
from keeper.window.parts.found_list import FoundList, FoundModel


def line(at, text):
    return Found(Line(f"line {at}", date(2026, 1, 1 + at), KINDS[0], text, None), "")


@pytest.fixture
def list_(qtbot, frame):
    """A list beside which nothing scrolls yet."""
    list_ = FoundList(frame.desk.look, FoundModel(lambda: None), "Lines")
    qtbot.addWidget(list_)
    list_.resize(500, 300)
    list_.show()
    qtbot.waitExposed(list_)
    return list_


def overlapping(list_):
    rows = [list_.visualRect(list_.rows.index(at, 0)) for at in range(list_.rows.rowCount())]
    return [at for at, (one, next_) in enumerate(pairwise(rows)) if next_.top() != one.bottom() + 1]


@pytest.mark.parametrize("more", range(0, 40, 5))
def test_no_line_is_drawn_over_the_next_when_a_scroll_bar_comes(qtbot, list_, more):
    words = "The ferry was late and the harbour quiet, so I walked round by the lighthouse" + " i" * more
    list_.rows = list_.model()
    list_.rows.show(tuple(line(at, words) for at in range(12)), "", False)
    qtbot.waitUntil(list_.verticalScrollBar().isVisible)
    qtbot.waitUntil(lambda: not overlapping(list_))
