"""Backups and other keepers in the settings."""

import shutil
from datetime import date

import pytest
from PySide6.QtWidgets import QLabel

from keeper.actions.backups import folders
from keeper.actions.backups.listing import listed_in
from keeper.actions.keepers import known
from keeper.window.frame.held import moving
from keeper.window.frame.held.moving import KeeperMoving
from keeper.window.settings import this_keeper
from keeper.window.settings.backups import age

DAY = date(2026, 11, 14)


@pytest.fixture
def settings(qtbot, opened, tmp_path, folder):
    """The settings page with its later boxes."""
    known.note(folder, DAY)
    known.note(tmp_path / "gone", DAY.replace(day=1))
    frame = opened()
    frame.go("settings")
    page = frame.pages["settings"]
    page.frame = frame
    qtbot.waitUntil(lambda: page.is_shown() and len(page.backups.choose) == 2)
    qtbot.waitUntil(lambda: len(page.keeper.rows) == 1)
    return page


def words(part) -> str:
    return " ".join(label.text().replace("\u200b", "") for label in part.findChildren(QLabel) if not label.isHidden())


def test_a_second_folder_is_chosen_caught_up_at_once_and_removed(qtbot, settings, store, tmp_path):
    (tmp_path / "stick").mkdir()
    box = settings.backups
    box.take("second", tmp_path / "stick")
    qtbot.waitUntil(lambda: "second" in box.drop)
    (_, second) = folders.every(store)
    qtbot.waitUntil(lambda: [one.name for one in listed_in(second.place)] == ["2026-11-14"])
    qtbot.waitUntil(lambda: "Second folder last one today" in words(box))
    assert str(second.place) in words(box) and box.drop["second"].accessibleName() == "Remove the second folder; its backups stay"
    box.drop["second"].click()
    qtbot.waitUntil(lambda: "second" not in box.drop)
    assert len(listed_in(second.place)) == 1


def test_what_cannot_be_chosen_is_told_there(qtbot, settings, folder):
    settings.backups.take("third", folder / "photos")
    qtbot.waitUntil(lambda: settings.backups.told.text().startswith("That lies in the keeper itself."))


def test_its_age_is_told(tmp_path):
    told = {days: age(folders.Folder("second", tmp_path, days != 40, date.fromordinal(DAY.toordinal() - days)), DAY) for days in (0, 1, 40, 200)}
    assert told == {0: "last one today", 1: "last one yesterday", 40: "last one 40 days ago; not connected now",
                    200: "last one on 28 April 2026"}  # fmt: skip
    assert age(folders.Folder("second", tmp_path, True, None), DAY) == "no backup yet"


def test_it_leads_to_all_backups(qtbot, settings):
    settings.backups.open.click()
    assert settings.frame.page_shown() == "backups"


def test_another_keeper_is_shown_as_gone_and_taken_off_the_list(qtbot, settings, tmp_path, folder):
    (gone,) = settings.keeper.rows
    assert "gone, or its disk is not connected" in words(gone) and not gone.open.isVisible()
    gone.forget.click()
    qtbot.waitUntil(lambda: settings.keeper.rows == [])
    assert [one.folder for one in known.every()] == [folder]


def test_another_keeper_opens_in_a_window_of_its_own(qtbot, settings, tmp_path, folder, monkeypatch, store):
    asked = []
    monkeypatch.setattr(this_keeper, "open_keeper", asked.append)
    shutil.copytree(folder, tmp_path / "gone")
    settings.keeper.ask()
    qtbot.waitUntil(lambda: settings.keeper.rows[0].open.isVisible())
    settings.keeper.rows[0].open.click()
    assert asked == [tmp_path / "gone"]


def moved(qtbot, settings, target, monkeypatch) -> KeeperMoving:
    """The keeper moved from its window, the program kept from ending."""
    ended = []
    monkeypatch.setattr(moving.QApplication, "quit", lambda: ended.append(1))
    dialog = KeeperMoving(settings.frame, target)
    dialog.show()
    dialog.go_on.click()
    assert not settings.frame.isVisible()
    dialog.ended = ended
    return dialog


def test_it_moves_and_opens_there(qtbot, settings, store, tmp_path, folder, monkeypatch):
    store.close()
    dialog = moved(qtbot, settings, tmp_path / "disk", monkeypatch)
    qtbot.waitUntil(lambda: bool(dialog.ended))
    assert settings.frame.then_open == tmp_path / "disk"
    assert (tmp_path / "disk" / "keeper.db").is_file() and not folder.exists()


def test_where_it_cannot_move_it_is_told_and_the_old_one_opens_again(qtbot, settings, tmp_path, folder, monkeypatch, store):
    # Somebody else has it open.
    assert store.row("SELECT 1") == (1,)
    dialog = moved(qtbot, settings, tmp_path / "disk", monkeypatch)
    qtbot.waitUntil(lambda: "open in another program" in dialog.told.text())
    assert not dialog.ended
    dialog.leave.click()
    assert dialog.ended and settings.frame.then_open == folder and (folder / "keeper.db").is_file()


def test_nothing_moves_when_it_is_cancelled(settings, tmp_path):
    dialog = KeeperMoving(settings.frame, tmp_path / "disk")
    dialog.show()
    dialog.leave.click()
    assert settings.frame.isVisible() and settings.frame.then_open is None and not (tmp_path / "disk").exists()
