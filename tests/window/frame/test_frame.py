"""Going about: pages, nights, keys, what is remembered, closing."""

import gc
import os
import shutil
import signal
import subprocess
import sys
import threading
import weakref
from datetime import date, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLineEdit, QListView, QPlainTextEdit
from waiting.at_rest import at_rest

from keeper.clock import StoppedClock
from keeper.store import create_store, lines, open_store
from keeper.window.desk.pages import BEHIND, IN_ROW, NUMBERED
from keeper.window.frame import opening
from keeper.window.frame.held.single import Listener, call_forward
from keeper.window.frame.start import garbage
from keeper.window.frame.start.warming import Warming

DEMO = Path(__file__).resolve().parents[3] / "demo_db" / "keeper"
CONTROLS = (QAbstractButton, QLineEdit, QListView, QComboBox, QPlainTextEdit)


def press(qtbot, frame, keys):
    qtbot.keyPress(QApplication.focusWidget() or frame, *keys)


def test_keys_lead_to_every_page(qtbot, frame):
    frame.activateWindow()
    qtbot.waitUntil(frame.isActiveWindow)
    control = Qt.KeyboardModifier.ControlModifier
    numbers = [(Qt.Key(Qt.Key.Key_1 + place), page) for place, page in enumerate(NUMBERED)]
    for key, page in (*numbers, (Qt.Key.Key_Comma, "settings"), (Qt.Key.Key_F, "find"), (Qt.Key.Key_T, "night")):
        qtbot.keyClick(frame, key, control)
        assert frame.page_shown() == page
        assert frame.buttons[page].isChecked()


def test_keys_lead_to_the_night_before_and_after(qtbot, frame):
    frame.activateWindow()
    qtbot.waitUntil(frame.isActiveWindow)
    control = Qt.KeyboardModifier.ControlModifier
    qtbot.keyClick(frame, Qt.Key.Key_PageUp, control)
    qtbot.keyClick(frame, Qt.Key.Key_PageUp, control)
    assert frame.night == date(2026, 11, 12)
    qtbot.keyClick(frame, Qt.Key.Key_PageDown, control)
    assert frame.pages["night"].night == date(2026, 11, 13)
    for _ in range(3):
        qtbot.keyClick(frame, Qt.Key.Key_PageDown, control)
    assert frame.night == frame.desk.tonight()


def test_tab_reaches_every_control(qtbot, opened, folder):
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(DEMO, folder)
    frame = opened()
    # The pages of themes have a test of their own.
    for name in (*(page for page in NUMBERED if page != "themes"), "settings"):
        frame.go(name)
        at_rest(qtbot, frame.desk)
        qtbot.wait(50)
        reach_by_tab(qtbot, frame)


def reach_by_tab(qtbot, frame):
    page, reached = frame.stack.currentWidget(), set()
    page.setFocus()
    while True:
        at = QApplication.focusWidget()
        qtbot.keyClick(at, Qt.Key.Key_Tab)
        if QApplication.focusWidget() is at:
            # A field of several rows keeps Tab for itself when a person wants tabs in it.
            qtbot.keyClick(at, Qt.Key.Key_Tab, Qt.KeyboardModifier.ControlModifier)
        if QApplication.focusWidget() in reached:
            break
        reached.add(QApplication.focusWidget())
    parts = [part for kind in CONTROLS for part in page.findChildren(kind) if part.isVisible() and part.isEnabled()]
    assert len(parts) > 1
    by_tab = [part for part in parts if part.focusPolicy() & Qt.FocusPolicy.TabFocus]
    assert not [part.accessibleName() for part in by_tab if part not in reached]


def test_every_control_has_a_name_for_a_screen_reader(qtbot, frame):
    from PySide6.QtGui import QAccessible
    from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QPlainTextEdit, QWidget

    for page in frame.buttons:
        frame.go(page)
        for widget in frame.stack.currentWidget().findChildren(QWidget):
            if isinstance(widget, QAbstractButton | QComboBox | QLineEdit | QPlainTextEdit) and widget.isVisible():
                if widget.objectName().startswith("qt_"):
                    continue
                name = QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)
                assert name.strip(), f"{page}: {type(widget).__name__} has no name"


def test_another_evening_opens_on_tonight_the_same_evening_where_one_was(opened, clock):
    first = opened()
    first.go("looking back", date(2026, 11, 3))
    first.resize(760, 640)
    assert first.close()
    again = opened()
    assert (again.page_shown(), again.night) == ("looking back", date(2026, 11, 3))
    assert (again.width(), again.height()) == (760, 640)
    assert again.close()
    later = opened(StoppedClock(clock.at + timedelta(days=1), "Europe/Riga"))
    assert (later.page_shown(), later.night) == ("night", date(2026, 11, 15))


def test_a_second_start_brings_the_first_window_forward(qtbot, frame, folder):
    called = []
    listener = Listener(folder, called.append)
    script = (
        "import sys; from pathlib import Path; from datetime import date; from PySide6.QtCore import QCoreApplication;"
        "app = QCoreApplication([]); from keeper.window.frame.held.single import call_forward;"
        f"sys.exit(0 if call_forward(Path({str(folder)!r}), date(2026, 11, 2)) else 3)"
    )
    other = subprocess.Popen([sys.executable, "-c", script])
    qtbot.waitUntil(lambda: other.poll() is not None)
    assert other.returncode == 0
    assert called == [date(2026, 11, 2)]
    frame.come_forward(called[0])
    assert frame.night == date(2026, 11, 2)
    listener.deleteLater()


