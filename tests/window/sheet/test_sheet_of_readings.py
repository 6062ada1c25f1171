"""Readings on the sheet, filled in with the keys."""

from datetime import date
from itertools import product

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QApplication
from waiting.at_rest import at_rest

from keeper.actions import drafts
from keeper.actions.sheet import columns, filling
from keeper.errors import CannotWrite
from keeper.model import KINDS, Reading, Tracker
from keeper.store import trackers

OCTOBER = date(2026, 10, 1)
Keys = Qt.Key


def tracker(name, form="scale", began=date(2026, 1, 1), ended=None, **told):
    ends = (0.0, 10.0) if form == "scale" else (None, None)
    return Tracker(name, name, form, *ends, told.get("unit", ""), "neither", began, ended)


@pytest.fixture
def known(store, write):
    for one in (tracker("mood"), tracker("sleep", "hours"), tracker("swam", "mark"), tracker("cups", "count"),
                tracker("waking", "amount", date(2026, 10, 5), date(2026, 10, 20), unit="\u00b0C")):  # fmt: skip
        trackers.add(store, one)
    write(date(2026, 10, 2), "memory", "words")
    return store


@pytest.fixture
def sheet(qtbot, known, frame):
    return open_sheet(qtbot, frame)


def open_sheet(qtbot, frame, month=OCTOBER):
    frame.go("sheet", month)
    page = frame.pages["sheet"]
    qtbot.waitUntil(lambda: page.model.sheet is not None and page.model.sheet.first == month)
    return page


def key(name):
    return name if name == "place" else f"line:{name}" if name in KINDS else f"reading:{name}"


def at(page, day, name):
    return page.model.place((page.month.replace(day=day), key(name)))


def go(page, day, name):
    page.grid.setFocus()
    page.grid.setCurrentIndex(at(page, day, name))


def here(page):
    night, name = page.model.cell(page.grid.currentIndex())
    return night.day, name.partition(":")[2] or name


def typed(qtbot, keys):
    for key in keys:
        qtbot.keyClick(QApplication.focusWidget(), key)


def noted(store, month=OCTOBER):
    return {(one.night.day, one.tracker_id): one.value for one in trackers.readings(store, month, month.replace(day=28))}


def settled(qtbot, frame, page):
    at_rest(qtbot, frame.desk)


def test_digits_and_enter_go_down_the_column(qtbot, frame, sheet, known):
    go(sheet, 1, "mood")
    typed(qtbot, ["7", Keys.Key_Return, "1", "0", Keys.Key_Return, Keys.Key_Return, "0", Keys.Key_Down])
    settled(qtbot, frame, sheet)
    assert noted(known) == {(1, "mood"): 7.0, (2, "mood"): 10.0, (4, "mood"): 0.0} and here(sheet) == (5, "mood")


def test_tab_goes_across_and_on_to_the_next_night(qtbot, frame, sheet, known):
    go(sheet, 6, "mood")
    typed(qtbot, ["6", Keys.Key_Tab, "7", ":", "3", "0", Keys.Key_Tab, Keys.Key_Space, Keys.Key_Tab, "2", Keys.Key_Tab,
                  "3", "6", ".", "6", Keys.Key_Tab])  # fmt: skip
    settled(qtbot, frame, sheet)
    assert noted(known) == {(6, "mood"): 6.0, (6, "sleep"): 7.5, (6, "swam"): 1.0, (6, "cups"): 2.0, (6, "waking"): 36.6}
    assert here(sheet) == (7, "gratitude")


def test_tab_leaves_the_grid_at_its_last_cell(qtbot, sheet):
    go(sheet, 31, "waking")
    qtbot.keyClick(sheet.grid, Keys.Key_Tab)
    assert not sheet.grid.hasFocus() and not sheet.grid.editing.edit.hasFocus()
    go(sheet, 1, "gratitude")
    qtbot.keyClick(sheet.grid, Keys.Key_Backtab)
    assert not sheet.grid.hasFocus()


