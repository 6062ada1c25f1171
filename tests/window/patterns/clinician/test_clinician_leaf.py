"""The page for a clinician in the window: chosen by keyboard, looked at, saved."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel

from keeper.actions.clinician import chosen, making
from keeper.cautions import OF_THE_BODY
from keeper.errors import Stopped
from keeper.model import Act, Reading, Tracker
from keeper.store import trackers


@pytest.fixture
def noted(store, tonight):
    """Mood for half a year, stress for the last month only."""
    for name, many in (("mood", 180), ("stress", 30)):
        trackers.add(store, Tracker(name, name, "scale", 0.0, 10.0, "", "neither", date(2026, 1, 1)), Act("Readings"))
        nights = [tonight - timedelta(n) for n in range(many)]
        trackers.note(store, [Reading(night, name, float(night.day % 7)) for night in nights], Act("Readings"))
    return store


@pytest.fixture
def leaf(qtbot, noted, frame):
    frame.desk.go("patterns", None, "clinician")
    made = frame.pages["patterns"].others["clinician"]
    qtbot.waitUntil(lambda: bool(made.preview.pages))
    return made


def test_at_first_it_is_the_last_three_months_of_all_readings(leaf, tonight):
    assert leaf.span() == (tonight - chosen.USUAL, tonight)
    assert {name: box.isChecked() for name, box in leaf.boxes.items()} == {"mood": True, "stress": True}
    (page,) = leaf.preview.pages
    assert page.accessibleName() == "Page 1 of 1" and page.isVisible() and not leaf.preview.bar.isVisible()
    assert OF_THE_BODY in {one.text() for one in leaf.findChildren(QLabel)}


def test_another_choice_is_drawn_again(qtbot, leaf):
    (before,) = leaf.preview.pages
    leaf.boxes["stress"].setFocus()
    qtbot.keyClick(leaf.boxes["stress"], Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: not leaf.preview.under_way)
    (now,) = leaf.preview.pages
    assert now is not before and leaf.preview.chosen.reading_ids == ("mood",)
    leaf.first.setText("1 June 2026")
    leaf.last.setText("30 June 2026")
    assert list(leaf.boxes) == ["mood"], "nothing was noted of stress in June"
    leaf.last.setText("14 November 2026")
    assert not leaf.boxes["stress"].isChecked(), "what was left out stays so"


def test_tab_goes_from_the_dates_to_the_readings_and_on_to_saving(qtbot, leaf):
    leaf.last.setFocus()
    for part in (leaf.boxes["mood"], leaf.boxes["stress"], leaf.with_patterns, leaf.pdf, leaf.table):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        assert part.hasFocus()


def test_where_there_is_no_page_it_is_said_why(qtbot, leaf):
    for box in leaf.boxes.values():
        qtbot.keyClick(box, Qt.Key.Key_Space)
    assert leaf.preview.told.text() == "Choose at least one reading." and not leaf.preview.pages
    assert not leaf.pdf.isEnabled() and not leaf.table.isEnabled()
    leaf.first.setText("never")
    assert "is not a date" in leaf.dates.text() and not leaf.pdf.isEnabled()
    leaf.first.setText("15 November 2027")
    assert leaf.preview.told.text() == "The last night comes before the first."
    leaf.first.setText("1 January 2020")
    leaf.last.setText("1 February 2020")
    assert leaf.preview.told.text() == "Nothing was noted in these nights."


def test_it_is_stopped_and_asked_again(qtbot, leaf, monkeypatch):
    def waits(store, chosen, folder, tonight, progress, stopped):
        for _ in range(20_000):
            progress(0.4, "Setting the pages")
            if stopped():
                raise Stopped
        raise AssertionError("nobody stopped it")

    whole = making.proof_page
    monkeypatch.setattr(making, "proof_page", waits)
    qtbot.keyClick(leaf.with_patterns, Qt.Key.Key_Space)
    preview = leaf.preview
    qtbot.waitUntil(lambda: preview.doing.text() == "Setting the pages")
    assert preview.bar.isVisible() and preview.stop.isVisible()
    qtbot.keyClick(preview.stop, Qt.Key.Key_Space)
    assert not preview.under_way and preview.again.hasFocus()
    monkeypatch.setattr(making, "proof_page", whole)
    before = preview.pages
    qtbot.keyClick(preview.again, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: preview.pages is not before)


@pytest.mark.parametrize(("button", "ending", "begins"), [("pdf", "pdf", b"%PDF"), ("table", "csv", b"row,night,mood,stress\r\n")])
def test_saved_where_the_person_says(qtbot, leaf, monkeypatch, tmp_path, tonight, button, ending, begins):
    asked = []
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *given: asked.append(given[2]) or (str(tmp_path / "mine"), ""))
    getattr(leaf, button).setFocus()
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Space)
    target = tmp_path / f"mine.{ending}"
    qtbot.waitUntil(lambda: leaf.saved == target)
    assert target.read_bytes().startswith(begins) and leaf.told.text() == f"Saved as \u201cmine.{ending}\u201d."
    assert asked[0].endswith(f"readings-{tonight.isoformat()}.{ending}") and leaf.folder.isVisible()


def test_saving_tells_how_far_it_is_and_is_stopped(qtbot, leaf, monkeypatch, tmp_path):
    def waits(store, chosen, target, tonight, progress, stopped):
        for _ in range(20_000):
            progress(0.4, "Setting the pages")
            if stopped():
                raise Stopped
        raise AssertionError("nobody stopped it")

    monkeypatch.setattr(making, "make_page", waits)
    leaf.save(tmp_path / "mine.pdf")
    qtbot.waitUntil(lambda: leaf.told.text() == "Saving: setting the pages, 40\u00a0%.")
    assert leaf.break_off.isVisible()
    qtbot.keyClick(leaf.break_off, Qt.Key.Key_Space)
    assert leaf.told.text() == "Stopped; nothing was saved." and not leaf.break_off.isVisible() and leaf.pdf.hasFocus()
    assert leaf.saved is None and not (tmp_path / "mine.pdf").exists()


def test_what_cannot_be_saved_is_told(qtbot, leaf, tmp_path):
    leaf.save_table(tmp_path / "missing" / "mine.csv")
    qtbot.waitUntil(lambda: "cannot be put into" in leaf.told.text())
    assert leaf.saved is None and not leaf.folder.isVisible()


def test_a_new_keeper_has_nothing_to_show(qtbot, store, frame):
    frame.desk.go("patterns", None, "clinician")
    leaf = frame.pages["patterns"].others["clinician"]
    qtbot.waitUntil(lambda: leaf.preview.told.text() == "Nothing was noted in these nights.")
    assert not leaf.pdf.isEnabled()
    qtbot.keyClick(leaf, Qt.Key.Key_Escape)
    assert not leaf.isVisible()
