"""The night's photos, dropped, pasted, looked at and taken away as a person would."""

import shutil
import subprocess
import sys
from datetime import date

import pytest
from photographs import carried_away, cut, dropped, files, held_over, names, taken
from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication, QFileDialog, QLineEdit
from sample_pictures import HEIC, REAL, save

from keeper.actions.photos import kept as actions
from keeper.model import Place
from keeper.store import nights
from keeper.store.photos import known as photos
from keeper.store.places import named as places
from keeper.window.parts.photos import thumbnail

OTHER = date(2026, 11, 10)


@pytest.fixture
def strip(qtbot, page):
    qtbot.waitUntil(lambda: page.photos is not None)
    return page.photos


@pytest.fixture
def three(qtbot, strip, tmp_path):
    """A night with three photos."""
    for name in ("a.jpg", "b.jpg", "c.jpg"):
        strip.take([taken(tmp_path / name)])
    qtbot.waitUntil(lambda: len(strip.row.cells) == 3 and not strip.told.text())
    return strip


def focused():
    return QApplication.focusWidget()


def shown(strip) -> list[str]:
    return [cell.photo.name for cell in strip.row.cells]


def test_without_photos_it_takes_no_room_but_one_row(strip):
    assert strip.row.isHidden() and strip.offers.isHidden() and strip.more.isHidden()
    assert strip.height() < 3 * strip.add.height()


def test_a_file_dropped_on_the_page_is_taken_in_and_never_moved(qtbot, frame, page, strip, store, tonight, tmp_path):
    event = dropped(page.sheet, files(taken(tmp_path / "a.jpg")))
    assert event.isAccepted() and event.dropAction() == Qt.DropAction.CopyAction
    qtbot.waitUntil(lambda: names(store, tonight) == ["a.jpg"])
    qtbot.waitUntil(lambda: shown(strip) == ["a.jpg"])
    assert frame.said.text() == "Added to 14 November 2026: it was taken at 12:00."
    assert (tmp_path / "a.jpg").exists()
    assert not strip.row.isHidden()


@pytest.mark.parametrize("where", ["memory", "place", "question"])
def test_it_may_fall_on_a_field_and_leaves_no_path_in_it(qtbot, page, store, tonight, tmp_path, where):
    field = {"memory": page.fields["memory"].viewport(), "place": page.place, "question": page.question.edit}[where]
    data = files(taken(tmp_path / "a.jpg"))
    data.setText(str(tmp_path / "a.jpg"))
    if where == "question":
        page.question.begin()
    dropped(field, data)
    qtbot.waitUntil(lambda: names(store, tonight) == ["a.jpg"])
    assert page.fields["memory"].toPlainText() == page.place.text() == page.question.edit.text() == ""


def test_words_dropped_on_a_field_are_words(page, store, tonight):
    data = QMimeData()
    data.setText("a kind word")
    dropped(page.fields["memory"].viewport(), data)
    assert page.fields["memory"].toPlainText() == "a kind word"
    assert names(store, tonight) == []


def test_what_is_held_over_the_page_is_said_to_be_welcome(page, strip, tmp_path):
    assert held_over(page.sheet, files(tmp_path / "a.jpg")).isAccepted()
    assert strip.told.text() == "Drop to add to this night"
    carried_away(page)
    assert strip.told.text() == ""


def test_hostile_files_are_told_and_the_window_lives(qtbot, frame, page, strip, store, tonight, tmp_path):
    cut(tmp_path / "cut.jpg")
    (tmp_path / "empty.jpg").touch()
    (tmp_path / "words.png").write_text("words")
    bad = [tmp_path / name for name in ("cut.jpg", "empty.jpg", "words.png", "gone.jpg")]
    dropped(page.sheet, files(*bad, REAL / "IllegalArgumentException.HeifReader.processBoxes.heif"))
    qtbot.waitUntil(lambda: "4 more were left out." in frame.said.text())
    assert frame.said.text().startswith("“cut.jpg” is damaged or cut short; only a part of it can be seen.")
    assert names(store, tonight) == [] and strip.told.text() == ""
    assert [button.text() for button in strip.offers.buttons] == ["Take it anyway"]
    assert [p for p in (frame.desk.folder / "photos").rglob("*") if p.is_file()] == []


