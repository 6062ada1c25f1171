"""The page of patterns: it is in the list, and further pages join it when they are wanted."""

import pytest
from PySide6.QtCore import Qt, Signal

from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, quiet_button
from keeper.window.patterns import page as pages


class Closer(BasicPage, Paper):
    """A further page, as other rooms of the page have them."""

    left = Signal()

    def __init__(self, desk):
        super().__init__(desk.look)
        self.shown = []
        self.back = quiet_button("back", self.left.emit)
        self.body.addWidget(self.back)
        self.lead_with(self.back)

    def show_night(self, night):
        self.shown.append(night)

    def show_thing(self, thing):
        self.shown.append(thing)


@pytest.fixture
def with_closer(monkeypatch, frame):
    monkeypatch.setattr(pages, "Closer", Closer, raising=False)
    monkeypatch.setattr(pages, "FURTHER", (pages.Further("closer", "Look closer", "page:Closer"),))
    frame.go("patterns")
    return frame.pages["patterns"]


def test_the_button_of_a_further_page_leads_there_and_escape_back(qtbot, with_closer):
    way = with_closer.asking.ways[0]
    assert way.text() == "Look closer ›"
    qtbot.mouseClick(way, Qt.MouseButton.LeftButton)
    closer = with_closer.others["closer"]
    assert with_closer.currentWidget() is closer and closer.back.hasFocus()
    qtbot.keyClick(closer, Qt.Key.Key_Escape)
    assert with_closer.currentWidget() is with_closer.asking


def test_other_pages_lead_to_a_further_page_and_a_thing_of_it(frame, with_closer):
    frame.desk.go("patterns", None, ("closer", "Migraine"))
    closer = with_closer.others["closer"]
    assert with_closer.currentWidget() is closer and closer.shown[-1] == "Migraine"
    frame.desk.go("patterns", None, "")
    assert with_closer.currentWidget() is with_closer.asking
