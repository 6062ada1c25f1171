"""The page on which files are read in, and the offer of the in-tray on the page of the night."""

import os
import threading
from datetime import date

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication

from keeper.actions import opening, reading, writing
from keeper.actions.taking_in import tray
from keeper.window.taking_in.first_rows import MOST_COLUMNS

JUNE_3 = date(2026, 6, 3)


@pytest.fixture
def elsewhere(frame, qtbot):
    """The page, opened as a person opens it."""
    frame.go("taking in")
    return frame.pages["taking in"]


@pytest.fixture
def looked(elsewhere, qtbot, tmp_path):
    """Shows a file on the page, and waits until it is weighed."""

    def show(text: str, name: str = "nights.csv"):
        path = tmp_path / name
        path.write_text(text, "utf-8")
        elsewhere.look_at(path)
        qtbot.waitUntil(lambda: elsewhere.file.weighed is not None)
        return elsewhere

    return show


TABLE = "Date;Memory;Town;Felt\n03.06.2026;Tuned in Riga;Riga;7\n04.06.2026;Walked;Riga;8\nx;Lost;;\n"


def test_the_first_rows_are_shown_and_nothing_is_written_before_it_is_said(looked, store, qtbot):
    page = looked(TABLE)
    assert page.file.rows.item(1, 0).text() == "Wed 3 Jun 2026" and page.file.rows.item(3, 0).text() == "x (not a date)"
    assert [choice.currentText() for choice in page.file.rows.choices] == ["the date", "Memory", "the place", "not read"]
    assert "2 new lines. A place for 2 nights." in page.file.would.text()
    assert store.row("SELECT count(*) FROM line") == (0,) and page.file.read.isEnabled()
    page.file.read.click()
    qtbot.waitUntil(page.file.undo.isVisible)
    assert page.file.would.text() == "Kept: 2 lines, a place for 2 nights."
    assert reading.one_night(store, JUNE_3).line("memory").text == "Tuned in Riga"


def test_of_a_file_that_is_gone_nothing_of_the_one_before_is_told(looked, tmp_path, qtbot):
    page = looked(TABLE)
    assert page.file.troubles.isVisible()
    page.look_at(tmp_path / "gone.csv")
    qtbot.waitUntil(lambda: "gone.csv" in page.file.would.text())
    assert not page.file.troubles.isVisible() and not page.file.others.isVisible() and page.file.looked is None


def test_undo_takes_all_of_it_back_and_weighs_again(looked, store, qtbot):
    page = looked(TABLE)
    page.file.read.click()
    qtbot.waitUntil(page.file.undo.isVisible)
    page.file.undo.click()
    qtbot.waitUntil(lambda: page.file.weighed is not None)
    assert store.row("SELECT count(*) FROM line") == (0,) and "2 new lines" in page.file.would.text()


def test_stopped_before_anything_came_it_can_be_read_in_as_before(looked, frame, store, qtbot):
    page, said = looked(TABLE), []
    frame.desk.said.connect(said.append)
    held = threading.Event()
    frame.desk.worker.run(lambda store, task: held.wait(20))
    page.file.read.click()
    page.file.stop.click()
    held.set()
    qtbot.waitUntil(lambda: page.file.weighed is not None and not page.file.keeping)
    qtbot.waitUntil(page.file.read.isEnabled)
    assert said == ["Stopped. Nothing was written."] and store.row("SELECT count(*) FROM line") == (0,)


def test_of_many_columns_the_last_can_be_said_to_be_something_too(looked, qtbot):
    page = looked(f"Date,{','.join(f'c{at}' for at in range(60))}\n2026-06-03,{','.join('x' * 60)}\n")
    rows = page.file.rows
    assert len(rows.columns()) == 61
    qtbot.waitUntil(lambda: len(rows.choices) == MOST_COLUMNS)
    rows.choices[-1].setCurrentIndex(rows.choices[-1].findText("Memory"))
    assert len(rows.columns()) == 61 and rows.columns()[MOST_COLUMNS - 1] == "kind:memory"


def test_undone_by_the_key_it_is_weighed_again_too(looked, frame, store, qtbot):
    page = looked(TABLE)
    page.file.read.click()
    qtbot.waitUntil(page.file.undo.isVisible)
    qtbot.keyClick(frame, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: page.file.weighed is not None)
    assert store.row("SELECT count(*) FROM line") == (0,) and "2 new lines" in page.file.would.text()
    assert page.file.undo.isHidden() and page.file.read.isVisible()


