"""Bringing many photos while the window stays usable."""

import os
import threading
from datetime import date
from itertools import combinations

import pytest
from photographs import cut, names, taken
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QFileDialog,
    QLabel,
    QListView,
    QProgressBar,
    QPushButton,
    QWidget,
)

from keeper.actions import opening, writing
from keeper.actions.photos import kept as photos
from keeper.actions.photos import looking as photo_looking
from keeper.actions.photos import many as many_photos
from keeper.store import nights
from keeper.window.photos.many import ASKING, ENDED, LOOKED

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
    taken(tmp_path / "card" / "deep" / "same day.jpg", "2026:10:01 13:00:00")
    cut(tmp_path / "card" / "cut.jpg", "2026:10:01 12:30:00")
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
        more.acquire(timeout=200)
        return bring(*args, **kwargs)

    monkeypatch.setattr(many_photos, "bring", slowly)
    # Of two at once the later might be let go first, and then the earlier is waited for.
    monkeypatch.setattr(many_photos.os, "cpu_count", lambda: 1)
    yield more
    more.release(1000)


def rows(dialog) -> list[str]:
    return dialog.left_out.model().stringList()


def test_a_folder_is_chosen_looked_through_and_sorted_to_its_nights(qtbot, frame, dialog, card, store, monkeypatch):
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(card))
    qtbot.waitUntil(lambda: QApplication.focusWidget() is dialog.choose)
    qtbot.keyClick(dialog.choose, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: dialog.state == LOOKED)
    assert dialog.told.text() == "The photos of “card”. 5 photos for 3 nights."
    assert [dialog.nights.rows.item(row).text() for row in range(3)] == [
        "Thu 1 Oct 2026 · 3 photos", "Fri 2 Oct 2026 · 1 photo", "Sat 3 Oct 2026 · 1 photo",
    ]  # fmt: skip
    assert photos.every(store) == () and len(list((frame.desk.folder / "photos").rglob("*.jpg"))) == 0
    assert dialog.nights.isAncestorOf(QApplication.focusWidget())
    assert dialog.begin.text() == "Take in 5 photos"
    dialog.begin.click()
    qtbot.waitUntil(lambda: dialog.summary is not None)
    assert dialog.told.text().startswith("4 photos taken in, for 3 nights. 4 left out: ")
    assert names(store, DAY) == ["1.jpg", "same day.jpg"]
    assert rows(dialog) == [
        "“a\ufffdgpj.exe” in “card” is not a picture the keeper can take: JPEG, PNG, WebP, HEIC, AVIF, TIFF, GIF or BMP",
        "“dateless.jpg” in “card” has no date",
        "“empty.jpg” in “card” is empty: it has 0 bytes",
        "“cut.jpg” in “card” is damaged or cut short; only a part of it can be seen",
    ]
    assert dialog.left_out.isVisible() and not dialog.bar.isVisible()
    assert sorted(os.listdir(card))[0] == "1.jpg"


def looked(qtbot, dialog, folder):
    dialog.look([folder])
    # The very first time ever the list of towns is unpacked.
    qtbot.waitUntil(lambda: dialog.state == LOOKED)


def taken_in(qtbot, dialog):
    dialog.begin.click()
    qtbot.waitUntil(lambda: dialog.state == ENDED)


def test_a_night_can_be_left_out_before_it_is_taken_in(qtbot, dialog, card, store):
    looked(qtbot, dialog, card)
    dialog.nights.list.setFocus()
    qtbot.keyClick(dialog.nights.list, Qt.Key.Key_Space)
    assert dialog.begin.text() == "Take in 2 photos"
    taken_in(qtbot, dialog)
    assert (names(store, DAY), len(photos.every(store))) == ([], 2)


def test_small_pictures_of_the_night_looked_at_are_seen(qtbot, dialog, card):
    looked(qtbot, dialog, card)
    frames = dialog.nights.peek.frames
    qtbot.waitUntil(lambda: not frames[0].pixmap().isNull())
    assert [frame.accessibleName() for frame in frames[:4]] == ["“1.jpg”", "“cut.jpg”", "“same day.jpg”", ""]
    dialog.nights.list.setCurrentIndex(dialog.nights.rows.index(1, 0))
    assert frames[0].accessibleName() == "“2.jpg”"


