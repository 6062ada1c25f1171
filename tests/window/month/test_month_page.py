"""The page of a month: its sheet, its chooser, side by side, its words."""

from datetime import date
from pathlib import Path

import pytest
import sample_pictures
from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel

from keeper import cautions
from keeper.actions import writing
from keeper.actions.months import shown as months
from keeper.actions.photos import kept as photos
from keeper.model import Reading, Tracker
from keeper.store import month_pages, resting, trackers
from keeper.window.month.folded import ANSWERS_FIRST
from keeper.window.month.reading_strips import NIGHTS
from keeper.window.month.sheet import NOTHING

NOVEMBER = date(2026, 11, 1)


def open_month(qtbot, frame, month=NOVEMBER):
    frame.go("month", month)
    page = frame.pages["month"]
    qtbot.waitUntil(page.sheet.is_shown)
    return page


def again(qtbot, sheet, true):
    """Ask anew until something is true of the sheet."""
    qtbot.waitUntil(lambda: sheet.is_shown() and true())


def seen(widget) -> list[str]:
    return [label.text() for label in widget.findChildren(QLabel) if label.isVisible()]


def press(button) -> None:
    button.click()


@pytest.fixture
def filled(store, write, clock):
    """Two weeks of November 2026."""
    months.ask_question(store, NOVEMBER, "What did I hear?")
    for day in range(1, 13):
        write(date(2026, 11, day), "memory", f"Evening {day} at the <b>harbour</b> & the quay.")
    write(date(2026, 11, 3), "reflection", "A bell & its echo.")
    for day in (2, 3):
        writing.set_place(store, date(2026, 11, day), "Visby", clock)
    tracker = trackers.add(store, Tracker("", "sleep", "hours", None, None, "h", "higher", date(2026, 1, 1)))
    trackers.note(store, [Reading(date(2026, 11, 2), tracker, 6.5), Reading(date(2026, 11, 3), tracker, 8.0)])
    return store


def test_an_empty_month_has_no_empty_rooms(qtbot, frame):
    sheet = open_month(qtbot, frame).sheet
    assert sheet.held.text() == NOTHING
    for part in (sheet.nights, sheet.readings, sheet.places, sheet.themes, sheet.apart, sheet.firsts, sheet.photo,
                 sheet.resting, sheet.goals_section.title, sheet.words.title, *sheet.ways):  # fmt: skip
        assert not part.isVisible()
    assert sheet.goals.more.isVisible() and not sheet.after.isEnabled()


def test_a_month_shows_what_it_holds(qtbot, frame, filled):
    sheet = open_month(qtbot, frame).sheet
    texts = seen(sheet)
    assert sheet.heading.text() == "November 2026"
    assert "12 nights kept, 13 lines" in texts and "What did I hear?" in texts and "A bell & its echo." in texts
    assert sheet.nights.model().rowCount() == 30
    assert "Visby" in texts and "first night in Visby" in texts
    assert any(text.endswith(cautions.LABEL) for text in texts)


def test_hostile_words_stay_words(qtbot, frame, filled):
    sheet = open_month(qtbot, frame).sheet
    model = sheet.nights.model()
    assert model.index(0, 0).data() == "Evening 1 at the <b>harbour</b> & the quay."
    tip = model.index(0, 0).data(Qt.ItemDataRole.ToolTipRole)
    assert "&lt;b&gt;harbour&lt;/b&gt; &amp; the quay" in tip and "<b>" not in tip
    assert all(label.textFormat() == Qt.TextFormat.PlainText for label in sheet.findChildren(QLabel))


def test_earlier_and_later_by_button_and_by_key(qtbot, frame, filled):
    page = open_month(qtbot, frame)
    press(page.sheet.before)
    assert page.sheet.heading.text() == "October 2026" and frame.night == date(2026, 10, 1)
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_PageUp, Qt.KeyboardModifier.AltModifier)
    assert page.sheet.heading.text() == "September 2026"
    for _ in range(3):
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_PageDown, Qt.KeyboardModifier.AltModifier)
    assert page.sheet.heading.text() == "November 2026" and not page.sheet.after.isEnabled()
    qtbot.waitUntil(page.sheet.is_shown)


def test_the_night_one_is_on_is_shown_in_full_and_enter_opens_it(qtbot, frame, write):
    write(date(2026, 11, 2), "memory", "A long evening. " * 40)
    sheet = open_month(qtbot, frame).sheet
    folded = sheet.nights.visualRect(sheet.nights.model().index(1, 0)).height()
    sheet.nights.setFocus()
    qtbot.keyClick(sheet.nights, Qt.Key.Key_Down)
    index = sheet.nights.currentIndex()
    assert index.row() == 1 and sheet.nights.rows.unfolded(index)
    assert sheet.nights.visualRect(index).height() > 3 * folded
    assert sheet.nights.height() >= sheet.nights.visualRect(sheet.nights.model().index(29, 0)).bottom()
    qtbot.keyClick(sheet.nights, Qt.Key.Key_Return)
    assert (frame.page_shown(), frame.night) == ("night", date(2026, 11, 2))


