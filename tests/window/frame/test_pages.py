"""A page is a ``Page``; and adding one is a module and a line."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from keeper.window.desk.pages import LISTED, NIGHT, PAGES
from keeper.window.parts.page import BasicPage, Page

ROOT = Path(__file__).resolve().parents[3]

TEN_LINES = '''"""The first night of the keeper."""

from keeper.actions import reading
from keeper.window.parts.page import BasicPage
from keeper.window.parts.small import Paper, quiet_button


class BegunPage(BasicPage, Paper):
    def __init__(self, desk):
        super().__init__(desk.look)
        self.desk, self.first = desk, quiet_button("", lambda: desk.go("night", self.begun))
        self.body.addWidget(self.first)
        self.lead_with(self.first)

    def show_night(self, night):
        self.begun = reading.ends(self.desk.store)[0]
        self.first.setText(f"Begun on {self.begun}")
'''
LINE = '    Listed("begun", "Begun", "begun.page:BegunPage"),\n'

THROUGH_IT = """
import sys
from pathlib import Path
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from keeper.window.frame import opening

def until(holds):
    for _ in range(400):
        if holds():
            return
        QTest.qWait(25)
    sys.exit("it did not come")

def press(key, held=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(QApplication.focusWidget() or frame, key, held)

app = opening.application()
frame = opening.make_frame(app, Path(sys.argv[1]))
frame.show()
opening._open_page(frame, None)
frame.load_rest()
until(frame.rest_is_loaded)
until(lambda: frame.isActiveWindow() and QApplication.focusWidget())
press(Qt.Key.Key_8, Qt.KeyboardModifier.ControlModifier)
print(frame.page_shown(), "|", frame.buttons["begun"].text(), frame.buttons["begun"].toolTip(), frame.buttons["begun"].isChecked())
page = frame.pages["begun"]
print(page.first.text(), "|", page.first.hasFocus())
frame.dress_anew()
press(Qt.Key.Key_Space)
print(frame.page_shown(), frame.night, frame.keep_all())
print("keeper.window.begun.page" in {f"keeper.window.{name}" for name in __import__("keeper.window.frame.start.warming", fromlist="AHEAD").AHEAD})
frame.close()
"""


def test_every_page_of_the_list_is_a_page(frame):
    assert len(LISTED) == len(PAGES) and list(frame.buttons) == list(LISTED)
    for name in LISTED:
        frame.go(name)
        page = frame.pages[name]
        assert isinstance(page, Page) and type(page).__module__ == f"keeper.window.{LISTED[name].module}"
        assert "show_night" not in vars(BasicPage) and callable(page.show_night)
    assert not isinstance(frame.said, Page)


def test_each_page_is_told_when_another_comes_and_asked_when_the_window_closes(frame, monkeypatch):
    frame.go("month")
    heard = []
    for name, page in frame.pages.items():
        for what in ("leave", "keep"):
            monkeypatch.setattr(page, what, lambda name=name, what=what: heard.append((name, what)), raising=False)
        monkeypatch.setattr(page, "unkept", lambda name=name: {name: "typed"})
    frame.go("find")
    assert heard == [("month", "leave")]
    assert not frame.keep_all() and {("month", "keep"), (NIGHT, "keep")} <= set(heard)
    assert frame.unkept() == {NIGHT: "typed", "month": "typed"}
    monkeypatch.undo()


def test_a_stack_hands_on_what_any_of_its_pages_has(frame, monkeypatch):
    frame.go("month")
    stack, kept = frame.pages["month"], []
    stack.turn(frame.night)
    monkeypatch.setattr(stack.sheet, "keep", lambda: kept.append("sheet"))
    monkeypatch.setattr(stack.others["turn"], "keep", lambda: kept.append("turn"))
    monkeypatch.setattr(stack.sheet, "unkept", lambda: {"sheet": "typed"})
    stack.keep()
    assert kept == ["sheet", "turn"] and stack.unkept() == {"sheet": "typed"}


@pytest.fixture
def with_one_more(tmp_path) -> Path:
    """A copy of the program to which a page was added: a module, and a line in the list."""
    copy = tmp_path / "program"
    shutil.copytree(ROOT / "keeper", copy / "keeper", ignore=shutil.ignore_patterns("__pycache__", "_shipped"))
    for beside in ("resources", "demo_db"):
        (copy / beside).symlink_to(ROOT / beside)
    room = copy / "keeper" / "window" / "begun"
    room.mkdir()
    (room / "page.py").write_text(TEN_LINES, encoding="utf-8")
    listed = copy / "keeper" / "window" / "desk" / "pages.py"
    before, settings, after = listed.read_text("utf-8").partition('    Listed("settings"')
    listed.write_text(before + LINE + settings + after, encoding="utf-8")
    return copy


def test_a_page_is_added_by_a_module_and_a_line(with_one_more, folder, write, tonight):
    write(tonight.replace(day=2), "memory", "The first line of all.")
    ran = subprocess.run(
        [sys.executable, "-c", THROUGH_IT, str(folder)], capture_output=True, text=True, timeout=200, cwd=with_one_more,
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(with_one_more)},
    )  # fmt: skip
    assert ran.stdout.splitlines() == [
        "begun | Begun Ctrl+8 True", "Begun on 2026-11-02 | True", "night 2026-11-02 True", "True",
    ], ran.stderr  # fmt: skip
