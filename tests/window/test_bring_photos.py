"""Bringing many photos while the window stays usable."""

import os
import threading
from datetime import date

import pytest
from photographs import names, taken
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QFileDialog

from keeper.actions import many_photos, opening, photos

DAY = date(2026, 10, 1)


@pytest.fixture
def dialog(qtbot, frame, page):
    qtbot.waitUntil(lambda: page.photos is not None)
    page.photos.intake.bring_many()
    return page.photos.intake.bringing


@pytest.fixture
def card(tmp_path):
    """A folder with photos of three nights, and what is none."""
    for number in (1, 2, 3):
        taken(tmp_path / "card" / f"{number}.jpg", f"2026:10:0{number} 12:00:00")
    whole = taken(tmp_path / "card" / "deep" / "same day.jpg", "2026:10:01 13:00:00").read_bytes()
    (tmp_path / "card" / "cut.jpg").write_bytes(whole[: len(whole) // 2])
    (tmp_path / "card" / "empty.jpg").touch()
    (tmp_path / "card" / "a\u202egpj.exe").write_text("words")
    taken(tmp_path / "card" / "dateless.jpg", "")
    return tmp_path / "card"


@pytest.fixture
def slow(monkeypatch):
    """Photos come one after another, each when ``more`` is set or released."""
    more = threading.Semaphore(0)
    bring = many_photos.bring

    def slowly(*args, **kwargs):
        more.acquire(timeout=5)
        return bring(*args, **kwargs)

    monkeypatch.setattr(many_photos, "bring", slowly)
    yield more
    more.release(1000)


def rows(dialog) -> list[str]:
    return dialog.left_out.model().stringList()


def test_a_folder_is_chosen_and_sorted_to_its_nights(qtbot, frame, dialog, card, store, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(card))
    qtbot.waitUntil(lambda: QApplication.focusWidget() is dialog.choose)
    qtbot.keyClick(dialog.choose, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: dialog.summary is not None)
    assert dialog.told.text().startswith("4 photos taken in, for 3 nights. 4 left out: ")
    assert names(store, DAY) == ["1.jpg", "same day.jpg"]
    assert rows(dialog) == [
        "“a\ufffdgpj.exe” in “card” is no picture that can be taken in: JPEG, PNG, WebP, HEIC or TIFF",
        "“cut.jpg” in “card” is damaged or cut short, so it was left alone",
        "“dateless.jpg” in “card” has no date",
        "“empty.jpg” in “card” is empty: it has 0 bytes",
    ]
    assert dialog.left_out.isVisible() and not dialog.bar.isVisible()
    assert sorted(os.listdir(card))[0] == "1.jpg"


def test_nothing_is_taken_in_twice(qtbot, dialog, card):
    dialog.bring([card])
    qtbot.waitUntil(lambda: dialog.summary is not None)
    dialog.bring([card])
    qtbot.waitUntil(lambda: dialog.summary is not None)
    assert dialog.told.text().startswith("0 photos taken in, for 0 nights. 4 in the keeper already.")


def test_the_window_is_typed_in_meanwhile_and_the_ribbon_follows(
    qtbot, frame, page, dialog, card, slow, store, tonight
):
    dialog.bring([card])
    qtbot.waitUntil(lambda: dialog.halt.isVisible() and dialog.bar.isVisible())
    assert not dialog.isModal()
    frame.activateWindow()
    qtbot.keyClicks(page.fields["gratitude"], "A quiet line")
    page.commit("gratitude")
    qtbot.waitUntil(lambda: page.blocks["gratitude"].state.text() == "kept")
    slow.release(3)
    qtbot.waitUntil(lambda: dialog.far.text() == "3 of 8")
    assert dialog.bar.value() == 375
    with qtbot.waitSignal(frame.desk.changed):
        slow.release(100)


def test_stop_keeps_what_has_come_and_says_so(qtbot, dialog, card, slow, store):
    dialog.bring([card])
    slow.release(2)
    qtbot.waitUntil(lambda: dialog.far.text().startswith("2 of"))
    qtbot.mouseClick(dialog.halt, Qt.MouseButton.LeftButton)
    assert dialog.far.text() == "Stopping…"
    slow.release(100)
    qtbot.waitUntil(lambda: dialog.summary is not None)
    assert dialog.told.text().endswith("Stopped before the end.")
    assert dialog.choose.isVisible() and not dialog.halt.isVisible()
    assert len(photos.every(store)) == dialog.summary.taken > 0


def test_left_to_itself_it_goes_on_and_the_window_tells_the_end(qtbot, frame, page, dialog, card, slow):
    dialog.bring([card])
    qtbot.waitUntil(lambda: dialog.leave.text() == "Go on without watching")
    qtbot.mouseClick(dialog.leave, Qt.MouseButton.LeftButton)
    assert not dialog.isVisible()
    page.photos.intake.bring_many()
    assert dialog.isVisible() and dialog.halt.isVisible(), "asked for again, it shows how far it is"
    dialog.close()
    slow.release(100)
    qtbot.waitUntil(lambda: frame.said.text().startswith("4 photos taken in, for 3 nights."))


def test_closing_the_window_breaks_it_off_with_nothing_half_taken_in(qtbot, frame, dialog, card, slow, folder):
    dialog.bring([card])
    slow.release(3)
    qtbot.waitUntil(lambda: dialog.far.text().startswith("3 of"))
    threading.Timer(0.1, lambda: slow.release(100)).start()
    frame.close()
    with opening.open_kept(folder) as store:
        kept = photos.every(store)
        assert photos.damaged(store) == ()
    there = [file for file in (folder / "photos").rglob("*") if file.is_file()]
    assert len(there) == len(kept) > 0


def test_a_folder_that_is_gone_or_empty_is_a_sentence(qtbot, dialog, tmp_path):
    (tmp_path / "bare").mkdir()
    dialog.bring([tmp_path / "bare"])
    qtbot.waitUntil(lambda: dialog.summary is not None)
    assert dialog.told.text() == "0 photos taken in, for 0 nights."
    dialog.bring([tmp_path / "gone"])
    qtbot.waitUntil(lambda: dialog.summary is not None)
    assert rows(dialog)[0].startswith("“gone” in ") and rows(dialog)[0].endswith("is not there any more")


def test_a_full_disk_ends_it_with_a_sentence(qtbot, dialog, card, monkeypatch):
    from keeper.store import photo_files

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(photo_files, "_force", full)
    dialog.bring([card])
    qtbot.waitUntil(lambda: dialog.summary is not None)
    assert "no space left on device" in dialog.told.text()
    assert dialog.choose.isVisible()


def test_every_control_has_a_name(dialog):
    for control in (dialog.choose, dialog.begin, dialog.halt, dialog.leave):
        assert control.text()
    assert dialog.bar.accessibleName() and dialog.left_out.accessibleName()