def test_what_changes_before_it_is_taken_back_says_nothing_of_it(looked, frame, store, qtbot):
    page = looked(TABLE)
    page.file.read.click()
    qtbot.waitUntil(page.file.undo.isVisible)
    held = threading.Event()
    frame.desk.writer.run(lambda store, task: held.wait(20))
    page.file.undo.click()
    frame.desk.changed.emit()
    frame.desk.reader.run(lambda store, task: None, lambda _: held.set())
    qtbot.waitUntil(lambda: page.file.weighed is not None)
    assert "2 new lines" in page.file.would.text() and "there already" not in page.file.would.text()


def test_tab_goes_from_the_file_to_the_in_tray(looked):
    page = looked(TABLE)
    its, at = [], page.choose
    while (at := at.nextInFocusChain()) is not page.choose:
        its.append(at)
    parts = [page.choose_folder, page.file.read, page.file.rows, *page.file.rows.choices, page.tray.choose]
    assert [part for part in its if part in parts] == parts


def test_a_column_that_is_said_to_be_something_else_is_weighed_as_that(looked, qtbot):
    page = looked(TABLE)
    page.file.rows.choices[1].setCurrentIndex(page.file.rows.choices[1].findText("not read"))
    qtbot.waitUntil(lambda: page.file.weighed is not None)
    assert "line" not in page.file.would.text() and "A place for 2 nights" in page.file.would.text()
    page.file.rows.choices[2].setCurrentIndex(0)
    qtbot.waitUntil(lambda: page.file.weighed is not None)
    assert not page.file.read.isEnabled()


def test_the_order_of_dates_said_otherwise_is_looked_at_again(looked, qtbot):
    page = looked("Date,Memory\n03/06/2026,Tuned a piano\n")
    assert page.file.rows.item(1, 0).text() == "Wed 3 Jun 2026" and "more than one order" in page.file.about.text()
    page.file.written.order.setCurrentIndex(page.file.written.order.findData("mdy"))
    page.file.written.order.activated.emit(0)
    qtbot.waitUntil(lambda: page.file.rows.item(1, 0).text() == "Fri 6 Mar 2026")


def test_other_words_and_what_was_not_understood_are_listed_and_can_be_saved(looked, write, qtbot, tmp_path):
    write(JUNE_3, "memory", "Mine.")
    page = looked(TABLE)
    assert page.file.others.told.text() == "1 line, place or reading here says something else than the file."
    page.file.others.fold.click()
    assert page.file.others.list.model().stringList() == ["3 June 2026\nhere: Mine.\nin the file: Tuned in Riga"]
    page.file.troubles.fold.click()
    assert page.file.troubles.list.model().stringList() == ["line 4: \u201cx\u201d is not a date (x Lost)"]
    page.file.save_list(tmp_path / "list.txt")
    assert "line 4" in (tmp_path / "list.txt").read_text("utf-8")


def test_what_becomes_of_other_words_is_chosen_once(looked, write, store, qtbot):
    write(JUNE_3, "memory", "Mine.")
    page = looked(TABLE)
    page.file.other_words.setCurrentIndex(page.file.other_words.findData("aside"))
    page.file.other_words.activated.emit(0)
    page.file.read.click()
    qtbot.waitUntil(page.file.undo.isVisible)
    assert reading.one_night(store, JUNE_3).line("memory").text == "Mine."
    assert [one.text for one in reading.wordings(store, JUNE_3, "memory")] == ["Tuned in Riga"]


def test_leaving_the_page_or_closing_the_window_reads_nothing_in(looked, frame, store):
    page = looked(TABLE)
    page.keep()
    page.leave()
    frame.desk.keeping.emit()
    frame.desk.writer.finish()
    frame.desk.worker.finish()
    assert store.row("SELECT count(*) FROM line") == (0,)


def test_a_file_can_be_dropped_on_the_page(elsewhere, qtbot, tmp_path):
    path = tmp_path / "dropped.md"
    path.write_text("# 3 June 2026\nwords\n")
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path))])
    held = (Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier)
    entering = QDragEnterEvent(QPoint(5, 5), *held)
    QApplication.sendEvent(elsewhere.viewport(), entering)
    assert entering.isAccepted()
    QApplication.sendEvent(elsewhere.viewport(), QDropEvent(QPointF(5, 5), *held))
    qtbot.waitUntil(lambda: elsewhere.file.weighed is not None)
    assert "1 new line" in elsewhere.file.would.text()