def test_the_places_of_the_nights_are_offered_and_noted_only_when_asked(qtbot, dialog, store, clock, tmp_path):
    offered, said, unasked = (tmp_path / name for name in ("offered", "said", "unasked"))
    where = {"latitude": 57.64, "longitude": 18.29}
    taken(offered / "a.jpg", "2026:10:01 12:00:00", **where)
    taken(said / "b.jpg", "2026:10:02 12:00:00", **where)
    taken(unasked / "c.jpg", "2026:10:03 12:00:00", **where)
    writing.set_place(store, date(2026, 10, 2), "Riga", clock)
    looked(qtbot, dialog, tmp_path)
    assert "Visby" in dialog.nights.rows.item(0).text() and "Visby" not in dialog.nights.rows.item(1).text()
    assert dialog.nights.places.text() == "Note that 2 of these nights were spent where the photos were taken"
    assert not dialog.nights.places.isChecked()
    dialog.nights.rows.item(2).setCheckState(Qt.CheckState.Unchecked)
    dialog.nights.places.click()
    taken_in(qtbot, dialog)
    assert dialog.told.text().endswith("The place of 1 night was noted.")
    spent = [nights.one(store, date(2026, 10, day)).place for day in (1, 2, 3)]
    assert [place and place.name for place in spent] == ["Visby", "Riga", None]


def test_all_of_it_is_taken_back_and_put_back_with_one_press(qtbot, frame, dialog, card, store):
    looked(qtbot, dialog, card)
    taken_in(qtbot, dialog)
    assert dialog.undo.text() == "Undo"
    dialog.undo.click()
    qtbot.waitUntil(lambda: dialog.undo.text() == "Redo")
    assert dialog.told.text() == "Took back: The photos of \u201ccard\u201d."
    assert names(store, DAY) == []
    dialog.undo.click()
    qtbot.waitUntil(lambda: dialog.undo.text() == "Undo")
    assert names(store, DAY) == ["1.jpg", "same day.jpg"]


def test_what_is_cut_short_is_taken_anyway_when_asked(qtbot, dialog, card, store):
    looked(qtbot, dialog, card)
    taken_in(qtbot, dialog)
    assert dialog.anyway.text() == "Take 1 cut short anyway"
    dialog.anyway.click()
    qtbot.waitUntil(lambda: "cut.jpg" in names(store, DAY))
    qtbot.waitUntil(lambda: dialog.state == ENDED)
    dialog.undo.click()
    qtbot.waitUntil(lambda: names(store, DAY) == [])


def test_no_part_lies_over_another_in_any_state(qtbot, dialog, card, tmp_path):
    for number in range(30):
        (tmp_path / "card" / f"{number} with a name that is as long as names of files often are.txt").write_text("words")
    told = [part_over_another(dialog)]
    looked(qtbot, dialog, card)
    told.append(part_over_another(dialog))
    taken_in(qtbot, dialog)
    told.append(part_over_another(dialog))
    dialog.resize(dialog.minimumWidth(), 10)
    told.append(part_over_another(dialog))
    assert told == [[]] * 4


def part_over_another(dialog) -> list[str]:
    QApplication.processEvents()
    kinds = (QLabel, QPushButton, QListView, QProgressBar, QCheckBox)
    seen = [part for part in dialog.findChildren(QWidget) if isinstance(part, kinds) and part.isVisible()]
    places = [(part, QRect(part.mapTo(dialog, QPoint()), part.size())) for part in seen]
    wrong = [f"{one} lies over {other}" for (one, a), (other, b) in combinations(places, 2)
             if a.intersects(b) and not (one.isAncestorOf(other) or other.isAncestorOf(one))]  # fmt: skip
    cut = [part.text() for part in seen if isinstance(part, QPushButton) and part.width() < part.sizeHint().width()]
    return wrong + cut


def test_looking_can_be_stopped(qtbot, dialog, card, monkeypatch):
    wait, look_at = threading.Semaphore(0), photo_looking.look_at
    monkeypatch.setattr(photo_looking, "look_at", lambda file: wait.acquire(timeout=200) and look_at(file))
    dialog.look([card])
    qtbot.mouseClick(dialog.halt, Qt.MouseButton.LeftButton)
    assert dialog.state == ASKING and dialog.choose.isVisible()
    wait.release(100)
    dialog.desk.worker.finish()
    qtbot.wait(50)
    assert dialog.state == ASKING


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
    assert "Stopped before the end. The other " in dialog.told.text()
    assert dialog.choose.isVisible() and not dialog.halt.isVisible()
    assert len(photos.every(store)) == dialog.summary.taken > 0


def test_left_to_itself_it_goes_on_and_the_window_tells_the_end(qtbot, frame, page, dialog, card, slow):
    dialog.bring([card])
    qtbot.waitUntil(lambda: dialog.leave.text() == "Continue in the background")
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
    assert rows(dialog)[0].startswith("“gone” in ") and rows(dialog)[0].endswith("is not there")


def test_a_full_disk_ends_it_with_a_sentence(qtbot, dialog, card, monkeypatch):
    from keeper.store.photos import files as photo_files

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(photo_files, "force", full)
    dialog.bring([card])
    qtbot.waitUntil(lambda: dialog.summary is not None)
    assert "no space left on device" in dialog.told.text()
    assert dialog.choose.isVisible()


def test_every_control_has_a_name(dialog):
    for control in (dialog.choose, dialog.begin, dialog.halt, dialog.leave):
        assert control.text()
    for part in (dialog.bar, dialog.left_out, dialog.nights.list):
        assert part.accessibleName()
