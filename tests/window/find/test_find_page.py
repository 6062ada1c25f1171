"""Find, typed into as a person would."""

from datetime import date

import pytest
from PySide6.QtCore import Qt

from keeper.actions import writing


@pytest.fixture
def find(qtbot, frame, write, store, clock):
    write(date(2024, 3, 1), "memory", "The ferry to Rønne was late.")
    write(date(2024, 3, 1), "gratitude", "Herring on the ferry.")
    write(date(2025, 8, 9), "memory", "No ferries today; café instead.")
    writing.set_place(store, date(2025, 8, 9), "Visby", clock)
    frame.go("find")
    return frame.pages["find"]


def found(find):
    """What has every word."""
    rows = (find.model.at(i) for i in range(find.model.rowCount()))
    return [row.line.text for row in rows if not row.near]


def test_it_answers_as_one_types_newest_first(qtbot, find):
    qtbot.keyClicks(find.typed, "ferr")
    qtbot.waitUntil(lambda: len(found(find)) == 3)
    assert found(find)[0].startswith("No ferries")
    qtbot.waitUntil(lambda: find.told.text() == "3 lines")
    qtbot.keyClicks(find.typed, "y late")
    qtbot.waitUntil(lambda: found(find) == ["The ferry to Rønne was late."])


def test_accents_may_be_left_out_and_quotes_ask_for_the_very_word(qtbot, find):
    qtbot.keyClicks(find.typed, "ronne")
    qtbot.waitUntil(lambda: len(found(find)) == 1)
    find.typed.setText('"ferries"')
    qtbot.waitUntil(lambda: found(find) == ["No ferries today; café instead."])
    find.typed.setText('"ferrie"')
    qtbot.waitUntil(lambda: find.told.text() == "No line has the word.")


def test_controls_narrow(qtbot, find):
    find.typed.setText("ferr")
    find.kind.setCurrentIndex(find.kind.findData("gratitude"))
    qtbot.waitUntil(lambda: found(find) == ["Herring on the ferry."])
    find.kind.setCurrentIndex(0)
    find.place.setCurrentIndex(find.place.findText("Visby"))
    qtbot.waitUntil(lambda: found(find) == ["No ferries today; café instead."])
    find.place.setCurrentIndex(0)
    find.last.setText("2024")
    qtbot.waitUntil(lambda: len(found(find)) == 2)
    find.last.setText("2024-02")
    qtbot.waitUntil(lambda: found(find) == [])


def test_a_date_that_is_none_is_said_beside_the_fields_and_narrows_nothing(qtbot, find):
    find.typed.setText("ferr")
    qtbot.waitUntil(lambda: len(found(find)) > 1)
    all_of_them = found(find)
    find.last.setText("2024-02")
    qtbot.waitUntil(lambda: found(find) == [])
    assert find.dates_told.text() == "Until February 2024"
    find.last.setText("2025-02-31")
    qtbot.waitUntil(lambda: found(find) == all_of_them)
    assert find.dates_told.isVisible() and "28 days" in find.dates_told.text()
    assert find.sought().last is None
    find.last.clear()
    assert not find.dates_told.isVisible()


@pytest.mark.parametrize(
    ("first", "last", "told"),
    [
        ("1.2.2024", "last sunday", "From Thursday 1 February 2024 until Sunday 8 November 2026"),
        ("feb 2024", "2025", "From February 2024 until 2025"),
        ("soon", "2025", "Until 2025. \u201csoon\u201d is not a date. Write one such as 2026-11-14, 14 November 2026 or yesterday."),
        ("june 2026", "2026-06", "June 2026"),
        ("soon", "soon", "\u201csoon\u201d is not a date. Write one such as 2026-11-14, 14 November 2026 or yesterday."),
        ("", "", ""),
    ],
)
def test_what_was_understood_is_told_in_words(find, first, last, told):
    find.first.setText(first)
    find.last.setText(last)
    assert (find.dates_told.text(), find.dates_told.isVisible()) == (told, bool(told))


