"""Work off the window's thread: what hears of it never ends there."""

import gc
import re
import threading
import weakref
from pathlib import Path

import pytest

import keeper.window
from keeper.window.desk.lanes import Lane, stopping


@pytest.fixture
def lane(folder, store):
    made = Lane(folder, "trial")
    yield made
    made.end()


class Hearing:
    """Something of the window that hears of a task, and says on which thread it ended."""

    def __init__(self, ended: list) -> None:
        weakref.finalize(self, lambda: ended.append(threading.current_thread()))

    def hear(self, _) -> None:
        pass


def test_what_hears_of_a_task_ends_on_the_windows_thread(qtbot, lane):
    ended: list[threading.Thread] = []
    for _ in range(50):
        lane.run(lambda store, task: None, Hearing(ended).hear)
    qtbot.waitUntil(lambda: len(ended) == 50)
    assert set(ended) == {threading.main_thread()}


def test_what_stops_a_task_outlives_it(qtbot, lane):
    going = threading.Event()
    task = lane.run(lambda store, task: going.wait(60))
    lane.damaged.connect(stopping(task))
    lane.damaged.emit("")
    gone = weakref.ref(task)
    assert task.stopped()
    going.set()
    assert lane.finish()
    del task
    gc.collect()
    # The connection has it: it ends with the one who tells, not on the lane's thread.
    assert gone() is not None


def test_no_signal_is_connected_to_a_tasks_own_method():
    windows = Path(keeper.window.__file__).parent
    found = [path.name for path in windows.rglob("*.py") if re.search(r"connect\((\w+\.)*task\.\w+\)", path.read_text("utf-8"))]
    assert found == []
