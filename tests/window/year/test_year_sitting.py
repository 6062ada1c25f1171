"""The sitting with a year: step by step, left, and taken up again."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from year_pages import all_shown

from keeper.actions.years import shown as years
from keeper.actions.years import sitting as year_sitting
from keeper.actions.years.sitting import CLOSING
from keeper.model import Photo
from keeper.store import year_pages
from keeper.store.photos import known as photos
from keeper.window.year import dialogs as year_dialogs
from keeper.window.year.sitting.offer import SIT

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def lines_of_three_months(write):
    return [write(date(2026, month, day), "memory", f"Line {day} of month {month}.").id
            for month in (6, 7, 9) for day in range(1, 9)]  # fmt: skip


@pytest.fixture
def sit(qtbot, frame, lines_of_three_months):
    """Sits down with 2026 and returns the sitting."""

    def sit_down(year: int = 2026):
        frame.desk.go("year", min(date(year, 12, 31), frame.desk.tonight()), SIT)
        sitting = frame.pages["year"].sitting
        qtbot.waitUntil(lambda: sitting.month.isVisible() or sitting.closing.isVisible())
        return sitting

    return sit_down


def onward(qtbot, sitting, heading: str):
    qtbot.mouseClick(sitting.onward, LEFT)
    qtbot.waitUntil(lambda: sitting.heading.text() == heading)


def add_photo(store, night: date, number: int) -> Photo:
    photo = photos.add(store, Photo("", f"{number:064x}", "jpg", 10, 40, 30, caption=f"photo {number}"))
    photos.attach(store, night, photo.id)
    return photo


def test_it_goes_from_month_to_month_and_to_the_questions(qtbot, sit, store):
    sitting = sit()
    assert sitting.heading.text() == "June 2026"
    assert "month 1 of 3" in sitting.told.text()
    assert len(sitting.month.rows.lines) == 5
    onward(qtbot, sitting, "July 2026")
    onward(qtbot, sitting, "September 2026")
    assert sitting.onward.text() == "Keep these, on to the questions"
    onward(qtbot, sitting, "The end of 2026")
    assert list(sitting.closing.fields) == list(year_sitting.closing_questions())
    assert sitting.desk.writer.finish()
    page = year_pages.one(store, 2026)
    assert (page.settled, page.at) == ({6, 7, 9}, CLOSING)


def test_left_and_taken_up_again_where_it_was(qtbot, frame, sit):
    sitting = sit()
    onward(qtbot, sitting, "July 2026")
    qtbot.keyClick(frame.pages["year"], Qt.Key.Key_Escape)
    overview = frame.pages["year"].overview
    qtbot.waitUntil(lambda: overview.isVisible() and overview.sit.text() == "Go on with 2026")
    qtbot.mouseClick(overview.sit, LEFT)
    qtbot.waitUntil(lambda: sitting.isVisible() and sitting.heading.text() == "July 2026")


def test_taken_up_by_another_window(qtbot, frame, sit, opened):
    onward(qtbot, sit(), "July 2026")
    frame.close()
    again = opened()
    again.desk.go("year", again.desk.tonight(), SIT)
    sitting = again.pages["year"].sitting
    qtbot.waitUntil(lambda: sitting.heading.text() == "July 2026")


def test_a_line_left_out_stays_out_and_one_more_can_be_taken(qtbot, sit, store, monkeypatch):
    sitting = sit()
    rows, gone = sitting.month.rows, sitting.month.rows.lines[0]
    qtbot.mouseClick(rows._rows[0][2], LEFT)
    qtbot.waitUntil(lambda: gone not in rows.lines and sitting.month.more.isVisible())

    def take_last(dialog):
        qtbot.waitUntil(dialog.take.isEnabled)
        assert not dialog.months.isVisible()
        dialog.list.setCurrentIndex(dialog.model.index(dialog.model.rowCount() - 1, 0))
        dialog._take()
        return dialog.result()

    monkeypatch.setattr(year_dialogs.LineDialog, "exec", take_last)
    qtbot.mouseClick(sitting.month.more, LEFT)
    qtbot.waitUntil(lambda: len(rows.lines) == 5)
    assert gone not in rows.lines and not sitting.month.more.isVisible()
    kept = years.year_page(store, 2026).months[5].lines
    assert kept == rows.lines


def test_a_photo_is_changed_and_dropped(qtbot, sit, store, monkeypatch):
    first, second = add_photo(store, date(2026, 6, 2), 1), add_photo(store, date(2026, 6, 3), 2)
    sitting = sit()
    month = sitting.month
    qtbot.waitUntil(lambda: month.photo.photo is not None and month.photo.photo.id == first.id)

    def take_it(dialog):
        dialog._take(second)
        return dialog.result()

    monkeypatch.setattr(year_dialogs.PhotoDialog, "exec", take_it)
    qtbot.mouseClick(month.change, LEFT)
    qtbot.waitUntil(lambda: month.photo.photo.id == second.id and month.caption.text() == "photo 2")
    qtbot.mouseClick(month.drop, LEFT)
    qtbot.waitUntil(lambda: month.photo.photo is None and not month.photo.isVisible())
    assert month.caption.text() == "No photo for this month." and month.change.text() == "Choose a photo"
    qtbot.mouseClick(month.again, LEFT)
    qtbot.waitUntil(lambda: month.photo.photo is not None and month.photo.photo.id == first.id)


def test_the_photos_of_the_dialog_can_be_pressed(qtbot, frame, store, sit):
    photo = add_photo(store, date(2026, 6, 2), 1)
    dialog = year_dialogs.PhotoDialog(frame.desk, [photo], frame)
    dialog.grid.itemAt(0).widget().click()
    assert dialog.chosen == photo


def test_turning_to_another_month_decides_nothing(qtbot, sit, store):
    sitting = sit()
    sitting._group.button(9).click()
    qtbot.waitUntil(lambda: sitting.heading.text() == "September 2026")
    assert sitting._group.button(9).isChecked()
    qtbot.mouseClick(sitting.former, LEFT)
    qtbot.waitUntil(lambda: sitting.heading.text() == "July 2026")
    assert sitting.desk.writer.finish()
    assert year_pages.one(store, 2026).settled == frozenset()


def test_answers_are_kept_as_they_are_left_and_the_year_is_closed(qtbot, frame, sit, store):
    sitting = sit()
    sitting._group.button(CLOSING).click()
    qtbot.waitUntil(sitting.closing.isVisible)
    first, second, *_ = sitting.closing.fields.values()
    first.setFocus()
    qtbot.keyClicks(first, "A *calm* year & more")
    qtbot.keyClick(first, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: len(year_pages.one(store, 2026).answers) == 1)
    assert second.hasFocus()
    qtbot.keyClicks(second, "Oddny")
    qtbot.mouseClick(sitting.onward, LEFT)
    overview = frame.pages["year"].overview
    qtbot.waitUntil(lambda: overview.isVisible() and overview.sit.text() == "Open the sitting again")
    qtbot.waitUntil(lambda: all_shown(overview))
    assert [one.answer for one in overview.review.answers] == ["A *calm* year & more", "Oddny"]


def test_what_is_being_typed_is_kept_when_the_window_closes(qtbot, frame, sit, store):
    sitting = sit()
    sitting._group.button(CLOSING).click()
    qtbot.waitUntil(sitting.closing.isVisible)
    next(iter(sitting.closing.fields.values())).insertPlainText("half a th")
    frame.close()
    assert [one.answer for one in year_pages.one(store, 2026).answers] == ["half a th"]


def test_what_is_being_typed_survives_news_from_elsewhere(qtbot, frame, sit, write):
    sitting = sit()
    sitting._group.button(CLOSING).click()
    qtbot.waitUntil(sitting.closing.isVisible)
    field = next(iter(sitting.closing.fields.values()))
    field.insertPlainText("still typing")
    write(date(2026, 10, 1), "memory", "from elsewhere")
    with qtbot.waitSignal(frame.desk.changed):
        frame._look_round()
    assert frame.desk.reader.finish()
    qtbot.waitUntil(lambda: 10 in sitting.steps)
    assert field.toPlainText() == "still typing"


def test_a_thin_year_of_one_line(qtbot, frame, write):
    write(date(2025, 3, 9), "gratitude", "The tide was out.")
    frame.desk.go("year", date(2025, 12, 31), SIT)
    sitting = frame.pages["year"].sitting
    qtbot.waitUntil(sitting.month.isVisible)
    assert sitting.heading.text() == "March 2025"
    assert not sitting.month.photo.isVisible() and not sitting.month.change.isVisible()
    onward(qtbot, sitting, "The end of 2025")