def test_space_turns_a_mark_and_delete_takes_back(qtbot, frame, sheet, known):
    go(sheet, 3, "swam")
    typed(qtbot, [Keys.Key_Space])
    assert sheet.model.text(at(sheet, 3, "swam")) == "yes"
    typed(qtbot, [Keys.Key_Space])
    settled(qtbot, frame, sheet)
    assert noted(known) == {(3, "swam"): 0.0}
    typed(qtbot, [Keys.Key_Delete])
    settled(qtbot, frame, sheet)
    assert noted(known) == {}


def test_not_noted_nought_and_no_are_told_apart(qtbot, frame, sheet, known):
    trackers.note(known, [Reading(date(2026, 10, 3), "mood", 0.0), Reading(date(2026, 10, 4), "swam", 0.0)])
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: sheet.model.text(at(sheet, 4, "swam")) == "no")
    told = [sheet.model.told(at(sheet, day, name)) for day, name in ((3, "mood"), (5, "mood"), (4, "swam"), (3, "swam"), (9, "swam"))]
    assert told == ["Sat 3 Oct \u00b7 mood 0", "Mon 5 Oct \u00b7 mood, not noted", "Sun 4 Oct \u00b7 swam no",
                    "Sat 3 Oct \u00b7 swam no, left empty", "Fri 9 Oct \u00b7 swam, not noted"]  # fmt: skip
    pictures = {picture(sheet, day, name) for day, name in ((3, "mood"), (5, "mood"), (4, "swam"), (9, "swam"))}
    assert len(pictures) == 3 and picture(sheet, 5, "mood") == picture(sheet, 9, "swam") != picture(sheet, 3, "mood")


def picture(page, day, name) -> bytes:
    page.grid.clearFocus()
    page.grid.scrollTo(at(page, day, name))
    image = page.grid.viewport().grab(page.grid.visualRect(at(page, day, name))).toImage()
    return bytes(image.constBits())


def test_before_its_beginning_and_after_its_end_nothing_can_be_noted(qtbot, frame, sheet, known):
    for day in (4, 21):
        go(sheet, day, "waking")
        typed(qtbot, ["3", "6"])
        assert not sheet.grid.editing.under_way and not sheet.model.open(at(sheet, day, "waking"))
    assert "begins on 5 Oct 2026" in sheet.model.told(at(sheet, 4, "waking"))
    assert "has ended" in sheet.model.told(at(sheet, 21, "waking"))
    assert noted(known) == {}


def test_nights_to_come_cannot_be_filled_in(qtbot, frame, known):
    page = open_sheet(qtbot, frame, date(2026, 11, 1))
    assert page.model.open(at(page, 14, "mood")) and not page.model.open(at(page, 15, "mood"))


def test_a_wrong_text_stays_and_is_said_beside_its_cell(qtbot, frame, sheet, known):
    go(sheet, 6, "mood")
    typed(qtbot, ["1", "1", Keys.Key_Return])
    settled(qtbot, frame, sheet)
    qtbot.waitUntil(sheet.note.isVisible)
    cell = sheet.grid.visualRect(at(sheet, 6, "mood"))
    assert sheet.model.text(at(sheet, 6, "mood")) == "11" and "0 to 10" in sheet.note.text()
    assert not sheet.note.geometry().intersects(sheet.grid.visualRect(sheet.grid.currentIndex()))
    beside = sheet.note.x() >= cell.right() or sheet.note.geometry().right() <= cell.left()
    assert abs(sheet.note.y() - cell.y()) < 4 * cell.height() and beside
    typed(qtbot, ["5", Keys.Key_Return])
    settled(qtbot, frame, sheet)
    assert sheet.note.isVisible() and noted(known) == {(7, "mood"): 5.0}
    go(sheet, 6, "mood")
    typed(qtbot, ["8", Keys.Key_Return])
    settled(qtbot, frame, sheet)
    qtbot.waitUntil(lambda: not sheet.note.isVisible())
    assert noted(known) == {(6, "mood"): 8.0, (7, "mood"): 5.0}
    assert drafts.waiting(known, "reading", "2026-10-06 mood") is None