@pytest.mark.parametrize(
    "name", ["a\u202egpj.jpg", "new\nline.jpg", "<b>bold<img src=x>.jpg", "é" * 100 + ".jpg", " .jpg"]
)
def test_odd_names_are_names(qtbot, page, strip, store, tonight, tmp_path, name):
    dropped(page.sheet, files(taken(tmp_path / name)))
    qtbot.waitUntil(lambda: len(strip.row.cells) == 1)
    assert photos.of_night(store, tonight)[0].width == 120


def test_a_right_picture_with_a_wrong_ending_is_taken_in(qtbot, page, store, tonight, tmp_path):
    save(tmp_path / "a.png").rename(tmp_path / "a.txt")
    dropped(page.sheet, files(tmp_path / "a.txt"))
    qtbot.waitUntil(lambda: [p.ending for p in photos.of_night(store, tonight)] == ["png"])


def test_a_folder_dropped_is_offered_to_be_brought(qtbot, page, strip, store, tmp_path):
    taken(tmp_path / "card" / "a.jpg", "2026:11:10 12:00:00")
    dropped(page.sheet, files(tmp_path / "card"))
    qtbot.waitUntil(lambda: strip.intake.bringing is not None and strip.intake.bringing.isVisible())
    assert names(store, OTHER) == []
    qtbot.waitUntil(strip.intake.bringing.begin.isVisible)
    assert strip.intake.bringing.begin.text() == "Take in 1 photo"
    qtbot.mouseClick(strip.intake.bringing.begin, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: names(store, OTHER) == ["a.jpg"])


def test_several_are_chosen_in_a_dialog(qtbot, frame, strip, store, tonight, tmp_path, monkeypatch):
    chosen = [str(taken(tmp_path / "a.jpg")), str(HEIC)]
    monkeypatch.setattr(QFileDialog, "getOpenFileNames", lambda *_: (chosen, ""))
    strip.add.setFocus()
    qtbot.keyClick(strip.add, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: names(store, tonight) == ["a.jpg", HEIC.name])
    qtbot.waitUntil(lambda: frame.said.text() == "2 photos added to Saturday 14 November 2026.")


def paste(qtbot, widget, data: QMimeData) -> None:
    QApplication.clipboard().setMimeData(data)
    widget.setFocus()
    qtbot.keyClick(widget, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)


def copied_picture(*_) -> QMimeData:
    data = QMimeData()
    image = QImage(60, 40, QImage.Format.Format_RGB32)
    image.fill(0x336699)
    data.setImageData(image)
    return data


def copied_bytes(path) -> QMimeData:
    data = QMimeData()
    data.setData("image/png", save(path / "raw.png").read_bytes())
    return data


@pytest.mark.parametrize("copied", [copied_picture, copied_bytes])
@pytest.mark.parametrize("where", ["field", "strip"])
def test_a_copied_picture_is_pasted(qtbot, page, strip, store, tonight, tmp_path, copied, where):
    paste(qtbot, page.fields["memory"] if where == "field" else strip.add, copied(tmp_path))
    qtbot.waitUntil(lambda: names(store, tonight) == ["pasted picture.png"])
    assert page.fields["memory"].toPlainText() == ""


