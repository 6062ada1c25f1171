"""The dialog that makes a book, as a person uses it."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog

from keeper.actions.paper import making as book
from keeper.errors import UnknownThing
from keeper.window.paper.book import BookDialog


@pytest.fixture
def dialog(qtbot, frame, write):
    """The dialog on a year with lines in two months."""
    for month in (2, 3):
        for day in range(1, 10):
            write(date(2026, month, day), "memory", f"The kettle sang, {month}-{day}.")
    made = BookDialog(frame.desk, 2026, frame)
    made.open()
    qtbot.waitExposed(made)
    yield made
    made.close()
    frame.desk.worker.finish()


@pytest.fixture
def made(qtbot, dialog):
    """The dialog with a book made."""
    dialog.make_book()
    qtbot.waitUntil(lambda: dialog.preview.spreads > 0)
    return dialog


def test_all_parts_but_what_rests_are_offered_ticked(dialog):
    assert dialog.parts.parts() == book.BookParts(title="2026")
    assert all(box.accessibleDescription() for box in dialog.parts.boxes.values())
    assert dialog.make.isVisible() and not dialog.save.isVisible()


def test_what_is_chosen_is_what_is_asked_for(dialog):
    dialog.parts.boxes["map"].setChecked(False)
    dialog.parts.lines.setCurrentIndex(1)
    dialog.parts.size.setCurrentIndex(2)
    dialog.parts.name.setText("Maren")
    wanted = dialog.parts.parts()
    assert (wanted.map, wanted.lines, wanted.size, wanted.name) == (False, "chosen", "half-letter", "Maren")


def test_answers_are_chosen_only_where_they_are_not_among_the_lines(dialog):
    assert not dialog.parts.boxes["answers"].isEnabled()
    dialog.parts.lines.setCurrentIndex(1)
    assert dialog.parts.boxes["answers"].isEnabled()


def test_enter_makes_the_book_and_keys_leaf_through_it(qtbot, dialog):
    qtbot.keyClick(dialog.make, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: dialog.preview.spreads > 0)
    assert dialog.preview.told.text() == "Page 1 of 4"
    qtbot.keyClick(dialog.preview, Qt.Key.Key_PageDown)
    assert dialog.preview.told.text() == dialog.preview.accessibleName() == "Pages 2 and 3 of 4"
    qtbot.keyClick(dialog.preview, Qt.Key.Key_End)
    assert dialog.preview.told.text() == "Page 4 of 4"
    qtbot.keyClick(dialog.preview, Qt.Key.Key_PageDown)
    assert dialog.preview.at == 2 and not dialog.preview.onward.isEnabled()
    qtbot.keyClick(dialog.preview, Qt.Key.Key_Home)
    assert dialog.preview.at == 0


def test_the_book_is_saved_and_its_folder_can_be_opened(qtbot, made, tmp_path, monkeypatch):
    target = tmp_path / "year.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "year"), ""))
    assert not made.open_folder.isEnabled()
    qtbot.mouseClick(made.save, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: made.saved == target)
    assert target.read_bytes().startswith(b"%PDF") and "year.pdf" in made.told.text()
    opened = []
    monkeypatch.setattr("keeper.window.paper.book.QDesktopServices.openUrl", lambda url: opened.append(url.toLocalFile()))
    qtbot.mouseClick(made.open_folder, Qt.MouseButton.LeftButton)
    assert opened == [str(tmp_path)]


def test_a_book_that_cannot_be_saved_is_told_and_can_be_saved_elsewhere(qtbot, made, tmp_path, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "none" / "b.pdf"), ""))
    qtbot.mouseClick(made.save, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "cannot be put into" in made.told.text())
    assert made.saved is None and made.save.isEnabled()


def test_stop_leads_back_to_the_parts_and_leaves_nothing(qtbot, dialog, monkeypatch):
    folders = []

    def slowly(store, year, parts, folder, clock, progress, stopped):
        folders.append(folder)
        while not stopped():
            progress(0.1, "Photo 1 of 12")

    monkeypatch.setattr(book, "proof_book", slowly)
    dialog.make_book()
    qtbot.waitUntil(lambda: dialog.doing.text() == "Photo 1 of 12")
    assert dialog.stop.isVisible() and not dialog.make.isVisible()
    qtbot.mouseClick(dialog.stop, Qt.MouseButton.LeftButton)
    assert dialog.make.isVisible() and "Stopped" in dialog.told.text()
    qtbot.waitUntil(lambda: not folders[0].exists())


def test_escape_stops_first_and_leaves_then(qtbot, dialog, monkeypatch):
    monkeypatch.setattr(book, "proof_book", lambda s, y, p, f, clock, progress, stopped: [progress(0.1, "") for _ in iter(stopped, True)])
    dialog.make_book()
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert dialog.isVisible() and dialog.make.isVisible()
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()


def test_what_goes_wrong_is_told(qtbot, dialog, monkeypatch):
    def nothing(*_):
        raise UnknownThing("Nothing is kept of 2026, so there is no book to make.")

    monkeypatch.setattr(book, "proof_book", nothing)
    dialog.make_book()
    qtbot.waitUntil(lambda: "Nothing is kept" in dialog.told.text())
    assert dialog.make.isVisible()


def test_what_is_left_out_is_told_beside_the_pages(qtbot, dialog, write):
    write(date(2026, 2, 9), "memory", "Thai \u0e44.")
    dialog.make_book()
    qtbot.waitUntil(lambda: dialog.preview.spreads > 0)
    assert "U+0E44" in dialog.told.text()


def test_the_pages_go_when_the_dialog_does(qtbot, made):
    folder = made._folder.name
    from pathlib import Path

    assert Path(folder).exists()
    made.reject()
    qtbot.waitUntil(lambda: not Path(folder).exists())


def test_themes_are_in_it_though_their_page_was_never_opened(qtbot, dialog, store, monkeypatch):
    from theme_keeper import fill
    from waiting.not_apart import here

    from keeper.actions.themes import asking as themes

    monkeypatch.setattr("keeper.actions.themes.looking.apart", here)
    fill(store, 120)
    dialog.year = 2024
    dialog.make_book()
    qtbot.waitUntil(lambda: dialog.preview.spreads > 0)
    assert themes.names(store) and any(month.themes for month in dialog._proof.laid.work.months)
