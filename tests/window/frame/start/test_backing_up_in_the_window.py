"""Backups are made while nobody types, give way to whoever does, and go on on later days."""

import time
from dataclasses import replace
from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from keeper.actions.backups import listed
from keeper.actions.backups.folders import back_up_everywhere, choose
from keeper.errors import Stopped
from keeper.window.frame.quiet import Quiet
from keeper.window.frame.start import backing_up


@pytest.fixture
def quick(monkeypatch):
    """Quiet is quickly enough."""
    for name, value in {"BACK_UP_AFTER": 300, "LOOK_EVERY": 50, "AGAIN_AFTER": 100}.items():
        monkeypatch.setattr(backing_up, name, value)


HOUR = 3600


def an_hour_passes(frame) -> None:
    """As if the computer had slept so long."""
    frame.findChild(Quiet)._at -= HOUR


def days(folder) -> list[str]:
    return [one.name for one in listed(folder)]


def test_it_is_made_once_it_is_quiet_and_nothing_is_said(qtbot, quick, opened, folder, write, tonight):
    write(tonight, "memory", "The kettle sang.")
    frame = opened()
    qtbot.waitUntil(lambda: days(folder) == ["2026-11-14"])
    qtbot.wait(400)
    assert days(folder) == ["2026-11-14"] and not frame.said.isVisible()


def test_it_goes_on_while_the_window_stays_open(qtbot, quick, opened, folder, write, tonight):
    write(tonight, "memory", "The kettle sang.")
    frame = opened()
    qtbot.waitUntil(lambda: days(folder) == ["2026-11-14"])
    frame.desk.clock = replace(frame.desk.clock, at=frame.desk.clock.at + timedelta(days=1))
    write(tonight, "gratitude", "Bread.")
    qtbot.waitUntil(lambda: days(folder) == ["2026-11-15", "2026-11-14"])


def test_while_somebody_types_none_is_begun_and_one_under_way_is_broken_off(qtbot, quick, opened, folder, monkeypatch):
    begun, broken_off = [], []

    def takes_long(store, clock, stopped):
        begun.append(1)
        while not stopped():
            time.sleep(0.01)
        broken_off.append(1)
        raise Stopped

    monkeypatch.setattr("keeper.actions.backups.folders.back_up_everywhere", takes_long)
    monkeypatch.setattr(backing_up, "BACK_UP_AFTER", HOUR * 1000)
    frame, looks, lasts = opened(), [], Quiet.lasts
    monkeypatch.setattr(Quiet, "lasts", lambda quiet, long: looks.append(long) or lasts(quiet, long))
    for _ in range(3):
        an_hour_passes(frame)
        QTest.keyClick(frame.windowHandle(), Qt.Key.Key_A)
        looks.clear()
        qtbot.waitUntil(lambda: HOUR * 1000 in looks)
    assert not begun
    an_hour_passes(frame)
    qtbot.waitUntil(lambda: len(begun) == 1)
    QTest.keyClick(frame.windowHandle(), Qt.Key.Key_A)
    qtbot.waitUntil(lambda: len(broken_off) == 1)
    monkeypatch.setattr("keeper.actions.backups.folders.back_up_everywhere", back_up_everywhere)
    an_hour_passes(frame)
    qtbot.waitUntil(lambda: days(folder) == ["2026-11-14"])


def test_a_disk_that_is_there_again_is_caught_up(qtbot, quick, opened, store, folder, tmp_path):
    (tmp_path / "stick").mkdir()
    place = choose(store, "second", tmp_path / "stick")
    (tmp_path / "stick").rename(tmp_path / "away")
    opened()
    qtbot.waitUntil(lambda: days(folder) == ["2026-11-14"])
    (tmp_path / "away").rename(tmp_path / "stick")
    qtbot.waitUntil(lambda: (place / "2026-11-14").is_dir())


def test_one_that_fails_is_told_once(qtbot, quick, opened, store, folder):
    (folder / "backups").rmdir()
    (folder / "backups").write_text("a file, not a folder")
    frame, said = opened(rest=False), []
    frame.desk.said.connect(said.append)
    frame.load_rest()
    qtbot.waitUntil(lambda: len(said) == 1)
    qtbot.wait(900)
    assert len(said) == 1 and "was not made" in said[0]