def test_copied_files_are_pasted_and_words_stay_words(qtbot, page, store, tonight, tmp_path):
    data = files(taken(tmp_path / "a.jpg"))
    data.setText(str(tmp_path / "a.jpg"))
    paste(qtbot, page.fields["memory"], data)
    qtbot.waitUntil(lambda: names(store, tonight) == ["a.jpg"])
    assert page.fields["memory"].toPlainText() == ""
    both = copied_picture()
    both.setText("a table of words")
    paste(qtbot, page.fields["memory"], both)
    assert page.fields["memory"].toPlainText() == "a table of words"
    assert names(store, tonight) == ["a.jpg"]


def test_what_belongs_to_another_night_is_offered_to_it(qtbot, strip, store, tonight, tmp_path):
    strip.take([taken(tmp_path / "a.jpg", "2026:11:10 12:00:00")])
    qtbot.waitUntil(lambda: len(strip.offers.buttons) == 2)
    keep, put = strip.offers.buttons
    assert (keep.text(), put.text()) == ("Keep it here", "Move it to 10 November 2026")
    assert names(store, tonight) == ["a.jpg"]
    qtbot.mouseClick(put, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: names(store, OTHER) == ["a.jpg"] and names(store, tonight) == [])
    qtbot.waitUntil(lambda: strip.row.cells == [])
    assert strip.offers.isHidden()


def test_or_it_is_kept_here(qtbot, strip, store, tonight, tmp_path):
    strip.take([taken(tmp_path / "a.jpg", "2026:11:10 12:00:00"), taken(tmp_path / "b.jpg", "2026:11:09 12:00:00")])
    qtbot.waitUntil(lambda: len(strip.offers.buttons) == 2)
    assert [button.text() for button in strip.offers.buttons] == ["Keep them here", "Move each to its own night"]
    qtbot.mouseClick(strip.offers.buttons[0], Qt.MouseButton.LeftButton)
    assert strip.offers.isHidden() and focused() is strip.row.cells[0].thumbnail
    assert names(store, tonight) == ["a.jpg", "b.jpg"]


def test_where_one_slept_is_offered_from_the_position(qtbot, page, strip, store, tonight, tmp_path):
    places.add(store, Place("", "Visby", latitude=57.64, longitude=18.29))
    strip.take([taken(tmp_path / "a.jpg", latitude=57.65, longitude=18.30)])
    qtbot.waitUntil(lambda: len(strip.offers.buttons) == 1)
    assert strip.offers.buttons[0].text() == "Slept at Visby? (from the photo’s position)"
    assert nights.one(store, tonight).place is None
    qtbot.mouseClick(strip.offers.buttons[0], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: nights.one(store, tonight).place_source == "photo")
    qtbot.waitUntil(lambda: page.place.text() == "Visby")


def test_a_photo_of_another_night_says_nothing_of_where_one_is_tonight(qtbot, strip, store, tonight, tmp_path):
    places.add(store, Place("", "Visby", latitude=57.64, longitude=18.29))
    strip.take([taken(tmp_path / "a.jpg", "2026:11:10 12:00:00", latitude=57.65, longitude=18.30)])
    qtbot.waitUntil(lambda: len(strip.offers.buttons) == 2)
    qtbot.mouseClick(strip.offers.buttons[1], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: len(strip.offers.buttons) == 1)
    assert strip.offers.buttons[0].text() == "Slept at Visby on 10 November 2026? (from the photo’s position)"
    qtbot.mouseClick(strip.offers.buttons[0], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: nights.one(store, OTHER).place is not None)
    assert nights.one(store, tonight).place is None


def test_what_was_said_of_a_place_is_not_called_into_question(qtbot, strip, store, tonight, tmp_path, frame):
    there = places.add(store, Place("", "Visby", latitude=57.64, longitude=18.29))
    nights.set_place(store, tonight, there.id, "said", "2026-11-14T20:00:00Z")
    strip.take([taken(tmp_path / "a.jpg", latitude=57.65, longitude=18.30)])
    qtbot.waitUntil(lambda: "taken at Visby" in frame.said.text())
    assert strip.offers.isHidden()


