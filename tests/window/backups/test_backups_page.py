"""The page of backups: the list, one made now, a look inside, chosen nights and a whole keeper brought back."""

from datetime import date

import pytest
from kept_things import NIGHT, fill
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel

from keeper.actions import writing
from keeper.actions.backups import folders, listed, making
from keeper.store import lines, open_store
from keeper.window.backups.asking import BringBackDialog

TENTH = date(2026, 11, 10)


@pytest.fixture
def page(qtbot, store, clock, tmp_path, opened):
    """The page, on a keeper with a backup that has changed since."""
    fill(store, clock, tmp_path)
    making.back_up_now(store, making.own_place(store), clock)
    writing.write_line(store, NIGHT, "memory", "The kettle was silent.", clock)
    writing.write_line(store, TENTH, "gratitude", "", clock)
    frame = opened()
    frame.go("backups")
    made = frame.pages["backups"]
    made.frame = frame
    qtbot.waitUntil(lambda: len(made.list.rows) == 1)
    return made


def words(part) -> str:
    return " ".join(label.text() for label in part.findChildren(QLabel) if not label.isHidden())


def test_each_tells_what_it_holds(page):
    (one,) = page.list.rows
    assert one.when.text() == "14 November 2026, 22:30"
    assert one.held.text().startswith("7 nights, 8 lines, 2 photos, the last line on Sat 14 Nov 2026; ")
    assert one.look.accessibleName() == "Look inside the backup of 14 November 2026, 22:30"
    assert QApplication.focusWidget() is page.list.now


def test_one_is_made_now(qtbot, page, folder):
    page.list.now.click()
    assert page.list.stop.isVisible() and not page.list.now.isEnabled() and not page.list.rows[0].bring.isEnabled()
    qtbot.waitUntil(lambda: page.list.told.text() == "Backed up, and checked.")
    # Of one day the newest stays.
    qtbot.waitUntil(lambda: [row.backup.lines for row in page.list.rows] == [7])
    assert page.list.rows[0].bring.isEnabled() and len(listed(folder)) == 1


def test_a_whole_keeper_is_brought_back_and_the_pages_show_it(qtbot, page, folder):
    page.list.bring(page.list.rows[0].backup)
    qtbot.waitUntil(lambda: page.list.told.text().startswith("Brought back: the keeper as of 14 November 2026."))
    qtbot.waitUntil(lambda: [row.backup.kind for row in page.list.rows] == ["aside", "daily"])
    assert "kept aside when another was brought back" in page.list.rows[0].held.text()
    page.frame.go("night", NIGHT)
    fields = page.frame.pages["night"].fields
    qtbot.waitUntil(lambda: fields["memory"].toPlainText() == "The kettle sang.")
    with open_store(folder) as store:
        assert lines.one(store, TENTH, "gratitude").text.startswith("Tuned")


def test_before_that_it_asks(qtbot, page, monkeypatch):
    seen = []

    def refuse(dialog):
        seen.append(words(dialog))
        assert dialog.focusWidget() is dialog.leave
        return 0

    monkeypatch.setattr(BringBackDialog, "exec", refuse)
    page.list.rows[0].bring.click()
    assert "The keeper will hold this and nothing later." in seen[0] and not page.list._work.under_way


def test_a_look_inside_and_chosen_nights_out_of_it(qtbot, page, store):
    page.list.rows[0].look.click()
    inside = page.inside
    qtbot.waitUntil(lambda: len(inside.nights) == 7)
    assert inside.heading.text() == "Inside 14 November 2026" and inside.of_month.text() == "November 2026"
    assert "The kettle sang." in words(inside.nights[-1]) and "differs from the keeper now" in words(inside.nights[-1])
    assert not inside.bring.isEnabled()
    inside.only.click()
    qtbot.waitUntil(lambda: [one.night.date for one in inside.nights] == [TENTH, NIGHT])
    inside.nights[0].tick.click()
    assert inside.bring.text() == "Bring back 1 night"
    inside.bring.click()
    qtbot.waitUntil(lambda: inside.told.text() == "Brought back: Tuesday 10 November 2026, with 1 line.")
    qtbot.waitUntil(lambda: [one.night.date for one in inside.nights] == [NIGHT])
    assert lines.one(store, TENTH, "gratitude").text.startswith("Tuned")
    assert lines.one(store, NIGHT, "memory").text == "The kettle was silent."
    qtbot.keyClick(inside, Qt.Key.Key_Escape)
    assert page.currentWidget() is page.list


def test_it_goes_from_month_to_month(qtbot, page, store, clock, folder):
    for month in (1, 3):
        writing.write_line(store, date(2026, month, 5), "memory", f"Of month {month}.", clock)
    page.list.now.click()
    qtbot.waitUntil(lambda: [row.backup.lines for row in page.list.rows] == [9])
    page.list.rows[0].look.click()
    inside, seen = page.inside, []
    qtbot.waitUntil(lambda: bool(inside.nights))
    while True:
        seen.append(inside.of_month.text())
        if not inside.before.isEnabled():
            break
        before = inside.nights
        inside.before.click()
        qtbot.waitUntil(lambda before=before: inside.nights is not before and bool(inside.nights))
    assert seen == ["November 2026", "March 2026", "January 2026"]
    assert "Of month 1." in words(inside.nights[0])


def test_one_that_cannot_be_read_offers_nothing(qtbot, page, folder):
    (folder / "backups" / "2020-01-01").mkdir()
    (folder / "backups" / "2020-01-01" / "keeper.db").write_bytes(b"none")
    page.list.ask()
    qtbot.waitUntil(lambda: len(page.list.rows) == 2)
    last = page.list.rows[1]
    assert last.held.text() == "It cannot be read." and not last.look.isVisible() and not last.bring.isVisible()


def test_those_of_another_folder_are_shown_when_chosen(qtbot, page, store, clock, tmp_path):
    (tmp_path / "stick").mkdir()
    place = folders.choose(store, "second", tmp_path / "stick")
    making.back_up_if_due(store, place, clock)
    page.list.ask()
    qtbot.waitUntil(page.list.where.isVisible)
    page.list.where.setCurrentIndex(1)
    page.list.where.activated.emit(1)
    qtbot.waitUntil(lambda: [row.backup.place for row in page.list.rows] == [place])


def test_without_any_it_says_so(qtbot, frame):
    frame.go("backups")
    page = frame.pages["backups"]
    qtbot.waitUntil(lambda: "None yet." in words(page))


def test_every_control_has_a_name(qtbot, page):
    page.list.rows[0].look.click()
    qtbot.waitUntil(lambda: len(page.inside.nights) == 7)
    unnamed = [button for button in page.findChildren(QAbstractButton) if not (button.accessibleName() or button.text())]
    assert unnamed == []
