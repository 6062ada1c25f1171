"""A month typed up from paper: lines, places and readings, pasted, filled down, taken back; nothing typed is lost."""

from datetime import date, timedelta
from pathlib import Path

import on_paper.typing_sheet
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from waiting.at_rest import at_rest
from window_kills import kill_windows

from keeper.actions import drafts, reading
from keeper.actions.history import lately
from keeper.actions.sheet import columns, filling
from keeper.errors import CannotWrite
from keeper.model import Draft, Tracker
from keeper.store import create_store, lines, nights, trackers

MAY, LAST = date(2026, 5, 1), date(2026, 5, 31)
Keys = Qt.Key
CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
NOTEBOOK = ("line:memory", "place", "reading:mood", "reading:sleep", "reading:cups")


@pytest.fixture
def known(store):
    for name, form in (("mood", "scale"), ("sleep", "hours"), ("cups", "count")):
        ends = (0.0, 10.0) if form == "scale" else (None, None)
        trackers.add(store, Tracker(name, name, form, *ends, "", "neither", date(2026, 1, 1)))
    return store


@pytest.fixture
def sheet(qtbot, known, frame):
    frame.desk.change_setting(columns.SETTING, columns.as_setting(NOTEBOOK))
    frame.go("sheet", MAY)
    page = frame.pages["sheet"]
    qtbot.waitUntil(lambda: page.model.sheet is not None and page.model.sheet.first == MAY)
    page.grid.setFocus()
    return page


def go(page, day, key):
    page.grid.setFocus()
    page.grid.setCurrentIndex(page.model.place((MAY.replace(day=day), key)))