def test_the_photo_of_the_night_comes_first_and_is_named(qtbot, three, store, tonight):
    three.row.focus(2)
    qtbot.keyClick(focused(), Qt.Key.Key_P)
    qtbot.waitUntil(lambda: shown(three) == ["c.jpg", "a.jpg", "b.jpg"])
    assert photos.photo_of_night(store, tonight).name == "c.jpg"
    first, second, _ = three.row.cells
    assert first.thumbnail.marked and first.thumbnail.height() > second.thumbnail.height()
    assert "the photo of the night" in first.thumbnail.accessibleName()
    qtbot.waitUntil(lambda: focused() is first.thumbnail)
    qtbot.keyClick(focused(), Qt.Key.Key_Right)
    qtbot.waitUntil(lambda: first.caption.placeholderText() == "photo of the night")


def test_keys_go_along_the_row(qtbot, three):
    three.row.focus(0)
    for key, place in ((Qt.Key.Key_Right, 1), (Qt.Key.Key_End, 2), (Qt.Key.Key_Right, 2), (Qt.Key.Key_Left, 1),
                       (Qt.Key.Key_Home, 0), (Qt.Key.Key_Left, 0)):  # fmt: skip
        qtbot.keyClick(focused(), key)
        assert three.row.place_with_keyboard() == place


def test_tab_goes_from_the_reflection_to_captions_and_from_the_buttons_to_photos(qtbot, page, three):
    cells = three.row.cells
    captions, pictures = [cell.caption for cell in cells], [cell.thumbnail for cell in cells]
    for start, wanted in (
        (page.fields["reflection"], [*captions, page.before]),
        (page.question.change, [*pictures, three.add, three.many]),
    ):
        start.setFocus()
        seen = []
        for _ in wanted:
            qtbot.keyClick(focused(), Qt.Key.Key_Tab)
            seen.append(focused())
        assert seen == wanted
    assert all(part.accessibleName() for part in wanted)


def test_delete_takes_a_photo_from_the_night_and_it_can_come_back(qtbot, frame, three, store, tonight):
    three.row.focus(0)
    qtbot.keyClick(focused(), Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: names(store, tonight) == ["b.jpg", "c.jpg"])
    qtbot.waitUntil(lambda: "stays in the keeper" in frame.said.text())
    assert focused() is three.row.cells[0].thumbnail
    assert photos.count(store) == 3
    qtbot.mouseClick(three.offers.buttons[0], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: shown(three) == ["a.jpg", "b.jpg", "c.jpg"])


def test_a_caption_is_kept_as_it_is_typed(qtbot, three, store, tonight):
    three.row.focus(1)
    qtbot.keyClick(focused(), Qt.Key.Key_F2)
    assert focused() is three.row.cells[1].caption
    qtbot.keyClicks(focused(), "The quay")
    qtbot.waitUntil(lambda: photos.of_night(store, tonight)[1].caption == "The quay")
    assert isinstance(focused(), QLineEdit)
    qtbot.keyClicks(focused(), ", early")
    qtbot.keyClick(focused(), Qt.Key.Key_Return)
    assert focused() is three.row.cells[1].thumbnail
    qtbot.waitUntil(lambda: photos.of_night(store, tonight)[1].caption == "The quay, early")
    qtbot.waitUntil(lambda: "The quay, early" in three.row.cells[1].thumbnail.accessibleName())


def test_closing_the_window_keeps_a_caption_under_way(qtbot, frame, three, store, tonight):
    three.write_caption(0)
    qtbot.keyClicks(three.row.cells[0].caption, "Half a cap")
    frame.close()
    assert photos.of_night(store, tonight)[0].caption == "Half a cap"


def test_a_caption_written_elsewhere_never_overwrites_one_being_written(qtbot, frame, three, store, tonight):
    three.write_caption(0)
    qtbot.keyClicks(three.row.cells[0].caption, "mine")
    actions.write_caption(store, three.photos[0].id, "theirs")
    actions.write_caption(store, three.photos[1].id, "theirs too")
    frame.desk.changed.emit()
    assert [cell.caption.text() for cell in three.row.cells] == ["mine", "theirs too", ""]