def test_what_cannot_be_read_is_a_sentence_on_the_page(elsewhere, qtbot, tmp_path):
    path = tmp_path / "broken.xlsx"
    path.write_bytes(b"PK\x03\x04 no more")
    elsewhere.look_at(path)
    qtbot.waitUntil(lambda: "broken.xlsx" in elsewhere.file.would.text())
    assert elsewhere.file.would.isVisible() and not elsewhere.file.read.isVisible()


def test_stop_while_it_is_read_through_writes_nothing(elsewhere, qtbot, tmp_path, store):
    path = tmp_path / "long.csv"
    path.write_text("Date,Memory\n" + "2026-06-03,words of a line\n" * 300_000)
    elsewhere.look_at(path)
    qtbot.waitUntil(lambda: elsewhere.file.looked is not None)
    elsewhere.file.stop.click()
    assert elsewhere.file.would.text() == "Stopped. Nothing was written." and not elsewhere.file.read.isEnabled()
    assert store.row("SELECT count(*) FROM line") == (0,)


def test_every_control_can_be_reached_and_has_a_name(looked):
    page = looked(TABLE)
    for choice in (*page.file.rows.choices, page.file.written.order, page.file.written.encoding, page.file.other_words):
        assert choice.accessibleName() and choice.focusPolicy() & Qt.FocusPolicy.TabFocus
    assert page.file.rows.choices[1].accessibleName() == "What the column Memory is"


# the in-tray


@pytest.fixture
def waiting(store, tmp_path):
    """An in-tray in which a text waits."""
    folder = tmp_path / "tray"
    folder.mkdir()
    (folder / "2026-06-03.txt").write_text("From afar.")
    os.utime(folder / "2026-06-03.txt", (1.7e9, 1.7e9))
    tray.choose(store, folder)
    return folder


def test_what_waits_is_offered_on_the_page_of_the_night_and_taken_with_one_key(waiting, frame, store, qtbot):
    offer = frame.rest.tray_offer
    qtbot.waitUntil(offer.button.isVisible)
    assert offer.button.text() == "In the in-tray: 1 text. Take in (Ctrl+I)"
    qtbot.keyClick(frame, Qt.Key.Key_I, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: (waiting / "taken in" / "2026-06-03.txt").exists())
    qtbot.waitUntil(offer.button.isHidden)
    assert reading.one_night(store, JUNE_3).line("gratitude").text == "From afar."


def test_without_an_in_tray_nothing_is_asked_and_nothing_offered(frame, qtbot):
    asked = []
    frame.desk.worker.run = lambda *_: asked.append(1)
    frame.rest.tray_offer.ask()
    assert not asked and frame.rest.tray_offer.button.isHidden()


def test_the_in_tray_is_chosen_and_let_go_on_its_page(elsewhere, store, qtbot, tmp_path):
    elsewhere.tray.take_for(tmp_path)
    qtbot.waitUntil(lambda: "cannot hold the keeper" in elsewhere.tray.told.text())
    (tmp_path / "tray").mkdir()
    elsewhere.tray.take_for(tmp_path / "tray")
    qtbot.waitUntil(lambda: str(tmp_path / "tray")[-4:] == elsewhere.tray.where.text()[-4:])
    assert tray.folder_of(store) == tmp_path / "tray" and elsewhere.tray.drop.isVisible()
    elsewhere.tray.drop.click()
    qtbot.waitUntil(lambda: elsewhere.tray.where.text() == "none chosen")
    assert opening.read_settings(store)["in_tray"] == ""


def test_the_act_is_undone_with_the_key(waiting, frame, store, qtbot):
    writing.write_line(store, JUNE_3, "gratitude", "Mine.", frame.desk.clock)
    qtbot.waitUntil(frame.rest.tray_offer.button.isVisible)
    frame.rest.tray_offer.take()
    qtbot.waitUntil(lambda: reading.one_night(store, JUNE_3).line("gratitude").text == "Mine. From afar.")
    qtbot.waitUntil(frame.rest.tray_offer.button.isHidden)
    qtbot.keyClick(frame, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: reading.one_night(store, JUNE_3).line("gratitude").text == "Mine.")