def test_controls_alone_find_without_words(qtbot, find):
    find.place.setCurrentIndex(find.place.findText("Visby"))
    qtbot.waitUntil(lambda: len(found(find)) == 1)


@pytest.mark.parametrize("typed", ['"', "'", "*", "ferry AND", "NEAR(", "a:b", "\\", "%", "🎹", "-ferry", ";--"])
def test_any_character_may_be_typed(qtbot, find, typed):
    find.typed.setText(typed)
    find.ask()
    assert find.desk.reader.finish(5)
    qtbot.wait(20)
    assert "unexpected" not in find.told.text()


def test_a_click_and_enter_go_to_the_night(qtbot, frame, find):
    find.typed.setText("late")
    qtbot.waitUntil(lambda: len(found(find)) == 1)
    qtbot.keyClick(find.typed, Qt.Key.Key_Down)
    qtbot.keyClick(find.answers, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: frame.page_shown() == "night")
    assert frame.night == date(2024, 3, 1)


def test_best_match_first(qtbot, find, write):
    write(date(2026, 1, 1), "memory", "A long day with a great many words in it, and one ferry far off at the end of them.")
    find.typed.setText("ferry")
    find.order.setChecked(True)
    qtbot.waitUntil(lambda: len(found(find)) == 3)
    qtbot.waitUntil(lambda: found(find)[0] == "Herring on the ferry.")


def test_more_answers_come_when_scrolled(qtbot, frame, write):
    for number in range(120):
        write(date(2026, 1, 1).replace(month=1 + number // 28, day=1 + number % 28), "memory", f"ferry {number}")
    frame.go("find")
    find = frame.pages["find"]
    find.typed.setText("ferry")
    qtbot.waitUntil(lambda: find.model.rowCount() == 50)
    find.answers.scrollToBottom()
    find.model.fetchMore(find.answers.rootIndex())
    qtbot.waitUntil(lambda: find.model.rowCount() >= 100)


def nearest(find):
    """The texts of the nearest lines, in their order."""
    rows = (find.model.at(i) for i in range(find.model.rowCount()))
    return [row.line.text for row in rows if row.near]


def test_the_nearest_come_beneath_and_are_told_as_such(qtbot, find):
    find.typed.setText("herrings ferry")
    qtbot.waitUntil(lambda: len(nearest(find)) == 3)
    assert (found(find), find.told.text()) == ([], "No line has every word.")
    assert nearest(find)[0] == "Herring on the ferry."
    assert [find.model.begins_nearest(row) for row in range(3)] == [True, False, False]
    spoken = find.model.data(find.model.index(0, 0), Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.startswith("Nearest. ")
    find.typed.setText("herring")
    qtbot.waitUntil(lambda: found(find) == ["Herring on the ferry."])
    qtbot.waitUntil(lambda: find.told.text() != "No line has every word.")


def test_a_row_that_begins_the_nearest_has_room_for_a_heading(qtbot, find):
    find.typed.setText("herrings ferry")
    qtbot.waitUntil(lambda: len(nearest(find)) == 3)
    first, second = (find.answers.sizeHintForIndex(find.model.index(row, 0)).height() for row in (0, 1))
    assert first > second + find.desk.look.px(2)


def test_more_like_a_line_from_the_list_and_from_its_night(qtbot, frame, find):
    assert find.more_like.isHidden()
    find.typed.setText("late")
    qtbot.waitUntil(lambda: found(find) == ["The ferry to Rønne was late."])
    qtbot.keyClick(find.typed, Qt.Key.Key_Down)
    qtbot.keyClick(find.answers, Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: nearest(find) == ["No ferries today; café instead."])
    assert find.told.text() == "Like the memory of Friday 1 March 2024, in other years"
    find.typed.setText("herring")
    qtbot.waitUntil(lambda: found(find) == ["Herring on the ferry."])
    frame.go("night", date(2025, 8, 9))
    frame.pages["night"].blocks["memory"].like.click()
    qtbot.waitUntil(lambda: frame.page_shown() == "find" and len(nearest(find)) == 2)