def test_what_is_said_never_lies_over_the_cell_one_types_in(qtbot, frame, sheet):
    go(sheet, 6, "mood")
    typed(qtbot, ["1", "1", Keys.Key_Tab])
    settled(qtbot, frame, sheet)
    qtbot.waitUntil(sheet.note.isVisible)
    assert here(sheet) == (6, "sleep")
    assert not sheet.note.geometry().intersects(sheet.grid.visualRect(sheet.grid.currentIndex()))


def test_a_wrong_text_is_there_after_the_program_was_closed(qtbot, frame, opened, sheet, known):
    go(sheet, 6, "mood")
    typed(qtbot, ["1", "1", Keys.Key_Return])
    settled(qtbot, frame, sheet)
    qtbot.waitUntil(lambda: drafts.waiting(known, "reading", "2026-10-06 mood") == "11")
    frame.leave()
    other = opened()
    page = open_sheet(qtbot, other)
    assert page.model.text(at(page, 6, "mood")) == "11" and (date(2026, 10, 6), "reading:mood") in page.model.wrong
    qtbot.waitUntil(page.note.isVisible)
    go(page, 6, "mood")
    typed(qtbot, [Keys.Key_Delete])
    settled(qtbot, other, page)
    qtbot.waitUntil(lambda: drafts.waiting(known, "reading", "2026-10-06 mood") is None)
    assert not page.model.wrong and page.model.text(at(page, 6, "mood")) == ""


def test_what_cannot_be_kept_is_put_by_and_said(qtbot, frame, sheet, known, monkeypatch):
    def full(*_):
        raise CannotWrite("The disk is full.")

    monkeypatch.setattr(filling, "fill_in", full)
    go(sheet, 6, "mood")
    typed(qtbot, ["4", Keys.Key_Return])
    settled(qtbot, frame, sheet)
    qtbot.waitUntil(lambda: drafts.waiting(known, "reading", "2026-10-06 mood") == "4")
    assert sheet.model.text(at(sheet, 6, "mood")) == "4" and frame.said.text() == "The disk is full."
    monkeypatch.undo()
    go(sheet, 6, "mood")
    typed(qtbot, [Keys.Key_F2, Keys.Key_Return])
    settled(qtbot, frame, sheet)
    assert noted(known) == {(6, "mood"): 4.0}


def test_what_is_being_typed_is_on_disk_before_the_cell_is_left(qtbot, sheet, known):
    go(sheet, 6, "mood")
    typed(qtbot, ["7"])
    qtbot.waitUntil(lambda: drafts.waiting(known, "reading", "2026-10-06 mood") == "7")
    assert noted(known) == {}


def test_closing_keeps_the_cell_one_types_in(qtbot, frame, sheet, known):
    go(sheet, 6, "mood")
    typed(qtbot, ["7"])
    frame.leave()
    assert noted(known) == {(6, "mood"): 7.0}


def test_escape_gives_up_what_is_typed(qtbot, frame, sheet, known):
    trackers.note(known, [Reading(date(2026, 10, 6), "mood", 3.0)])
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: sheet.model.text(at(sheet, 6, "mood")) == "3")
    go(sheet, 6, "mood")
    typed(qtbot, ["9", Keys.Key_Escape])
    settled(qtbot, frame, sheet)
    assert noted(known) == {(6, "mood"): 3.0} and sheet.grid.hasFocus() and here(sheet) == (6, "mood")