def press(key, held=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(QApplication.focusWidget(), key, held)


def words(text):
    QTest.keyClicks(QApplication.focusWidget(), text[0])
    QTest.keyClicks(QApplication.focusWidget(), text[1:])


def settled(qtbot, frame):
    at_rest(qtbot, frame.desk)


def column(page, key):
    return [page.model.text(page.model.place((night, key))) for night in page.model.sheet.nights]


def kept(store):
    return {line.night.day: line.text for line in lines.between(store, MAY, LAST)}


def where(store):
    names = {one.id: one.name for one in reading.known_places(store)}
    return {night.day: (names.get(place), how) for night, place, how in nights.where_between(store, MAY, LAST)}


# the bar: thirty-one nights in one sitting


class Counted:
    """Keys pressed besides the words."""

    def __init__(self) -> None:
        self.keys = 0

    def press(self, key) -> None:
        self.keys += 1
        press(key)


def test_a_month_in_one_sitting_takes_five_keys_a_night_beyond_the_words(qtbot, frame, sheet, known):
    counted = Counted()
    go(sheet, 1, "line:memory")
    for day in range(1, 32):
        place = {1: "Hammelnby", 12: "Oststrand"}.get(day, "")
        for text in (f"Night {day}, as the notebook has it.", place, str(day % 11), f"{6 + day % 3}:30", str(day % 5)):
            if text:
                words(text)
            counted.press(Keys.Key_Tab)
        if day % 6 == 0:
            settled(qtbot, frame)
            # Without a screen, a list of places that closes leaves no window active.
            frame.activateWindow()
            qtbot.waitUntil(sheet.grid.hasFocus)
    settled(qtbot, frame)
    assert counted.keys == 5 * 31
    assert kept(known) == {day: f"Night {day}, as the notebook has it." for day in range(1, 32)}
    noted = {(one.night.day, one.tracker_id): one.value for one in trackers.readings(known, MAY, LAST)}
    assert noted == {(day, name): value for day in range(1, 32)
                     for name, value in (("mood", day % 11), ("sleep", 6.5 + day % 3), ("cups", day % 5))}  # fmt: skip
    assert where(known) == {day: ("Hammelnby" if day < 12 else "Oststrand", "said" if day in (1, 12) else "carried")
                            for day in range(1, 32)}  # fmt: skip


def test_down_the_columns_it_takes_one_key_a_cell(qtbot, frame, sheet, known):
    counted = Counted()
    for key, text in (("line:memory", "Words."), ("reading:mood", "7")):
        go(sheet, 1, key)
        for _ in range(31):
            words(text)
            counted.press(Keys.Key_Return)
    settled(qtbot, frame)
    assert counted.keys == 62 and len(kept(known)) == 31 and len(trackers.readings(known, MAY, LAST)) == 31


# lines


def test_a_line_typed_here_came_from_paper(qtbot, frame, sheet, known):
    go(sheet, 3, "line:memory")
    words("The Bechstein at the school.")
    press(Keys.Key_Return)
    settled(qtbot, frame)
    assert kept(known) == {3: "The Bechstein at the school."} and "memory" in lines.from_paper(known, MAY.replace(day=3))
    assert lately.latest(known)[0].act.told == "Memory from paper for the night of 3 May 2026"
    # Taken back, one stays on the sheet, in the row of the night.
    press(Keys.Key_Z, CONTROL)
    settled(qtbot, frame)
    qtbot.waitUntil(lambda: not kept(known) and sheet.model.text(sheet.model.place((MAY.replace(day=3), "line:memory"))) == "")
    assert frame.page_shown() == "sheet" and sheet.model.cell(sheet.grid.currentIndex())[0] == MAY.replace(day=3)


def test_one_begins_where_a_cell_was_left_half_typed(qtbot, frame, known, clock):
    night = MAY.replace(day=20)
    lines.keep_draft(known, Draft(night, "memory", "Half a li", clock.moment().utc), clock.moment())
    frame.go("sheet", MAY)
    page = frame.pages["sheet"]
    qtbot.waitUntil(lambda: page.model.sheet is not None and page.model.sheet.first == MAY)
    assert page.model.cell(page.grid.currentIndex()) == (night, "line:memory")


def test_a_long_line_has_rows_enough_and_stays_on_the_sheet(qtbot, frame, sheet):
    frame.resize(1100, 760)
    qtbot.waitUntil(lambda: sheet.grid.viewport().height() > 400)
    go(sheet, 31, "line:memory")
    words("w")
    one_row = sheet.grid.editing.line.height()
    words("and the caretaker, who has known it all along, wanted to hear whether the mice had been in tune. " * 2)
    edit = sheet.grid.editing.line
    assert edit.height() > 1.5 * one_row and sheet.grid.viewport().rect().contains(edit.geometry())
    assert edit.verticalScrollBar().maximum() == 0
    # Also when the window is made smaller meanwhile.
    before = edit.width()
    frame.resize(frame.width() // 2, frame.height() - 40)
    qtbot.waitUntil(lambda: edit.width() < before)
    assert sheet.grid.viewport().rect().contains(edit.geometry()) and edit.verticalScrollBar().maximum() == 0


def test_a_line_may_have_rows_of_its_own_and_arrows_go_about_in_it_first(qtbot, frame, sheet, known):
    go(sheet, 3, "line:memory")
    words("First row,")
    press(Keys.Key_Return, SHIFT)
    words("second row.")
    press(Keys.Key_Up)
    assert sheet.grid.editing.under_way
    press(Keys.Key_Up)
    assert not sheet.grid.editing.under_way and sheet.model.cell(sheet.grid.currentIndex())[0].day == 2
    settled(qtbot, frame)
    assert kept(known) == {3: "First row,\nsecond row."}


def test_typing_over_a_line_can_be_taken_back_or_given_up(qtbot, frame, sheet, known):
    go(sheet, 3, "line:memory")
    words("As it was.")
    press(Keys.Key_Return)
    go(sheet, 3, "line:memory")
    words("x")
    press(Keys.Key_Z, CONTROL)
    assert sheet.grid.editing.line.words() == "As it was."
    words("yz")
    press(Keys.Key_Escape)
    settled(qtbot, frame)
    assert kept(known) == {3: "As it was."} and lines.wordings(known, MAY.replace(day=3), "memory") == ()


def test_what_is_being_typed_waits_as_the_draft_of_its_night(qtbot, sheet, known):
    go(sheet, 3, "line:memory")
    words("Half a line")
    qtbot.waitUntil(lambda: [one.text for one in lines.drafts(known, MAY.replace(day=3))] == ["Half a line"])
    assert kept(known) == {}


def test_no_word_that_was_on_disk_is_lost_when_the_sheet_is_killed(folder):
    create_store(folder).close()
    seen, lost = kill_windows(folder, 2, 5, Path(on_paper.typing_sheet.__file__))
    assert lost == {} and seen > 4


# places


def test_towns_are_offered_by_letters_and_tab_takes_the_one_picked(qtbot, frame, sheet, known):
    go(sheet, 3, "place")
    words("Stralsu")
    field = sheet.grid.editing.place
    qtbot.waitUntil(lambda: any(row.name == "Stralsund" for row in field.offers.rows))
    qtbot.waitUntil(field.offers.popup().isVisible)
    while not (picked := field.offers.picked()) or picked.name != "Stralsund":
        QTest.keyClick(field.offers.popup(), Keys.Key_Down)
    QTest.keyClick(field.offers.popup(), Keys.Key_Tab)
    settled(qtbot, frame)
    assert not field.offers.popup().isVisible()
    assert sheet.model.cell(sheet.grid.currentIndex()) == (MAY.replace(day=3), "reading:mood")
    (place,) = reading.known_places(known)
    assert (place.name, place.country) == ("Stralsund", "DE") and where(known) == {3: ("Stralsund", "said")}
    qtbot.waitUntil(lambda: sheet.model.seen(3, sheet.model.place((MAY, "place")).column()).carried == "Stralsund")


def test_what_can_be_no_place_stays_and_is_said_beside_its_cell(qtbot, frame, sheet, known):
    go(sheet, 3, "place")
    words("54.3 N 13.1 E")
    press(Keys.Key_Return)
    settled(qtbot, frame)
    qtbot.waitUntil(sheet.note.isVisible)
    assert "tells a position" in sheet.note.text() and where(known) == {}
    assert sheet.model.text(sheet.model.place((MAY.replace(day=3), "place"))) == "54.3 N 13.1 E"
    assert drafts.waiting(known, "place on paper", "2026-05-03") == "54.3 N 13.1 E"


# many cells at once


def paste(text):
    QApplication.clipboard().setText(text)
    press(Keys.Key_V, CONTROL)


def test_a_column_pasted_is_one_act_and_one_key_takes_it_back(qtbot, frame, sheet, known):
    go(sheet, 2, "reading:mood")
    paste("7\r\n\r\n8\r\nmuch\r\n")
    settled(qtbot, frame)
    assert column(sheet, "reading:mood")[:6] == ["", "7", "", "8", "much", ""]
    assert list(sheet.model.wrong) == [(MAY.replace(day=5), "reading:mood")]
    assert lately.latest(known)[0].act.told == "Pasted: 3 cells for the nights of 2 to 5 May 2026"
    press(Keys.Key_Z, CONTROL)
    assert frame.desk.writer.finish()
    qtbot.waitUntil(lambda: column(sheet, "reading:mood")[:6] == ["", "", "", "", "much", ""])
    assert trackers.readings(known, MAY, LAST) == ()


def test_a_part_of_a_table_is_laid_over_its_columns(qtbot, frame, sheet, known):
    go(sheet, 30, "line:memory")
    paste('"Two rows,\nquoted ""so"""\tHammelnby\t6\nPlain\t\t7\nNo room\t\t8')
    settled(qtbot, frame)
    assert kept(known) == {30: 'Two rows,\nquoted "so"', 31: "Plain"}
    assert where(known) == {30: ("Hammelnby", "said"), 31: ("Hammelnby", "carried")}
    assert column(sheet, "reading:mood")[-2:] == ["6", "7"]
    assert frame.said.text() == "2 cells had no room on the sheet, and stayed on the clipboard."


def test_what_is_copied_is_pasted_elsewhere(qtbot, frame, sheet, known):
    go(sheet, 2, "reading:mood")
    paste("1\t7:00\n2\t8:00")
    settled(qtbot, frame)
    go(sheet, 2, "reading:mood")
    press(Keys.Key_Right, SHIFT)
    press(Keys.Key_Down, SHIFT)
    press(Keys.Key_C, CONTROL)
    assert QApplication.clipboard().text() == "1\t7:00\n2\t8:00"
    go(sheet, 9, "reading:mood")
    press(Keys.Key_V, CONTROL)
    settled(qtbot, frame)
    assert column(sheet, "reading:sleep")[8:10] == ["7:00", "8:00"]


def test_filled_down_and_cleared_each_by_one_key_and_each_one_act(qtbot, frame, sheet, known):
    go(sheet, 2, "reading:cups")
    words("3")
    press(Keys.Key_Return)
    go(sheet, 2, "reading:cups")
    for _ in range(4):
        press(Keys.Key_Down, SHIFT)
    press(Keys.Key_D, CONTROL)
    settled(qtbot, frame)
    assert column(sheet, "reading:cups")[:7] == ["", "3", "3", "3", "3", "3", ""]
    go(sheet, 7, "reading:cups")
    press(Keys.Key_D, CONTROL)
    settled(qtbot, frame)
    assert column(sheet, "reading:cups")[6] == "3"
    go(sheet, 3, "reading:cups")
    press(Keys.Key_Down, SHIFT)
    press(Keys.Key_Delete)
    settled(qtbot, frame)
    assert column(sheet, "reading:cups")[:7] == ["", "3", "", "", "3", "3", "3"]
    told = [one.act.told for one in lately.latest(known, limit=3)]
    assert told[0].startswith("Cleared: 2 cells") and told[2].startswith("Filled down: 4 cells")


def test_a_paste_that_cannot_be_kept_is_put_by_cell_by_cell_and_said(qtbot, frame, sheet, known, monkeypatch):
    def full(*_):
        raise CannotWrite("The disk is full.")

    monkeypatch.setattr(filling, "fill_many", full)
    go(sheet, 2, "line:memory")
    paste("One\tHammelnby\nTwo\tOststrand")
    settled(qtbot, frame)
    assert frame.said.text() == "The disk is full."
    assert column(sheet, "line:memory")[1:3] == ["One", "Two"] and kept(known) == {}
    assert [one.text for one in lines.drafts(known)] == ["One", "Two"]
    assert drafts.waiting(known, "place on paper", "2026-05-03") == "Oststrand"
    monkeypatch.undo()
    for day, key in ((2, "line:memory"), (3, "line:memory"), (2, "place"), (3, "place")):
        go(sheet, day, key)
        press(Keys.Key_F2)
        press(Keys.Key_Return)
    settled(qtbot, frame)
    assert kept(known) == {2: "One", 3: "Two"} and lines.drafts(known) == () and len(where(known)) == 2


# what is on the sheet


def test_columns_are_picked_in_the_order_of_the_notebook_and_remembered(qtbot, frame, sheet):
    from keeper.window.sheet.columns_dialog import ColumnsDialog

    dialog = ColumnsDialog(frame.desk, columns.every(frame.desk.store), NOTEBOOK, sheet)
    qtbot.addWidget(dialog)
    dialog.open()
    qtbot.waitUntil(dialog.isActiveWindow)
    dialog.list.setFocus()
    assert [dialog.list.item(n).text() for n in range(7)] == ["Memory", "Place", "mood", "sleep", "cups", "Gratitude", "Reflection"]
    dialog.list.setCurrentRow(2)
    QTest.keyClick(dialog.list, Keys.Key_Up, Qt.KeyboardModifier.AltModifier)
    dialog.list.setCurrentRow(0)
    QTest.keyClick(dialog.list, Keys.Key_Space)
    assert dialog.keys == ("reading:mood", "place", "reading:sleep", "reading:cups")
    dialog.reject()


def test_any_span_of_nights_stands_on_the_sheet_and_is_stepped_by_its_length(qtbot, frame, sheet):
    from keeper.window.sheet.span_dialog import NightsDialog

    dialog = NightsDialog(frame.desk, MAY, LAST, sheet)
    qtbot.addWidget(dialog)
    dialog.first.setText("20 May 2026")
    dialog.last.setText("3 June 2026")
    dialog.take()
    sheet._take_span(*dialog.span)
    sheet.ask()
    qtbot.waitUntil(lambda: sheet.model.rowCount() == 15)
    assert sheet.head.heading.text() == "From paper: 20 May 2026 to 3 Jun 2026"
    sheet.step(-1)
    qtbot.waitUntil(lambda: sheet.model.sheet.first == date(2026, 5, 5) and sheet.model.rowCount() == 15)
    dialog.last.setText("3 May 2026")
    dialog.take()
    assert "comes before the first" in dialog.told.text()
    dialog.first.setText("2001")
    dialog.take()
    assert "at most 731" in dialog.told.text()


def test_without_a_column_it_says_so(qtbot, frame, sheet):
    frame.desk.change_setting(columns.SETTING, "reading:gone")
    sheet.ask()
    qtbot.waitUntil(lambda: not sheet.grid.isVisible())
    assert "no column" in sheet.head.keys.text()


def test_a_night_is_gone_to_by_its_row(qtbot, frame, sheet):
    frame.desk.go("sheet", MAY.replace(day=20), MAY.replace(day=20))
    assert sheet.model.cell(sheet.grid.currentIndex())[0] == MAY.replace(day=20)
    other = date(2026, 3, 9)
    frame.desk.go("sheet", other, other)
    qtbot.waitUntil(lambda: sheet.model.sheet.first == date(2026, 3, 1))
    assert sheet.model.cell(sheet.grid.currentIndex())[0] == other


def test_what_is_typed_on_the_page_of_the_night_comes_in(qtbot, frame, sheet, write):
    write(MAY + timedelta(days=8), "memory", "Typed elsewhere.")
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: column(sheet, "line:memory")[8] == "Typed elsewhere.")
