"""The page of giving: what is wanted, given to a folder, an archive looked into and taken in."""

import pytest
from kept_things import NIGHT, fill
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel

from keeper.actions import writing
from keeper.actions.giving import taking
from keeper.actions.giving.making import give
from keeper.actions.giving.wanted import ToGive
from keeper.errors import CannotWrite
from keeper.store import lines, open_store


@pytest.fixture
def page(qtbot, store, clock, tmp_path, opened):
    fill(store, clock, tmp_path)
    frame = opened()
    frame.go("giving")
    made = frame.pages["giving"]
    made.frame = frame
    return made


@pytest.fixture
def archive(store, clock, tmp_path):
    """An archive of the keeper, which says something else since."""
    fill(store, clock, tmp_path)
    give(store, tmp_path / "archive", ToGive(), clock)
    writing.write_line(store, NIGHT, "memory", "The kettle was silent.", clock)
    writing.write_line(store, NIGHT, "reflection", "Once more.", clock)
    return tmp_path / "archive"


def words(part) -> str:
    return " ".join(label.text() for label in part.findChildren(QLabel) if not label.isHidden())


def test_everything_is_given_to_a_folder_and_told(qtbot, page, tmp_path, monkeypatch):
    leaf = page.give
    assert QApplication.focusWidget() is leaf.go
    (tmp_path / "stick").mkdir()
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(tmp_path / "stick"))
    leaf.go.click()
    assert leaf.stop.isVisible() and not leaf.go.isEnabled() and not leaf.open_folder.isVisible()
    qtbot.waitUntil(lambda: leaf.told.text().startswith("Given: 7 nights, 8 lines, 2 photos, in "))
    assert (tmp_path / "stick" / "keeper 2026-11-14" / "bagit.txt").is_file()
    assert leaf.open_folder.isVisible() and leaf.go.isEnabled() and QApplication.focusWidget() is leaf.go
    leaf.go.click()
    qtbot.waitUntil(lambda: (tmp_path / "stick" / "keeper 2026-11-14 (2)").is_dir())


def test_everything_is_given_in_one_file_and_looked_into_again(qtbot, page, tmp_path, monkeypatch):
    leaf = page.give
    (tmp_path / "stick").mkdir()
    leaf.one_file.click()
    leaf.give_to(tmp_path / "stick", ToGive())
    qtbot.waitUntil(lambda: leaf.told.text().startswith("Given: 7 nights"))
    file = tmp_path / "stick" / "keeper 2026-11-14.zip"
    assert [one.name for one in (tmp_path / "stick").iterdir()] == [file.name] and file.name in leaf.told.text()
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(file), ""))
    leaf.take_file.click()
    qtbot.waitUntil(lambda: "All that is in it is here already." in words(page.receive))


def test_what_is_held_back_is_told_before(page):
    leaf = page.give
    assert not leaf.held.isVisible()
    leaf.positions.click()
    assert "The database is left out" in leaf.held.text() and "Stays and journeys are left out" in leaf.held.text()
    leaf.first.setText("2026")
    assert leaf.held.text().startswith("From 2026.")
    assert leaf.wanted().first.isoformat() == "2026-01-01" and not leaf.wanted().positions
    leaf.parts.boxes["database"].click()
    assert "database" not in leaf.wanted().parts and "The database" not in leaf.held.text()
    leaf.first.setText("soon or late")
    leaf.go.click()
    assert "soon or late" in leaf.told.text()


def test_a_folder_that_takes_nothing_is_told(qtbot, page, tmp_path, monkeypatch):
    def full(*_, **__):
        raise CannotWrite("The archive in /media/stick was not written: its disk is full. Free some space there.")

    monkeypatch.setattr("keeper.window.giving.give.give", full)
    page.give.give_to(tmp_path, ToGive())
    qtbot.waitUntil(lambda: "its disk is full" in page.give.told.text())
    assert page.give.go.isEnabled() and not page.give.stop.isVisible() and not page.give.open_folder.isVisible()


def test_stopped_nothing_is_left(qtbot, page, tmp_path):
    (tmp_path / "stick").mkdir()
    page.give.give_to(tmp_path / "stick", ToGive())
    qtbot.waitUntil(lambda: page.give._work.under_way)
    page.give.stop.click()
    assert page.give.told.text() == "Stopped. Nothing was given."
    assert page.frame.desk.worker.finish()
    assert list((tmp_path / "stick").iterdir()) == []


def test_an_archive_is_looked_into_and_taken_in(qtbot, archive, opened, folder):
    frame = opened()
    frame.go("giving")
    page = frame.pages["giving"]
    page.look_into(archive)
    leaf = page.receive
    qtbot.waitUntil(lambda: len(leaf.rows) == 1)
    assert leaf.told.text() == "Nothing in it is new. 1 thing differs."
    (one,) = leaf.rows
    assert "Saturday 14 November 2026, Memory" in words(one) and one.tick.accessibleName().startswith("Let the archive")
    one.tick.click()
    leaf.take.click()
    qtbot.waitUntil(lambda: leaf.told.text().startswith("Taken in"))
    with open_store(folder) as store:
        assert lines.one(store, NIGHT, "memory").text == "The kettle sang."
        assert lines.one(store, NIGHT, "reflection").text == "Once more."
    qtbot.keyClick(leaf, Qt.Key.Key_Escape)
    assert page.currentWidget() is page.give


def test_what_is_no_archive_is_told(qtbot, page, tmp_path):
    page.look_into(tmp_path)
    qtbot.waitUntil(lambda: page.receive.told.text().startswith("This folder is not a whole archive"))
    assert not page.receive.take.isVisible() and not page.receive.stop.isVisible()


def test_stopped_while_it_comes_the_keeper_is_as_it_was(qtbot, store, clock, tmp_path, opened, folder, monkeypatch):
    fill(store, clock, tmp_path)
    give(store, tmp_path / "archive", ToGive(), clock)
    monkeypatch.setattr(taking, "_AT_A_TIME", 2)
    frame = opened()
    frame.go("giving")
    page = frame.pages["giving"]
    with open_store(folder) as other:
        writing.write_line(other, NIGHT, "memory", "The kettle was silent.", clock)
    page.look_into(tmp_path / "archive")
    leaf = page.receive
    qtbot.waitUntil(lambda: leaf.take.isVisible())
    leaf.take.click()
    qtbot.waitUntil(lambda: leaf.under_way or leaf.told.text().startswith("Taken in"))
    leaf.stop.click()
    qtbot.waitUntil(lambda: leaf.told.text().startswith(("Stopped.", "Taken in")))
    assert lines.one(store, NIGHT, "memory").text == "The kettle was silent."


def test_what_differs_and_is_no_line_is_seen_later_too(qtbot, archive, store, clock, opened):
    writing.set_place(store, NIGHT, "Cuxhaven", clock)
    taking.take(store, archive, clock)
    frame = opened()
    frame.go("giving")
    page = frame.pages["giving"]
    page.give.beside.click()
    qtbot.waitUntil(lambda: page.beside is not None and len(page.beside.rows) == 1)
    assert "Saturday 14 November 2026, Place" in words(page.beside) and "In the archive" in words(page.beside)
    assert not page.beside.rows[0].tick.isVisible()
    page.beside.back.click()
    assert page.currentWidget() is page.give