def test_every_night_tells_itself_to_a_screen_reader(qtbot, frame, filled):
    model = open_month(qtbot, frame).sheet.nights.model()
    told = [model.index(row, 0).data(Qt.ItemDataRole.AccessibleTextRole) for row in (1, 2, 20)]
    assert told[0] == "Mon 2 Nov. Visby. Evening 2 at the <b>harbour</b> & the quay."
    # The tint beside a day is there on each night of a stay.
    assert told[1].startswith("Tue 3 Nov. Visby. Evening 3")
    assert told[2] == "Sat 21 Nov. nothing written"


def test_what_rests_comes_only_when_it_is_asked_for(qtbot, frame, filled, store):
    resting.rest_span(store, date(2026, 11, 1), date(2026, 11, 1))
    sheet = open_month(qtbot, frame).sheet
    assert sheet.nights.model().index(0, 0).data() == "" and sheet.resting.isVisible()
    press(sheet.resting)
    again(qtbot, sheet, lambda: "Evening 1 " in sheet.nights.model().index(0, 0).data())
    assert sheet.resting.text() == "Hide what rests"
    frame.go("month", date(2026, 10, 1))
    qtbot.waitUntil(lambda: sheet.view.month == date(2026, 10, 1))
    frame.go("month", NOVEMBER)
    again(qtbot, sheet, lambda: sheet.view.month == NOVEMBER)
    assert sheet.nights.model().index(0, 0).data() == ""


def test_many_answers_are_folded_until_one_asks(qtbot, frame, filled, write):
    for day in range(1, 31):
        write(date(2026, 10, day), "reflection", f"answer {day}")
    writing.ask_question(filled, date(2026, 10, 1), "What was new?")
    sheet = open_month(qtbot, frame, date(2026, 10, 1)).sheet
    assert len([text for text in seen(sheet) if text.startswith("answer ")]) == ANSWERS_FIRST
    assert sheet.answers.more.text() == f"and {30 - ANSWERS_FIRST} more"
    press(sheet.answers.more)
    again(qtbot, sheet, lambda: len([text for text in seen(sheet) if text.startswith("answer ")]) == 30)


# goals and words


def goals(store, month=NOVEMBER):
    return [(goal.text, goal.outcome, goal.word) for goal in month_pages.one(store, month).goals]


def test_goals_are_written_and_closed_by_keyboard_alone(qtbot, frame, store):
    sheet = open_month(qtbot, frame).sheet
    box = sheet.goals
    box.more.setFocus()
    for text in ("Swim once", "Write to Ilze"):
        qtbot.keyClicks(box.more, text)
        qtbot.keyClick(box.more, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda text=text: text in [one[0] for one in goals(store)])
    qtbot.waitUntil(lambda: len(box.rows) == 2)
    qtbot.keyClick(box.more, Qt.Key.Key_Up)
    qtbot.waitUntil(lambda: box.rows[1].text.hasFocus())
    qtbot.keyClick(box.rows[1].text, Qt.Key.Key_Tab)
    qtbot.waitUntil(lambda: box.rows[1].outcome.hasFocus())
    qtbot.keyClick(box.rows[1].outcome, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: goals(store)[1][1] == "done")
    qtbot.waitUntil(lambda: box.rows[1].goal.outcome == "done" and box.rows[1].word.isVisible())
    box.rows[1].word.setFocus()
    qtbot.keyClicks(box.rows[1].word, "at last")
    qtbot.keyClick(box.rows[1].word, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: goals(store) == [("Swim once", "set", ""), ("Write to Ilze", "done", "at last")])


def test_a_goal_emptied_is_gone_and_one_carried_on_goes_on(qtbot, frame, store):
    months.add_goal(store, NOVEMBER, "Swim")
    months.add_goal(store, NOVEMBER, "Sing")
    box = open_month(qtbot, frame).sheet.goals
    box.rows[0].text.setFocus()
    box.rows[0].text.clear()
    qtbot.keyClick(box.rows[0].text, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: [one[0] for one in goals(store)] == ["Sing"] and len(box.rows) == 1)
    box.rows[0].outcome.setCurrentIndex(2)
    box.rows[0].outcome.activated.emit(2)
    qtbot.waitUntil(lambda: goals(store, date(2026, 12, 1)) == [("Sing", "set", "")])