def test_what_another_wrote_comes_in_and_what_is_typed_stays(qtbot, frame, sheet, known):
    go(sheet, 6, "mood")
    typed(qtbot, ["9"])
    trackers.note(known, [Reading(date(2026, 10, 6), "sleep", 7.5), Reading(date(2026, 10, 6), "mood", 1.0)])
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: sheet.model.text(at(sheet, 6, "sleep")) == "7:30")
    assert sheet.grid.editing.edit.text() == "9"


def test_hours_as_two_times_come_back_as_they_were_typed(qtbot, frame, sheet, known):
    go(sheet, 6, "sleep")
    typed(qtbot, [*"23:30-6:45", Keys.Key_Return])
    settled(qtbot, frame, sheet)
    qtbot.waitUntil(lambda: sheet.model.text(at(sheet, 6, "sleep")) == "23:30-06:45")
    assert noted(known) == {(6, "sleep"): 7.25}


def test_a_screen_reader_hears_names_and_nights(sheet):
    assert QAccessible.queryAccessibleInterface(sheet.grid).text(QAccessible.Text.Name).startswith("The sheet")
    assert sheet.model.data(at(sheet, 6, "mood"), Qt.ItemDataRole.AccessibleTextRole) == "Tue 6 Oct \u00b7 mood, not noted"
    assert sheet.model.headerData(5, Qt.Orientation.Vertical, Qt.ItemDataRole.AccessibleTextRole) == "Tuesday 6 October 2026"
    assert sheet.head.told.text().endswith("nothing written")


def test_the_mouse_types_too(qtbot, frame, sheet, known):
    for name in ("swam", "mood"):
        spot = sheet.grid.visualRect(at(sheet, 6, name)).center()
        qtbot.mouseDClick(sheet.grid.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(spot))
    assert sheet.grid.editing.under_way
    typed(qtbot, ["2", Keys.Key_Return])
    settled(qtbot, frame, sheet)
    assert noted(known) == {(6, "swam"): 1.0, (6, "mood"): 2.0}


def test_months_are_turned_and_the_month_is_found_again(qtbot, frame, sheet):
    sheet.head.before.click()
    qtbot.waitUntil(lambda: sheet.model.sheet.first == date(2026, 9, 1))
    go(sheet, 12, "mood")
    sheet.head.back.click()
    assert frame.page_shown() == "month" and frame.night == date(2026, 9, 12)


@pytest.fixture
def drawn(qtbot, sheet, monkeypatch):
    """The cells that were drawn since they were asked for last, once the sheet is at rest; all columns are in sight."""
    sheet.desk.change_setting(columns.SETTING, columns.as_setting(["line:memory", "place", "reading:mood", "reading:sleep", "reading:swam"]))
    sheet.ask()
    qtbot.waitUntil(lambda: sheet.model.columnCount() == 5)
    found, right = [], sheet.grid.painter_of_cells.paint

    def paint(painter, rows, columns, picked, current):
        for row, column in product(rows, columns):
            night, key = sheet.model.cell(sheet.model.index(row.number, column.number))
            found.append((night.day, key))
        right(painter, rows, columns, picked, current)

    monkeypatch.setattr(sheet.grid.painter_of_cells, "paint", paint)

    def since() -> set:
        at_rest(qtbot, sheet.desk)
        QApplication.processEvents()
        some = set(found)
        found.clear()
        return some

    return since


def test_only_what_changed_is_drawn(qtbot, sheet, drawn):
    go(sheet, 4, "mood")
    drawn()
    sheet.grid.viewport().update()
    every = drawn()
    assert len(every) > 60
    # A letter opens the cell and is typed over it; the next goes into what lies over it.
    typed(qtbot, "7")
    assert len(drawn()) <= 4
    # The cell itself, the one it goes on to, and the mark of a night of which something is kept now.
    typed(qtbot, [Keys.Key_Tab])
    after = drawn()
    assert (4, "reading:mood") in after and len(after) <= 8, after
    # Up and down.
    typed(qtbot, [Keys.Key_Down])
    assert len(drawn()) <= 6
