"""What is done while nobody types."""

import ast
import os
import subprocess
import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from theme_keeper import fill

from keeper.actions.themes import asking as themes
from keeper.window.frame import quiet as made
from keeper.window.themes.work import ThemeWork


@pytest.fixture
def quick(monkeypatch):
    """Quiet is quickly enough."""
    for name, value in {"WARM_EVERY": 0, "WARM_AFTER": 0, "THEMES_AFTER": 300, "THEMES_EVERY": 50}.items():
        monkeypatch.setattr(made, name, value)


def test_a_module_comes_after_what_it_needs():
    order = list(made._leaves_first(["keeper.window.month.page"], set()))
    assert order[-1] == "keeper.window.month.page" and len(order) == len(set(order)) > 20
    assert order.index("keeper.model") < order.index("keeper.actions.months.shown") < order.index("keeper.window.month.sheet")


def test_what_a_module_needs_is_what_its_text_says():
    for path in sorted((made._ROOT / "keeper").rglob("*.py")):
        said = set()
        for node in ast.parse(path.read_bytes()).body:
            if isinstance(node, ast.ImportFrom):
                said |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
            elif isinstance(node, ast.Import):
                said |= {alias.name for alias in node.names}
        assert set(made._needed(path)) == {name for name in said if name.startswith("keeper")}, path


def test_every_page_that_is_brought_in_is_there():
    folder = made._ROOT / "keeper" / "window"
    assert [page for page in made.AHEAD if not folder.joinpath(*page.split(".")).with_suffix(".py").is_file()] == []


def test_all_pages_are_brought_in_and_nothing_heavy(folder, store):
    script = (
        "import sys; from pathlib import Path; from PySide6.QtTest import QTest; from keeper.window.frame import opening, quiet;"
        "quiet.WARM_EVERY = quiet.WARM_AFTER = 0; app = opening.application();"
        f"frame = opening.make_frame(app, Path({str(folder)!r})); frame.show(); frame.load_rest();"
        "[app.processEvents() for _ in iter(frame.rest_is_loaded, True)];"
        "warming = frame.findChild(quiet.Warming);"
        "before = 'keeper.window.year.page' in sys.modules;"
        "[QTest.qWait(20) for _ in range(500) if warming._timer.isActive()];"
        "heavy = {'numpy', 'scipy', 'sklearn'} & set(sys.modules);"
        "print(before, [p for p in quiet.AHEAD if f'keeper.window.{p}' not in sys.modules], heavy); frame.close()"
    )
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, env=env)
    assert done.stdout == "False [] set()\n", done.stderr


def test_a_key_or_a_click_ends_the_quiet(qtbot, frame):
    quiet = frame.findChild(made.Quiet)
    for act in (
        lambda: QTest.keyClick(frame.windowHandle(), Qt.Key.Key_A),
        lambda: QTest.mouseClick(frame.windowHandle(), Qt.MouseButton.LeftButton),
    ):
        qtbot.waitUntil(lambda: quiet.lasts(800))
        act()
        assert not quiet.lasts(800)


def test_themes_are_looked_for_by_themselves_when_due(qtbot, quick, store, opened):
    fill(store, 160)
    frame = opened()
    qtbot.waitUntil(lambda: len(themes.names(store)) >= 4, timeout=30_000)
    qtbot.waitUntil(lambda: not ThemeWork.of(frame.desk).running)
    assert "themes" not in frame.pages and not frame.said.isVisible()


def test_what_is_done_unasked_fails_without_a_word(qtbot, quick, store, opened, monkeypatch):
    fill(store, 160)
    tried = []

    def fail(*_):
        tried.append(1)
        raise themes.UnknownThing("It could not be done.")

    monkeypatch.setattr(themes, "look_apart", fail)
    frame = opened()
    qtbot.waitUntil(lambda: bool(tried), timeout=10_000)
    qtbot.wait(300)
    assert len(tried) == 1 and not frame.said.isVisible() and not ThemeWork.of(frame.desk).running