def test_what_is_being_typed_is_kept_when_the_month_or_the_program_is_left(qtbot, frame, store):
    page = open_month(qtbot, frame)
    page.sheet.words.field.setPlainText("A quiet month.")
    press(page.sheet.before)
    qtbot.waitUntil(lambda: month_pages.one(store, NOVEMBER).words == "A quiet month.")
    qtbot.waitUntil(page.sheet.is_shown)
    page.sheet.goals.more.setFocus()
    qtbot.keyClicks(page.sheet.goals.more, "Half a goal")
    page.sheet.words.field.setPlainText("October too.")
    assert frame.close()
    october = month_pages.one(store, date(2026, 10, 1))
    assert (october.words, [goal.text for goal in october.goals]) == ("October too.", ["Half a goal"])


# the photo


@pytest.fixture
def two_photos(store, clock, tmp_path):
    first = photos.take_in(store, sample_pictures.save(tmp_path / "one.jpg"), clock, date(2026, 11, 2)).photo
    other = sample_pictures.save(tmp_path / "two.jpg", sample_pictures.quarters(60, 40))
    return first, photos.take_in(store, other, clock, date(2026, 11, 9)).photo


def test_the_photo_is_chosen_from_those_of_the_month(qtbot, frame, store, two_photos):
    sheet = open_month(qtbot, frame).sheet
    press(sheet.choose)
    chooser = sheet.chooser
    qtbot.waitUntil(lambda: chooser.list.count() == 2)
    chooser.list.setCurrentRow(1)
    qtbot.keyClick(chooser.list, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: sheet.photo.photo is not None and sheet.photo.photo.id == two_photos[1].id)
    qtbot.waitUntil(lambda: sheet.photo._pixels is not None)
    assert sheet.photo.isVisible() and month_pages.one(store, NOVEMBER).photo_id == two_photos[1].id
    qtbot.waitUntil(lambda: "chosen" in chooser.list.item(1).text())
    press(chooser.none)
    qtbot.waitUntil(lambda: not sheet.photo.isVisible())


def test_any_file_can_be_the_photo_and_what_is_none_is_told(qtbot, frame, store, tmp_path):
    sheet = open_month(qtbot, frame).sheet
    sheet.chooser.show_month(NOVEMBER, None)
    sheet.chooser.bring(sample_pictures.save(tmp_path / "any.jpg"))
    qtbot.waitUntil(lambda: sheet.photo.isVisible())
    (tmp_path / "none.jpg").write_text("no picture")
    sheet.chooser.bring(tmp_path / "none.jpg")
    qtbot.waitUntil(lambda: "none.jpg" in frame.said.text())


# readings


def test_readings_tell_the_night_pointed_at(qtbot, frame, filled):
    strips = open_month(qtbot, frame).sheet.strips
    assert strips.accessibleDescription() == "sleep: 6:30 to 8:00, noted on 2 nights"
    strips.setFocus()
    qtbot.keyClick(strips, Qt.Key.Key_Right)
    assert strips.day == 2 and strips.told(2) == "Mon 2 Nov \u00b7 sleep 6:30"
    assert strips.told(9) == "Mon 9 Nov \u00b7 nothing noted"
    qtbot.keyClick(strips, Qt.Key.Key_End)
    qtbot.keyClick(strips, Qt.Key.Key_Right)
    assert strips.day == NIGHTS


def test_a_night_stands_at_the_same_spot_in_every_month(qtbot, frame, filled, write):
    write(date(2026, 2, 3), "memory", "February")
    trackers.note(filled, [Reading(date(2026, 2, 3), trackers.every(filled)[0].id, 7.0)])
    sheet = open_month(qtbot, frame).sheet
    spot = sheet.strips._x(14), sheet.strips.height()
    sheet = open_month(qtbot, frame, date(2026, 2, 1)).sheet
    again(qtbot, sheet, lambda: sheet.view.month.month == 2)
    assert (sheet.strips._x(14), sheet.strips.height()) == spot


# side by side


def named(part, name):
    """The button of this name, or None while it is not there."""
    return next((button for button in part.findChildren(QAbstractButton) if button.accessibleName() == name), None)


