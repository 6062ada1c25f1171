"""What is done while nobody types."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from theme_keeper import fill
from waiting.not_apart import here

from keeper.actions.themes import asking as themes
from keeper.window.frame import quiet as made
from keeper.window.frame.damage import soundness
from keeper.window.frame.start import warming
from keeper.window.themes.work import ThemeWork


@pytest.fixture
def quick(monkeypatch):
    """Quiet is quickly enough."""
    for name, value in {"THEMES_AFTER": 300, "THEMES_EVERY": 50}.items():
        monkeypatch.setattr(made, name, value)
    for name in ("WARM_EVERY", "WARM_AFTER"):
        monkeypatch.setattr(warming, name, 0)


def test_a_key_or_a_click_ends_the_quiet(qtbot, frame):
    quiet = frame.findChild(made.Quiet)
    for act in (
        lambda: QTest.keyClick(frame.windowHandle(), Qt.Key.Key_A),
        lambda: QTest.mouseClick(frame.windowHandle(), Qt.MouseButton.LeftButton),
    ):
        quiet._at -= 3600
        assert quiet.lasts(3_600_000)
        act()
        assert not quiet.lasts(3_600_000)


def test_themes_are_looked_for_by_themselves_when_due(qtbot, quick, store, opened, monkeypatch):
    monkeypatch.setattr("keeper.actions.themes.looking.apart", here)
    fill(store, 160)
    frame = opened()
    qtbot.waitUntil(lambda: len(themes.names(store)) >= 4)
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
    qtbot.waitUntil(lambda: bool(tried))
    qtbot.wait(300)
    assert len(tried) == 1 and not frame.said.isVisible() and not ThemeWork.of(frame.desk).running


def test_a_page_gone_to_ends_the_quiet(qtbot, frame):
    quiet = frame.findChild(made.Quiet)
    quiet._at -= 3600
    assert quiet.lasts(3_600_000)
    frame.go("find")
    assert not quiet.lasts(3_600_000)


def test_the_file_is_not_looked_over_while_a_page_is_visited_but_in_time(qtbot, monkeypatch, opened):
    looked, asked, idle = [], [], made.Quiet.idle
    # Looked for often; quiet that lasts an hour is enough, and an hour passes by the clock.
    monkeypatch.setattr(soundness, "LOOK_AFTER", 50)
    monkeypatch.setattr(soundness.checking, "look_over", lambda *_: looked.append(1) or "")
    monkeypatch.setattr(made.Quiet, "idle", lambda quiet, long: asked.append(long) or idle(quiet, 3_600_000))
    frame = opened()
    for page in ("find", "year", "find", "year"):
        frame.findChild(made.Quiet)._at -= 3600
        frame.go(page)
        asked.clear()
        qtbot.waitUntil(lambda: 50 in asked)
    assert looked == []
    frame.findChild(made.Quiet)._at -= 3600
    qtbot.waitUntil(lambda: looked == [1])
    qtbot.wait(300)
    assert looked == [1]


def test_the_file_is_looked_over_at_last_however_busy_somebody_is(qtbot, monkeypatch, opened):
    looked = []
    monkeypatch.setattr(soundness, "LOOK_AFTER", 300)
    monkeypatch.setattr(soundness, "LOOK_BY", 0)
    monkeypatch.setattr(soundness.checking, "look_over", lambda *_: looked.append(1) or "")
    frame = opened()
    for _ in range(4):
        frame.go("find")
        frame.go("year")
        qtbot.wait(100)
    qtbot.waitUntil(lambda: looked == [1])