def test_a_photo_can_rest_and_wake(qtbot, three, store, tonight):
    three.row.focus(1)
    for rests in (True, False):
        qtbot.keyClick(focused(), Qt.Key.Key_R)
        qtbot.waitUntil(lambda rests=rests: three.photos[1].resting is rests)
        assert ("resting" in three.row.cells[1].thumbnail.accessibleName()) is rests
    assert not photos.of_night(store, tonight)[1].resting


def test_the_menu_tells_the_keys_and_does_the_same(qtbot, three, store, tonight):
    menu = three.menu(2)
    assert [action.text().split("\t")[1] for action in menu.actions()] == ["Enter", "P", "F2", "T", "Shift+T", "R", "Delete"]
    menu.actions()[6].trigger()
    qtbot.waitUntil(lambda: names(store, tonight) == ["a.jpg", "b.jpg"])


def test_another_night_shows_its_own(qtbot, frame, three, store):
    frame.go("night", OTHER)
    assert three.row.cells == [] and three.row.isHidden()
    frame.go("night", date(2026, 11, 14))
    assert shown(three) == ["a.jpg", "b.jpg", "c.jpg"]


def test_photos_that_come_late_go_to_the_night_they_were_dropped_on(qtbot, frame, strip, store, tonight, tmp_path):
    strip.take([taken(tmp_path / "a.jpg", "2026:11:10 12:00:00")])
    frame.go("night", OTHER)
    qtbot.waitUntil(lambda: names(store, tonight) == ["a.jpg"])
    qtbot.waitUntil(lambda: not strip.told.text())
    assert strip.offers.isHidden() and strip.row.cells == []


def test_small_pictures_come_and_a_lost_one_is_said(qtbot, three, frame, store):
    qtbot.waitUntil(lambda: all(thumbnail.seen_small(photo) for photo in three.photos))
    assert all(not cell.thumbnail.problem for cell in three.row.cells)
    lost = three.photos[1]
    photos.file_of(store, lost).unlink()
    shutil.rmtree(store.folder / "thumbnails", ignore_errors=True)
    thumbnail._seen.clear()
    three._dress()
    qtbot.waitUntil(lambda: three.row.cells[1].thumbnail.problem != "")
    assert "its file is gone" in three.row.cells[1].thumbnail.toolTip()
    assert not three.row.cells[1].thumbnail.grab().isNull()


def test_very_many_at_once_are_sorted_to_their_own_nights(qtbot, page, strip, tmp_path, monkeypatch):
    monkeypatch.setattr("keeper.window.photos.intake.MANY", 2)
    dropped(page.sheet, files(*(taken(tmp_path / f"{n}.jpg") for n in range(3))))
    assert strip.intake.bringing.isVisible() and len(strip.intake.bringing.sources) == 3


def test_beyond_a_couple_of_dozen_the_full_view_has_the_rest(qtbot, three, monkeypatch):
    monkeypatch.setattr("keeper.window.photos.strip.SHOWN", 2)
    three._dress()
    assert len(three.row.cells) == 2 and three.more.text() == "1 more"
    qtbot.mouseClick(three.more, Qt.MouseButton.LeftButton)
    assert three.view.photo == three.photos[2]
    three.view.close()


def test_nothing_of_photos_is_brought_in_before_one_can_type():
    told = subprocess.run(
        [sys.executable, "-c", "import sys; import keeper.window.frame.opening, keeper.window.night.page; "
         "print(*sys.modules)"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    brought = [name for name in told.stdout.split() if name.startswith(("keeper.window", "keeper.actions", "PIL"))]
    assert "keeper.window.night.page" in brought
    assert not [name for name in brought if "photo" in name or name.startswith("PIL")]