def test_side_by_side_begins_with_a_year_ago_and_takes_up_to_four(qtbot, frame, filled, write):
    for month, name in ((date(2025, 11, 5), "November"), (date(2026, 9, 5), "September"), (date(2026, 8, 5), "August")):
        write(month, "memory", f"of {name}")
    page = open_month(qtbot, frame)
    press(page.sheet.ways[0])
    beside = page.others["beside"]
    qtbot.waitUntil(beside.is_shown)
    assert [view.month for view in beside.views] == [date(2025, 11, 1), NOVEMBER]
    for month in (date(2026, 9, 1), date(2026, 8, 1)):
        qtbot.waitUntil(lambda month=month: beside.more.findData(month.isoformat()) > 0)
        beside.more.setCurrentIndex(beside.more.findData(month.isoformat()))
        beside.more.activated.emit(0)
    qtbot.waitUntil(lambda: len(beside.views) == 4 and beside.is_shown())
    qtbot.waitUntil(lambda: not beside.more.isEnabled())
    beside.strips.point_at(5)
    qtbot.waitUntil(lambda: "of September" in seen(beside))
    assert beside.strips.told(5).startswith("5 \u00b7 Lines Nov 2025 1")
    qtbot.waitUntil(lambda: named(beside, "Remove August 2026") is not None)
    press(named(beside, "Remove August 2026"))
    qtbot.waitUntil(lambda: len(beside.views) == 3)
    qtbot.keyClick(beside.strips, Qt.Key.Key_Escape)
    assert page.currentWidget() is page.sheet


def test_the_same_month_of_every_year(qtbot, frame, filled, write):
    for year in range(2005, 2026):
        write(date(year, 11, 14), "memory", f"of {year}")
    page = open_month(qtbot, frame)
    press(page.sheet.ways[1])
    beside = page.others["beside"]
    qtbot.waitUntil(lambda: len(beside.views) == 22 and beside.is_shown())
    assert beside.heading.text() == "November of every year"
    assert [view.month.year for view in beside.views] == list(range(2026, 2004, -1))
    beside.what.setCurrentText("sleep, h")
    beside.what.activated.emit(2)
    assert [strip.name for strip in beside.strips.strips] == ["2026"]


# the picture of words


@pytest.fixture
def picture(qtbot, frame, filled):
    page = open_month(qtbot, frame)
    press(page.sheet.ways[2])
    shown = page.others["words"]
    qtbot.waitUntil(lambda: shown.picture is not None)
    return shown


def test_each_word_is_a_thing_that_leads_to_its_lines(qtbot, frame, picture):
    item = next(one for one in picture.view.items if one.placed.word == "harbour")
    told = QAccessible.queryAccessibleInterface(item)
    name = told.text(QAccessible.Text.Name)
    assert name.startswith("harbour, 12 times, about ") and name.endswith("2026, most at Visby") and told.role() == QAccessible.Role.Button
    item.setFocus()
    qtbot.keyClick(item, Qt.Key.Key_Return)
    assert frame.page_shown() == "find"
    find = frame.pages["find"]
    assert find.typed.text().startswith("harbour") and find.first.text() == find.last.text() == "2026-11"
    qtbot.waitUntil(lambda: find.model.rowCount() == 12)


def test_words_are_tinted_by_place_when_asked_and_never_by_hue_alone(qtbot, frame, picture, tmp_path):
    assert picture.places is None and picture.by_place.isVisible()
    picture.by_place.click()
    named = [one.text() for one in picture.places.findChildren(QLabel)]
    assert named[0] == picture.picture.places[0].name and "Visby" in named
    picture.save(tmp_path / "tinted.svg")
    assert "1 " + named[0] + "</text>" in (tmp_path / "tinted.svg").read_text("utf-8")
    tinted = picture.as_image()
    picture.by_place.click()
    assert picture.places is None and picture.as_image() != tinted


def test_the_picture_is_saved_as_svg_and_png(qtbot, frame, picture, tmp_path):
    picture.save(tmp_path / "words.svg")
    picture.save(tmp_path / "words.png")
    assert "harbour</text>" in (tmp_path / "words.svg").read_text("utf-8")
    assert (tmp_path / "words.png").read_bytes().startswith(b"\x89PNG")
    picture.save(Path(tmp_path / "nowhere" / "words.svg"))
    assert "cannot be written" in frame.said.text()


def test_words_keep_their_place_when_the_window_changes(qtbot, frame, picture):
    item = picture.view.items[0]
    before = item.x() / picture.view.width()
    frame.resize(700, 600)
    qtbot.waitUntil(lambda: picture.view.width() < 690)
    assert abs(item.x() / picture.view.width() - before) < 0.03
    assert QRect(0, 0, picture.view.width(), picture.view.height()).adjusted(-8, -8, 8, 8).contains(item.geometry())


def test_the_mouse_points_at_nights(qtbot, frame, filled):
    strips = open_month(qtbot, frame).sheet.strips
    assert strips.day == 0
    strips.point_at(round(QPointF(3, 0).x()))
    assert strips.day == 3
