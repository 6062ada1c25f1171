"""The notebook beside the sheet, by keys alone; and the ways to it from a night and a month."""

import shutil
from datetime import date

import pytest
from on_paper.notebook_pages import askew, saved, written_page
from photographs import dropped, files
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from keeper.actions.scans import bringing, kept
from keeper.window.night.earlier_wordings import WordingsDialog

MAY, LAST = date(2026, 5, 1), date(2026, 5, 31)
Keys = Qt.Key
ALT, CONTROL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier


@pytest.fixture(scope="module")
def drawn_once(tmp_path_factory):
    folder = tmp_path_factory.mktemp("notebook")
    for number, degrees in ((1, 3.0), (2, 0.0)):
        saved(askew(written_page(size=(620, 874)), degrees), folder / f"{number}.png")
    return folder


@pytest.fixture
def folder_of_pages(drawn_once, tmp_path):
    return shutil.copytree(drawn_once, tmp_path / "notebook")


@pytest.fixture
def sheet(qtbot, frame):
    frame.resize(1200, 800)
    frame.go("sheet", MAY)
    page = frame.pages["sheet"]
    qtbot.waitUntil(lambda: page.model.sheet is not None and page.model.sheet.first == MAY)
    page.grid.setFocus()
    return page


@pytest.fixture
def beside(qtbot, sheet, folder_of_pages):
    sheet.bringing.bring([folder_of_pages], MAY, LAST)
    qtbot.waitUntil(lambda: len(sheet.beside.scans) == 2)
    qtbot.waitUntil(lambda: sheet.beside.canvas.image is not None)
    return sheet.beside


def press(key, held=ALT):
    QTest.keyClick(QApplication.focusWidget(), key, held)


def go(sheet, day):
    sheet.grid.setCurrentIndex(sheet.model.place((MAY.replace(day=day), "line:memory")))


def pages(store):
    return kept.of_span(store, MAY, LAST)


def test_without_pages_there_is_nothing_beside(sheet):
    assert not sheet.beside.isVisible() and not sheet.head.put_away.isVisible()


def test_pages_that_come_stand_beside_the_rows_they_belong_to(qtbot, frame, sheet, beside):
    assert beside.isVisible() and frame.said.text() == "2 pages of the notebook came."
    go(sheet, 3)
    assert (beside.scan.name, beside.told.text()) == ("1.png", "page 1 of 2 \u00b7 1 to 15 May 2026 \u00b7 1.png")
    go(sheet, 20)
    assert beside.scan.name == "2.png"
    press(Keys.Key_Left)
    assert beside.scan.name == "1.png" and sheet.model.cell(sheet.grid.currentIndex())[0].day == 20
    sheet.head.put_away.click()
    assert not beside.isVisible() and sheet.head.put_away.text() == "Show the pages"


def test_dropped_on_the_sheet_they_come_too(qtbot, sheet, folder_of_pages):
    assert dropped(sheet, files(folder_of_pages / "1.png")).isAccepted()
    qtbot.waitUntil(lambda: len(sheet.beside.scans) == 1)


def test_what_is_no_page_is_told_of(qtbot, frame, sheet, tmp_path):
    (tmp_path / "letter.odt").write_bytes(b"PK\x03\x04")
    sheet.bringing.bring([tmp_path / "letter.odt"], MAY, LAST)
    qtbot.waitUntil(lambda: "neither a PDF nor a picture" in frame.said.text())
    assert not sheet.beside.isVisible()


def test_a_page_is_turned_straightened_and_cropped_by_keys_while_one_types(qtbot, frame, sheet, beside, store):
    go(sheet, 3)
    QTest.keyClick(sheet.grid, "w")
    press(Keys.Key_T)
    qtbot.waitUntil(lambda: beside.scan.turns == 1)
    press(Keys.Key_T, ALT | Qt.KeyboardModifier.ShiftModifier)
    qtbot.waitUntil(lambda: beside.scan.turns == 0)
    press(Keys.Key_S)
    qtbot.waitUntil(lambda: beside.scan.angle != 0)
    assert beside.scan.angle == pytest.approx(-3.0, abs=0.2) and beside.straight.text() == "As it came"
    press(Keys.Key_Period)
    qtbot.waitUntil(lambda: beside.scan.angle > -2.95)
    press(Keys.Key_C)
    assert "Come closer" in frame.said.text() and pages(store)[0].cut == (0, 0, 1, 1)
    for _ in range(4):
        press(Keys.Key_Equal)
    seen = beside.canvas.seen_part()
    press(Keys.Key_C)
    qtbot.waitUntil(lambda: beside.scan.cut != (0, 0, 1, 1))
    assert beside.scan.cut == pytest.approx(seen) and pages(store)[0].cut == beside.scan.cut
    assert sheet.grid.editing.under_way and sheet.grid.editing.line.words() == "w"


