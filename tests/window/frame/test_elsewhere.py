"""What is written elsewhere is shown; what the window writes itself is told to its pages once."""

import subprocess
import sys
from datetime import date
from threading import Event

import pytest
from waiting.at_rest import at_rest

from keeper.actions import writing
from keeper.window.frame import window as frames
from keeper.window.frame.elsewhere import Elsewhere
from keeper.window.themes import work as theme_work

NIGHT = date(2026, 11, 14)
WELL_AFTER = 700
"""Milliseconds after which what is to come of a writing has come."""

OTHER_PROGRAM = """
import sys
from datetime import date
from pathlib import Path
from keeper.actions import opening, writing
from keeper.clock import Clock
with opening.open_again(Path(sys.argv[1])) as store:
    print("open", flush=True)
    sys.stdin.readline()
    writing.write_line(store, date(2026, 11, 14), "memory", "from another program", Clock())
"""


@pytest.fixture(autouse=True)
def quick(monkeypatch):
    """Looks come sooner after one another; test_tonight.py waits as long as a person does."""
    monkeypatch.setattr(frames, "LOOK_FOR_CHANGES", 150)
    monkeypatch.setattr(theme_work, "PLACE_AFTER", 100)


@pytest.fixture
def told(qtbot, frame):
    """How often the pages were told to ask again, from when the window has come to rest."""
    at_rest(qtbot, frame.desk)
    qtbot.wait(WELL_AFTER)
    at_rest(qtbot, frame.desk)
    heard = []
    frame.desk.changed.connect(lambda: heard.append(1))
    return heard


def kept(clock):
    return lambda store, task: writing.write_line(store, NIGHT, "memory", "Mine.", clock)


def test_an_own_line_makes_the_pages_ask_once(qtbot, frame, page, told):
    qtbot.keyClicks(page.fields["gratitude"], "Mine.")
    page.keep()
    qtbot.waitUntil(lambda: told != [])
    qtbot.wait(WELL_AFTER)
    assert told == [1]


def test_what_is_being_typed_makes_no_page_ask(qtbot, frame, page, told):
    qtbot.keyClicks(page.fields["memory"], "half a th")
    page.lines.put_by((page.night, "memory"))
    frame.desk.change_setting("turn", "2026-10 photo")
    qtbot.wait(WELL_AFTER)
    assert told == []


@pytest.mark.parametrize("lane", ["darkroom", "worker"])
def test_another_lanes_work_makes_the_pages_ask_once(qtbot, frame, clock, told, lane):
    getattr(frame.desk, lane).run(kept(clock), lambda _: frame.desk.changed.emit())
    qtbot.waitUntil(lambda: told != [])
    qtbot.wait(WELL_AFTER)
    assert told == [1]


def test_another_lanes_work_of_which_nobody_tells_is_seen(qtbot, frame, page, clock, told):
    frame.desk.worker.run(kept(clock))
    qtbot.waitUntil(lambda: page.fields["memory"].toPlainText() == "Mine.")
    qtbot.wait(WELL_AFTER)
    assert told == [1]


def test_another_connection_is_seen(qtbot, page, write, told):
    write(NIGHT, "memory", "from elsewhere")
    qtbot.waitUntil(lambda: page.fields["memory"].toPlainText() == "from elsewhere")
    qtbot.wait(WELL_AFTER)
    assert told == [1]


def test_another_program_is_seen(qtbot, page, folder, told):
    command = [sys.executable, "-c", OTHER_PROGRAM, str(folder)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout.readline() == "open\n"
        other.stdin.write("\n")
        other.stdin.flush()
        qtbot.waitUntil(lambda: page.fields["memory"].toPlainText() == "from another program")
    qtbot.wait(WELL_AFTER)
    assert told == [1]


def test_another_program_beside_an_own_line_is_seen(qtbot, page, write, told):
    write(NIGHT, "memory", "from elsewhere")
    qtbot.keyClicks(page.fields["gratitude"], "Mine.")
    page.keep()
    qtbot.waitUntil(lambda: page.fields["memory"].toPlainText() == "from elsewhere")


def test_what_was_written_before_the_first_look_is_not_missed(qtbot, frame, write):
    frame._look.stop()
    elsewhere = Elsewhere(frame.desk, frame)
    write(NIGHT, "memory", "from elsewhere")
    with qtbot.waitSignal(frame.desk.changed):
        elsewhere.look()


def test_looks_do_not_pile_up_behind_a_long_write(qtbot, frame, told):
    frame._look.stop()
    at_rest(qtbot, frame.desk)
    begun, over = Event(), Event()
    frame.desk.writer.run(lambda store, task: (begun.set(), over.wait(60)))
    assert begun.wait(60)
    for _ in range(5):
        frame._look_round()
    assert frame.desk.writer._tasks.qsize() == 1
    over.set()
    at_rest(qtbot, frame.desk)
    frame._look_round()
    assert frame._elsewhere._looking, "the next look is free again"
