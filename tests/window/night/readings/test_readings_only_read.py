"""Readings typed where the keeper can only be read: never called kept, and never lost."""

from datetime import date
from pathlib import Path

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from keeper.actions.readings import changing
from keeper.store import create_store
from keeper.window.frame import opening

NIGHT = date(2026, 11, 14)


@pytest.fixture(params=["full", "closed"])
def window(request, qtbot, small_disk, clock, tmp_path, monkeypatch):
    """A window on a keeper with a reading to note, on a disk that is full or closed to writing."""
    place = small_disk.path / "keeper"
    with create_store(place) as store:
        changing.begin(store, changing.offered(NIGHT)[0])
    small_disk.fill() if request.param == "full" else small_disk.close_to_writing()
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    opening.application()
    frame = opening.make_frame(QApplication.instance(), place, clock)
    frame.show()
    opening._open_page(frame, NIGHT)
    frame.load_rest()
    qtbot.waitUntil(frame.rest_is_loaded)
    yield frame
    frame.leave()
    assert not frame.isVisible()
    frame.deleteLater()


def test_what_is_typed_is_told_to_be_unkept_and_laid_aside(qtbot, window, tmp_path):
    row, file = window.night_page.readings, tmp_path / "keeper-unkept-2026-11-14.txt"
    strip = row.strips[0]
    strip.setFocus()
    QTest.keyClicks(strip, "7")
    qtbot.waitUntil(lambda: strip.entry.failing)
    assert strip.accessibleName() == "mood 7, not kept yet"
    qtbot.waitUntil(lambda: file.exists() and file.read_text() == "2026-11-14 mood: 7\n")
    assert row.unkept() == {(NIGHT, "mood"): "7"}


def test_nothing_is_offered_that_could_not_be_begun(qtbot, window):
    assert window.night_page.readings.offer is None