def test_the_page_goes_down_with_the_rows_where_it_is_near(qtbot, sheet, beside):
    go(sheet, 1)
    for _ in range(5):
        press(Keys.Key_Equal)
    tops = []
    for day in (1, 8, 15):
        go(sheet, day)
        tops.append(beside.canvas.seen_part()[1])
    assert tops[0] < 0.01 < tops[1] < tops[2]


def test_it_is_said_with_which_night_a_page_begins_and_taken_back(qtbot, frame, sheet, beside, store):
    go(sheet, 11)
    press(Keys.Key_Right)
    press(Keys.Key_B)
    qtbot.waitUntil(lambda: [(one.first.day, one.last.day) for one in pages(store)] == [(1, 10), (11, 31)])
    qtbot.waitUntil(lambda: "11 to 31 May" in beside.told.text())
    press(Keys.Key_Z, CONTROL)
    qtbot.waitUntil(lambda: [(one.first.day, one.last.day) for one in pages(store)] == [(1, 15), (16, 31)])


def test_a_page_removed_comes_back_by_one_key(qtbot, frame, sheet, beside, store):
    go(sheet, 3)
    beside.away.click()
    qtbot.waitUntil(lambda: len(beside.scans) == 1)
    sheet.grid.setFocus()
    press(Keys.Key_Z, CONTROL)
    qtbot.waitUntil(lambda: len(beside.scans) == 2)


def test_what_was_done_to_a_page_leads_to_it(qtbot, frame, sheet, beside, store):
    frame.go("sheet", date(2026, 3, 1))
    qtbot.waitUntil(lambda: beside.scans == ())
    page = pages(store)[1]
    frame.desk.go("sheet", page.first, page.id)
    qtbot.waitUntil(lambda: beside.scan is not None and beside.scan.name == "2.png")


def test_a_page_whose_file_is_gone_says_so(qtbot, sheet, beside, store):
    for file in (store.folder / "photos").rglob("*.png"):
        file.unlink()
    beside.turn(1)
    qtbot.waitUntil(lambda: "is not there" in beside.canvas.sentence)


def test_it_is_seen_again_from_the_month_and_from_the_night(qtbot, frame, sheet, folder_of_pages, store, clock):
    bringing.bring(store, [folder_of_pages], MAY, LAST, clock)
    frame.go("month", MAY)
    month = frame.pages["month"].sheet
    qtbot.waitUntil(month.on_paper.isVisible)
    assert month.on_paper.button.text() == "On paper: 2 pages of the notebook"
    frame.go("night", MAY.replace(day=20))
    night = frame.pages["night"]
    qtbot.waitUntil(lambda: not night.others.on_paper.isHidden())
    assert night.others.on_paper.button.text() == "On paper: 1 page of the notebook"
    night.others.on_paper.button.click()
    assert frame.page_shown() == "sheet" and sheet.model.cell(sheet.grid.currentIndex())[0] == MAY.replace(day=20)
    qtbot.waitUntil(lambda: sheet.beside.isVisible() and sheet.beside.scan.name == "2.png")
    frame.go("night", date(2026, 4, 20))
    qtbot.waitUntil(lambda: night.others.on_paper.isHidden())


def test_a_night_says_which_words_came_from_paper(qtbot, frame, sheet, page):
    go(sheet, 3)
    QTest.keyClick(sheet.grid, "A")
    QTest.keyClicks(sheet.grid.editing.line, " line of the notebook.")
    press(Keys.Key_Return, Qt.KeyboardModifier.NoModifier)
    assert frame.desk.writer.finish()
    night = MAY.replace(day=3)
    frame.go("night", night)
    qtbot.waitUntil(lambda: page.blocks["memory"].state.text() == "kept \u00b7 from paper, 14 Nov 2026")
    dialog = WordingsDialog(frame.desk, night, page.blocks["memory"].kind, page)
    qtbot.addWidget(dialog)
    assert any("came from paper, typed Sat 14 Nov 2026" in one.text() for one in dialog.findChildren(type(sheet.head.told)))
