"""A real window on a real keeper."""

import gc
from datetime import date

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog
from pytestqt.qtbot import QtBot

from keeper.actions import writing
from keeper.clock import StoppedClock
from keeper.window.desk.lanes import Lane
from keeper.window.frame import opening
from keeper.window.frame.start import garbage, warming

LOOKED_AT_EVERY = 2
"""Milliseconds from one look at what a test waits for to the next."""


@pytest.fixture(autouse=True)
def waits_as_long_as_it_takes(monkeypatch):
    """A wait ends as soon as what it waits for is there; only what never comes takes so long, on however busy a machine."""
    for wait in (QtBot.waitUntil, QtBot.waitSignal, QtBot.waitExposed, QtBot.waitCallback):
        monkeypatch.setitem(wait.__kwdefaults__, "timeout", 120_000)
    until = QtBot.waitUntil

    def wait_until(qtbot, is_so, **more):
        def is_so_by_now():
            try:
                return is_so()
            except LookupError:
                # A list that is being made anew has nothing at that place yet.
                return False

        # Otherwise it is looked at every ten, and what has come meanwhile is waited for without need.
        qtbot.wait = lambda _: QtBot.wait(qtbot, LOOKED_AT_EVERY)
        try:
            return until(qtbot, is_so_by_now, **more)
        finally:
            del qtbot.wait

    monkeypatch.setattr(QtBot, "waitUntil", wait_until)
    monkeypatch.setattr(Lane.finish, "__defaults__", (60.0,))


@pytest.fixture(autouse=True)
def no_dialog_waits(monkeypatch):
    """A dialog that no test answers would wait for ever: it fails the test that opened it instead."""

    def nobody_there(dialog, *_):
        raise AssertionError(f"{dialog} waits for an answer, and nobody is there.")

    monkeypatch.setattr(QDialog, "exec", nobody_there)
    for asks in ("getOpenFileName", "getOpenFileNames", "getSaveFileName", "getExistingDirectory"):
        monkeypatch.setattr(QFileDialog, asks, staticmethod(nobody_there))


@pytest.fixture(autouse=True)
def nothing_is_brought_in_ahead(monkeypatch):
    """It was for an earlier window, and each would go through all of it again, while a test waits for something else."""
    monkeypatch.setattr(warming, "WARM_EVERY", 3_600_000)


@pytest.fixture(autouse=True)
def garbage_taken_up_here(qapp):
    """As in the program: never on a lane."""
    gc.disable()
    yield
    for left in QApplication.topLevelWidgets():
        # Of what Qt made itself nothing is known here.
        if type(left).__module__.startswith("keeper."):
            # A closed window still counts each time the style sheet is put on.
            left.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    garbage.Garbage().take_up_what_is_due()
    gc.enable()


@pytest.fixture
def tonight() -> date:
    return date(2026, 11, 14)


@pytest.fixture
def opened(qtbot, folder, clock):
    """Opens windows on the test's keeper, and closes them at the end."""
    frames = []

    def open_frame(clock: StoppedClock = clock, night: date | None = None, rest: bool = True):
        opening.application()
        frame = opening.make_frame(QApplication.instance(), folder, clock)
        frames.append(frame)
        frame.show()
        opening._open_page(frame, night)
        if rest:
            frame.load_rest()
            qtbot.waitUntil(frame.rest_is_loaded)
        qtbot.waitUntil(frame.isActiveWindow)
        qtbot.waitUntil(lambda: QApplication.focusWidget() is not None)
        return frame

    yield open_frame
    for frame in frames:
        if frame.isVisible():
            frame.leave()
            assert not frame.isVisible()


@pytest.fixture(autouse=True)
def clipboard_left_empty(qapp):
    """What Python put on the clipboard must not outlive Python: Qt lets go of it after."""
    yield
    QApplication.clipboard().clear()


@pytest.fixture
def frame(opened):
    return opened()


@pytest.fixture
def page(frame):
    """The page of the night."""
    return frame.pages["night"]


@pytest.fixture
def write(store, clock):
    """Writes a line as another program would, such as the command line."""
    return lambda night, kind, text: writing.write_line(store, night, kind, text, clock)
