"""A piece of the start-up, or of a page, that fails: it is told, and the others come."""

import gc
import sys

import pytest
from PySide6.QtCore import QObject, Qt
from year_pages import all_shown

from keeper.actions.trouble import FILE
from keeper.errors import CannotWrite
from keeper.window.frame import opening
from keeper.window.frame.start import settling
from keeper.window.frame.start.rest import Rest
from keeper.window.parts.piecemeal import Piecemeal


def fails():
    raise RuntimeError("a piece that fails")


@pytest.fixture
def told(monkeypatch):
    """What reached the hook through which the program tells of what it did not foresee."""
    problems = []
    monkeypatch.setattr(sys, "excepthook", lambda kind, problem, trace: problems.append(str(problem)))
    return problems


@pytest.mark.parametrize("at_once", [0, 1, 2])
def test_the_pieces_after_one_that_fails_are_done_all_the_same(qtbot, told, at_once):
    owner, done = QObject(), []
    coming = Piecemeal(owner)
    pieces = [fails, lambda: done.append("a"), fails, lambda: done.append("b"), lambda: done.append("c")]
    if at_once:
        with pytest.raises(RuntimeError):
            coming.begin(pieces, at_once)
    else:
        coming.begin(pieces)
    qtbot.waitUntil(lambda: done == ["a", "b", "c"])
    assert len(told) == (1 if at_once else 2)


@pytest.mark.parametrize("piece", ["_add_ribbon", "_place_new_lines", "_offer_turn", "_use_the_quiet"])
def test_one_failing_piece_of_the_start_leaves_the_window_whole(qtbot, opened, folder, monkeypatch, piece):
    was, frame = sys.getswitchinterval(), opened(rest=False)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    settling.tell_of_trouble(frame)
    monkeypatch.setattr(Rest, piece, lambda rest: fails())
    try:
        opening.at_ease(frame)
        qtbot.waitUntil(frame.rest_is_loaded)
        assert gc.get_freeze_count() > 0
    finally:
        gc.unfreeze()
        sys.setswitchinterval(was)
    assert frame.said.isVisible()
    assert frame.said.text() == f"Something unexpected went wrong (RuntimeError). Details are in {folder / FILE}."
    assert "a piece that fails" in (folder / FILE).read_text("utf-8")
    assert (frame.ribbon is None) == (piece == "_add_ribbon")
    assert frame.pages["night"].photos is not None
    qtbot.keyClick(frame, Qt.Key.Key_2, Qt.KeyboardModifier.ControlModifier)
    assert frame.page_shown() == "looking back"


def test_what_the_program_can_say_in_a_sentence_of_its_own_is_said_so(frame, folder, monkeypatch):
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    settling.tell_of_trouble(frame)
    problem = CannotWrite("The disk is full.")
    sys.excepthook(type(problem), problem, None)
    assert frame.said.text() == f"The disk is full. Details are in {folder / FILE}."


def test_a_section_of_the_year_that_fails_keeps_none_of_the_others_back(qtbot, frame, write, monkeypatch):
    from keeper.window.year.page import YearOverview

    write(frame.desk.tonight(), "gratitude", "The harbour was still.")
    frame.go("year")
    page = frame.stack.currentWidget().findChild(YearOverview)
    qtbot.waitUntil(lambda: all_shown(page))
    shown = []
    for place, section in enumerate(page.sections):
        monkeypatch.setattr(section, "show_review", lambda review, place=place: fails() if place == 0 else shown.append(place))
    with pytest.raises(RuntimeError):
        page._show_sections()
    qtbot.waitUntil(lambda: shown == list(range(1, len(page.sections))))
    assert all_shown(page)
