"""Asking anew stops the old question; whether an answer is still to come is known."""

import re
from pathlib import Path
from threading import Event

import pytest

import keeper.window
from keeper.errors import KeeperError
from keeper.window.desk.lanes import Lane
from keeper.window.parts.errand import Errand


@pytest.fixture
def lane(qtbot, store):
    made = Lane(store.folder, "errands")
    yield made
    made.end()


def waiting(go: Event, answer: str):
    def work(store, task):
        assert go.wait(60)
        return answer

    return work


def test_only_the_latest_question_is_answered(qtbot, lane):
    go, heard = Event(), []
    errand = Errand(lane)
    errand.anew(waiting(go, "old"), heard.append)
    errand.also(waiting(go, "beside the old"), heard.append)
    errand.anew(waiting(go, "new"), heard.append)
    errand.also(waiting(go, "beside the new"), heard.append)
    assert errand.under_way
    go.set()
    qtbot.waitUntil(lambda: not errand.under_way)
    assert heard == ["new", "beside the new"]


def test_no_answer_comes_of_what_was_stopped(qtbot, lane):
    go, heard = Event(), []
    errand = Errand(lane)
    errand.anew(waiting(go, "old"), heard.append, heard.append)
    errand.stop()
    assert not errand.under_way
    go.set()
    lane.run(lambda store, task: "after it", heard.append)
    qtbot.waitUntil(lambda: bool(heard))
    assert heard == ["after it"]


@pytest.mark.parametrize("told", [True, False])
def test_a_failure_ends_it(qtbot, lane, told):
    def fail(store, task):
        raise KeeperError("The list cannot be read.")

    heard = []
    errand = Errand(lane)
    errand.anew(fail, None, heard.append if told else None)
    qtbot.waitUntil(lambda: not errand.under_way)
    assert [str(error) for error in heard] == ["The list cannot be read."] * told


def test_no_page_stops_its_questions_by_a_way_of_its_own():
    windows = Path(keeper.window.__file__).parent
    own = re.compile(r"task\.stop\(\)")
    found = {
        path.relative_to(windows).as_posix() for path in windows.rglob("*.py") if own.search(path.read_text(encoding="utf-8"))
    }
    assert found == {"parts/errand.py", "desk/lanes.py"}