def test_the_rest_comes_in_pieces(opened, qapp):
    frame, done = opened(rest=False), []
    frame.load_rest([lambda: done.append("first")], [lambda: done.append("last")])
    assert not done and frame.ribbon is None and not frame.rest_is_loaded()
    turns = 0
    while not frame.rest_is_loaded():
        turns += 1
        qapp.processEvents()
    assert done == ["first", "last"] and turns >= 10
    assert frame.ribbon is not None and frame.pages["night"].photos is not None
    assert frame.findChild(Warming) is not None


def test_a_window_closed_at_once_brings_in_no_more(qtbot, opened):
    frame = opened(rest=False)
    frame.load_rest()
    frame.leave()
    qtbot.wait(50)
    assert frame.rest_is_loaded() and frame.findChild(Warming) is None


class _Circle:
    """Something that holds itself, and so ends only as garbage."""


def in_a_circle() -> _Circle:
    made = _Circle()
    made.itself = made
    return made


def test_at_ease_the_window_goes_before_its_lanes_and_garbage_is_taken_up(qtbot, opened, monkeypatch):
    was, frame = sys.getswitchinterval(), opened(rest=False)
    monkeypatch.setattr(garbage, "EVERY", 20)
    try:
        opening.at_ease(frame)
        assert sys.getswitchinterval() < was
        qtbot.waitUntil(frame.rest_is_loaded)
        assert not gc.isenabled() and gc.get_freeze_count() > 0
        ended = []
        weakref.finalize(in_a_circle(), lambda: ended.append(threading.current_thread()))
        spent = [in_a_circle() for _ in range(gc.get_threshold()[0])]
        del spent
        qtbot.waitUntil(lambda: ended == [threading.main_thread()])
    finally:
        gc.unfreeze()
        sys.setswitchinterval(was)


def test_no_window_answers_where_none_is_open(qtbot, folder):
    assert call_forward(folder / "nowhere", None) is False


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such signals.")
@pytest.mark.parametrize("number", ["SIGTERM", "SIGHUP", "SIGINT"])
def test_a_signal_to_end_keeps_what_was_typed(folder, number):
    script = (
        "import sys, os, time\n"
        "from pathlib import Path\n"
        "import keeper.window.frame.opening as opening\n"
        "settle = opening._settle_in\n"
        "def typed(app, frame):\n"
        "    settle(app, frame)\n"
        "    frame.pages['night'].fields['gratitude'].insertPlainText('typed just before the end')\n"
        "    print('ready', flush=True)\n"
        "opening._settle_in = typed\n"
        f"sys.exit(opening.run(Path({str(folder)!r}), None, False))\n"
    )
    create_store(folder).close()
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    window = subprocess.Popen([sys.executable, "-c", script], stdout=subprocess.PIPE, text=True, env=env)
    assert window.stdout.readline() == "ready\n"
    window.send_signal(getattr(signal, number))
    assert window.wait(200) == 0
    window.stdout.close()
    with open_store(folder) as store:
        assert lines.count(store) == 1
        first, _ = lines.span(store)
        assert lines.of_night(store, first)[0].text == "typed just before the end"


def test_work_that_fails_is_told_in_a_sentence_without_a_traceback(qtbot, frame, capsys):
    def fail(store, task):
        raise ZeroDivisionError("unforeseen")

    told = []
    frame.desk.worker.run(fail, failed=lambda error: told.append(str(error)))
    qtbot.waitUntil(lambda: bool(told))
    assert "unexpected" in told[0] and "Traceback" not in told[0]
    assert "unforeseen" in (frame.desk.folder / "trouble.txt").read_text()
    assert "Traceback" not in capsys.readouterr().err


def test_work_can_be_stopped_and_tells_how_far_it_is(qtbot, frame):
    import threading

    heard, go_on = [], threading.Event()

    def long(store, task):
        for step in range(1000):
            task.progress(step / 1000, "working")
            go_on.wait(0.01)
        return "finished"

    done = []
    task = frame.desk.worker.run(long, done=done.append, heard=lambda share, words: heard.append((share, words)))
    qtbot.waitUntil(lambda: len(heard) > 2)
    task.stop()
    at_rest(qtbot, frame.desk)
    assert done == [] and heard[0] == (0.0, "working")


def test_at_most_seven_pages_stand_in_the_row():
    assert len(IN_ROW) <= 7 and BEHIND


def test_each_page_behind_is_reached_by_keys_alone(qtbot, frame):
    for place, page in enumerate(BEHIND):
        button = frame.buttons[page.name]
        button.setFocus()
        qtbot.keyClick(button, Qt.Key.Key_Space)
        assert frame.page_shown() == "night" and not button.isChecked(), page.name
        menu = QApplication.activePopupWidget()
        for _ in range(place):
            qtbot.keyClick(menu, Qt.Key.Key_Down)
        qtbot.keyClick(menu, Qt.Key.Key_Return)
        assert frame.page_shown() == page.name and button.isChecked()
        assert not frame.buttons["night"].isChecked(), page.name
        frame.go("night")
        assert frame.buttons["night"].isChecked() and not button.isChecked(), page.name
