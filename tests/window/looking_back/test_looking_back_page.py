"""Looking back, as it is shown."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from keeper.actions import writing
from keeper.store import lines
from keeper.window.looking_back.night import RememberedNight


def shown(page):
    return [page.nights.itemAt(i).widget() for i in range(page.nights.count())]


def texts(page):
    return [label.text() for night in shown(page) for label in night.findChildren(QLabel)]


def open_page(qtbot, frame, night):
    frame.go("looking back", night)
    page = frame.pages["looking back"]
    qtbot.waitUntil(lambda: page.found is not None and page.found.night == night and page._coming.over())
    return page


def test_other_years_come_newest_first(qtbot, frame, write, tonight):
    for year in (2019, 2024, 2022):
        write(date(year, 11, 14), "memory", f"of {year}")
    page = open_page(qtbot, frame, tonight)
    assert page.why.text() == "The same night, years apart"
    assert [text for text in texts(page) if text.startswith("of ")] == ["of 2024", "of 2022", "of 2019"]


def test_stand_ins_are_named_for_what_they_are(qtbot, frame, write, tonight):
    write(date(2024, 11, 16), "memory", "two days off")
    page = open_page(qtbot, frame, tonight)
    assert page.why.text().startswith("Nothing on this date in earlier years. The nearest nights")
    assert "two days off" in texts(page)


def test_a_new_keeper_says_that_it_will_come(qtbot, frame, tonight):
    page = open_page(qtbot, frame, tonight)
    assert page.why.text() == "Nothing from this week in earlier years yet."
    assert shown(page) == []


def test_a_line_set_to_rest_is_gone_at_once_and_stays_away(qtbot, frame, write, store, tonight):
    write(date(2024, 11, 14), "memory", "better left alone")
    write(date(2024, 11, 14), "gratitude", "a kind word")
    page = open_page(qtbot, frame, tonight)
    night = shown(page)[0]
    button = next(b for b in night.findChildren(type(night.heading)) if b.accessibleName() == "Let the memory rest")
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "better left alone" not in texts(page) and "a kind word" in texts(page))
    assert [line.resting for line in lines.of_night(store, date(2024, 11, 14))] == [False, True]


def test_words_are_never_taken_for_markup(qtbot, frame, write, tonight):
    write(date(2024, 11, 14), "memory", "<b>bold</b> & <img src=x>")
    page = open_page(qtbot, frame, tonight)
    label = next(label for label in shown(page)[0].findChildren(QLabel) if "bold" in label.text())
    assert label.textFormat() == Qt.TextFormat.PlainText


def test_a_heading_opens_its_night(qtbot, frame, write, tonight):
    write(date(2024, 11, 14), "memory", "then")
    page = open_page(qtbot, frame, tonight)
    assert isinstance(shown(page)[0], RememberedNight)
    qtbot.mouseClick(shown(page)[0].heading, Qt.MouseButton.LeftButton)
    assert (frame.page_shown(), frame.night) == ("night", date(2024, 11, 14))


def test_each_night_tells_its_weekday_its_place_and_how_far_it_lies(qtbot, frame, write, store, clock, tonight):
    write(date(2023, 11, 12), "memory", "of a Sunday")
    writing.set_place(store, date(2023, 11, 12), "Turku", clock)
    page = open_page(qtbot, frame, tonight)
    assert shown(page)[0].heading.text() == "Sunday 12 November 2023"
    assert "Three years and two days ago \u00b7 Turku" in texts(page)


def test_older_nights_come_a_few_at_a_time_and_only_those_shown_were_brought_up(qtbot, frame, write, store, tonight):
    for year in range(2006, 2026):
        write(date(year, 11, 14), "memory", f"of {year}")
    page = open_page(qtbot, frame, tonight)
    assert [night.night.date.year for night in shown(page)] == list(range(2025, 2020, -1))
    assert page.older.text() == "15 older nights"
    qtbot.waitUntil(lambda: len(store.rows("SELECT * FROM brought_up")) == 5)
    page.older.setFocus()
    qtbot.keyClick(page.older, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: page._coming.over() and len(shown(page)) == 15)
    assert page.older.text() == "5 older nights" and shown(page)[5].heading.hasFocus()
    qtbot.waitUntil(lambda: len(store.rows("SELECT * FROM brought_up")) == 15)
    frame.desk.changed.emit()
    frame.desk.reader.finish()
    # An answer that comes amid this changes nothing for whoever goes by keys.
    page.older.setFocus()
    qtbot.keyClick(page.older, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: page._coming.over() and len(shown(page)) == 20 and page.older.isHidden())
    assert shown(page)[15].heading.hasFocus()
    page = open_page(qtbot, frame, date(2026, 11, 13))
    assert len(shown(page)) == 5


def test_names_of_kinds_have_room_at_another_text_size(qtbot, frame, write, tonight):
    write(date(2025, 11, 14), "gratitude", "of a year ago")
    page = open_page(qtbot, frame, tonight)
    frame.desk.kept["text_size"] = "200"
    frame.dress_anew()
    kinds = lambda: [label for night in shown(page) for label in night.findChildren(QLabel) if label.text() == "Gratitude"]  # noqa: E731
    qtbot.waitUntil(lambda: bool(kinds()) and all(one.width() > one.fontMetrics().horizontalAdvance("Gratitude") for one in kinds()))
