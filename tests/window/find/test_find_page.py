"""Find, typed into as a person would."""

import threading
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from waiting.at_rest import at_rest

from keeper.actions import drafts, finding, writing


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


def only(qtbot, find, typed):
    """Narrow to what is typed into the sentence."""
    qtbot.waitUntil(lambda: find.sentence.only.known is not None)
    find.sentence.only.setText(typed)
    qtbot.keyClick(find.sentence.only, Qt.Key.Key_Return)


def words(find):
    """What narrows, as it stands there."""
    return [word.text() for word in find.sentence.words]


def test_phrases_narrow_and_are_taken_off_by_key(qtbot, find):
    find.typed.setText("ferr")
    only(qtbot, find, "gratitude")
    qtbot.waitUntil(lambda: found(find) == ["Herring on the ferry."])
    only(qtbot, find, "visby")
    qtbot.waitUntil(lambda: found(find) == [])
    assert words(find) == ["kept as Gratitude", "in Visby"]
    qtbot.keyClick(find.sentence.words[0], Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: found(find) == ["No ferries today; café instead."])
    assert words(find) == ["in Visby"] and find.window().focusWidget() is find.sentence.words[0]
    qtbot.keyClick(find.sentence.only, Qt.Key.Key_Backspace)
    assert words(find) == []
    find.last.setText("2024")
    qtbot.waitUntil(lambda: len(found(find)) == 2)
    find.last.setText("2024-02")
    qtbot.waitUntil(lambda: found(find) == [])


def test_several_of_one_sort_read_as_one_sentence(qtbot, find):
    for typed in ("on saturdays", "friday", "winter", "summer", "in 2025"):
        only(qtbot, find, typed)
    assert words(find) == ["on Fridays", "or Saturdays", "in winter", "or summer"]
    assert (find.sought().first, find.first.text(), find.last.text()) == (date(2025, 1, 1), "2025-01", "2025-12")
    qtbot.waitUntil(lambda: found(find) == ["No ferries today; café instead."])


def test_what_is_no_phrase_is_said_and_stays_to_be_mended(qtbot, find):
    with qtbot.waitSignal(find.desk.said) as said:
        only(qtbot, find, "xyzzy")
    assert "xyzzy" in said.args[0] and find.sentence.only.text() == "xyzzy" and words(find) == []


def test_a_list_of_what_can_be_said_opens_by_key(qtbot, find):
    qtbot.waitUntil(lambda: find.sentence.only.known is not None)
    qtbot.keyClick(find.sentence.only, Qt.Key.Key_Down)
    popup = find.sentence.only.list.popup()
    assert popup.isVisible() and popup.model().index(0, 0).data() == "with a photo"
    popup.hide()
    qtbot.keyClicks(find.sentence.only, "vis")
    assert [row[0].text for row in find.sentence.only.rows] == ["in Visby"]
    qtbot.keyClick(popup, Qt.Key.Key_Return)
    assert words(find) == ["in Visby"] and find.sentence.only.text() == ""


def test_what_is_typed_is_read_as_a_person_would_and_its_lines_are_listed(qtbot, find):
    find.typed.setText("a saturday in visby")
    qtbot.waitUntil(lambda: find.model.rowCount() > 0)
    assert find.model.heading(0) == "In Visby, on Saturdays (1)"
    assert find.model.at(0).line.text == "No ferries today; café instead."
    qtbot.waitUntil(lambda: any(one.what == "Lines" for one in find.besides.shown))
    find.desk.go(find.besides.shown[0].page, None, find.besides.shown[0].thing)
    qtbot.waitUntil(lambda: found(find) == ["No ferries today; café instead."])
    assert (find.typed.text(), words(find)) == ("", ["in Visby", "on Saturdays"])


def test_what_was_found_stands_out_in_the_ribbon_and_is_shown_by_month_and_on_the_map(qtbot, frame, find):
    find.typed.setText("ferr")
    qtbot.waitUntil(lambda: find.only == {date(2024, 3, 1), date(2025, 8, 9)})
    assert frame.ribbon.year == 2025
    find.shown_as.choice.setCurrentText("by month")
    qtbot.waitUntil(lambda: find.shown_as.months.rows.months == ((date(2025, 8, 1), 1), (date(2024, 3, 1), 2)))
    find.shown_as.choice.setCurrentText("on the map")
    qtbot.waitUntil(lambda: find.shown_as.map.told.text() == "1 night at 1 place; 1 night at a place without a position.")
    find.shown_as.choice.setCurrentText("by month")
    find.shown_as.months.activated.emit(find.shown_as.months.rows.index(1, 0))
    qtbot.waitUntil(lambda: len(found(find)) == 2)
    assert find.shown_as.of_lines and find.first.text() == find.last.text() == "2024-03"
    find.look_for(finding.Sought())
    assert find.only is None


def test_a_search_is_kept_found_again_renamed_and_forgotten(qtbot, frame, find):
    find.typed.setText("ferr")
    only(qtbot, find, "visby")
    find.kept.keep.click()
    qtbot.keyClicks(find.kept.name, "Ferries at home")
    qtbot.keyClick(find.kept.name, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: find.kept.heading.text() == "Kept as \u201cFerries at home\u201d")
    find.look_for(finding.Sought())
    assert [button.text() for button in find.kept.names] == ["Ferries at home"]
    find.kept.names[0].click()
    assert (find.typed.text(), words(find)) == ("ferr", ["in Visby"])
    find.kept.rename.click()
    find.kept.name.setText("Home")
    qtbot.keyClick(find.kept.name, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: find.kept.heading.text() == "Kept as \u201cHome\u201d")
    find.kept.forget.click()
    qtbot.waitUntil(lambda: find.kept.there == ())
    assert not find.kept.keep.isHidden()


def test_a_name_half_typed_when_the_window_was_killed_is_there_again(qtbot, opened, frame, find, store):
    find.typed.setText("ferr")
    find.kept.keep.click()
    qtbot.keyClicks(find.kept.name, "Ferries at ho")
    qtbot.waitUntil(lambda: drafts.waiting(store, "search's name", "") == "Ferries at ho")
    again = opened()
    again.go("find")
    other = again.pages["find"]
    other.typed.setText("ferr")
    qtbot.waitUntil(other.kept.keep.isVisible)
    other.kept.keep.click()
    assert other.kept.name.text() == "Ferries at ho"
    other.kept.name.setText("Ferries")
    qtbot.keyClick(other.kept.name, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: other.kept.heading.text() == "Kept as \u201cFerries\u201d")
    assert drafts.waiting(store, "search's name", "") is None


def test_a_name_given_up_is_not_there_again(qtbot, find, store):
    find.typed.setText("ferr")
    qtbot.waitUntil(find.kept.keep.isVisible)
    find.kept.keep.click()
    qtbot.keyClicks(find.kept.name, "Ferries")
    find.kept._words.put_by()
    qtbot.keyClick(find.kept.name, Qt.Key.Key_Escape)
    find.kept.keep.click()
    assert find.kept.name.text() == ""
    qtbot.keyClicks(find.kept.name, "Boats")
    qtbot.keyClick(find.kept.name, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: find.kept.heading.text() == "Kept as \u201cBoats\u201d")
    for click in (find.kept.rename, find.kept.rename):
        click.click()
        assert find.kept.name.text() == "Boats"
        qtbot.keyClicks(find.kept.name, "Ships")
        qtbot.keyClick(find.kept.name, Qt.Key.Key_Escape)
    assert find.kept.heading.text() == "Kept as \u201cBoats\u201d"


def test_earlier_wordings_are_shown_when_asked_for(qtbot, find, write):
    write(date(2024, 3, 1), "memory", "The boat to Rønne was late.")
    find.typed.setText("ferry rønne")
    find.earlier.click()
    shown = find.shown_as.earlier
    qtbot.waitUntil(lambda: shown.model.rowCount() == 1)
    assert shown.model.at(0).line.text == "The ferry to Rønne was late."
    assert shown.model.at(0).head.startswith("Memory, ") and shown.list.back.text() == "Bring back"


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


def test_what_was_understood_is_told_in_words(find):
    for first, last, told in (
        ("1.2.2024", "last sunday", "From Thursday 1 February 2024 until Sunday 8 November 2026"),
        ("feb 2024", "2025", "From February 2024 until 2025"),
        ("soon", "2025", "Until 2025. \u201csoon\u201d is not a date. Write one such as 2026-11-14, 14 November 2026 or yesterday."),
        ("june 2026", "2026-06", "June 2026"),
        ("soon", "soon", "\u201csoon\u201d is not a date. Write one such as 2026-11-14, 14 November 2026 or yesterday."),
        ("", "", ""),
    ):
        find.first.setText(first)
        find.last.setText(last)
        assert (find.dates_told.text(), find.dates_told.isVisible()) == (told, bool(told))


def test_controls_alone_find_without_words(qtbot, find):
    only(qtbot, find, "visby")
    qtbot.waitUntil(lambda: len(found(find)) == 1)


def test_any_character_may_be_typed(qtbot, find):
    for typed in ('"', "'", "*", "ferry AND", "NEAR(", "a:b", "\\", "%", "🎹", "-ferry", ";--"):
        find.typed.setText(typed)
        find.ask()
        at_rest(qtbot, find.desk)
        assert "unexpected" not in find.told.text(), typed


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


@pytest.fixture
def many(qtbot, frame, store, clock):
    """Find, with 120 lines that answer."""
    with store.writing():
        for number in range(120):
            writing.write_line(store, date(2026, 1, 1) + timedelta(number), "memory", f"ferry {number}", clock)
    frame.go("find")
    find = frame.pages["find"]
    find.typed.setText("ferry")
    qtbot.waitUntil(lambda: find.model.rowCount() == 50)
    return find


def test_more_answers_come_when_scrolled(qtbot, many):
    many.answers.scrollToBottom()
    qtbot.waitUntil(lambda: many.model.rowCount() >= 100)
    assert found(many)[:100] == [f"ferry {number}" for number in range(119, 19, -1)]


def test_more_come_though_something_else_is_kept_while_they_are_fetched(qtbot, many, write):
    write(date(2026, 1, 1), "gratitude", "Rain on the pier.")
    many.model.fetchMore(many.answers.rootIndex())
    many.desk.changed.emit()
    qtbot.waitUntil(lambda: many.model.rowCount() == 100)


def seen(find):
    """The line at the top of the list, and how far of it is scrolled past."""
    at = find.answers.indexAt(find.answers.viewport().rect().topLeft())
    return at.isValid() and (find.model.at(at.row()).line.text, find.answers.visualRect(at).top())


def test_one_stays_where_one_is_when_something_is_kept(qtbot, many, write):
    many.answers.scrollToBottom()
    qtbot.waitUntil(lambda: many.model.rowCount() >= 100)
    qtbot.waitUntil(lambda: many.answers.visualRect(many.model.index(99, 0)).isValid())
    many.answers.setCurrentIndex(many.model.index(70, 0))
    bar, before = many.answers.verticalScrollBar(), ("ferry 57", -7)

    def is_there():
        # Rows are laid out a dozen at a time.
        bar.setValue(many.answers.visualRect(many.model.index(62, 0)).top() + bar.value() + 7)
        return seen(many) == before

    qtbot.waitUntil(is_there)
    write(date(2026, 5, 30), "memory", "The first ferry of the summer.")
    many.desk.changed.emit()
    qtbot.waitUntil(lambda: found(many)[0] == "The first ferry of the summer.")
    qtbot.waitUntil(lambda: seen(many) == before)
    assert many.model.at(many.answers.currentIndex().row()).line.text == "ferry 49"


def test_something_kept_before_the_first_answer_leaves_the_question_a_new_one(qtbot, frame, find):
    at_rest(qtbot, frame.desk)
    go_on = threading.Event()
    frame.desk.reader.run(lambda store, task: go_on.wait(60))
    find.typed.setText("herrings ferry")
    qtbot.waitUntil(lambda: not find._wait.isActive())
    find.refresh()
    go_on.set()
    qtbot.waitUntil(lambda: len(nearest(find)) == 3)
    assert find.model.typed == "herrings ferry" and find.model.begins_nearest(0)


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
    frame.pages["night"].blocks["memory"].buttons.button("like").click()
    qtbot.waitUntil(lambda: frame.page_shown() == "find" and len(nearest(find)) == 2)


def test_all_that_was_found_is_saved_and_that_is_said(qtbot, find, tmp_path):
    find.typed.setText("ferr")
    qtbot.waitUntil(lambda: len(found(find)) == 3)
    with qtbot.waitSignal(find.desk.said) as said:
        find.save.save(tmp_path / "found.csv")
        assert find.save.text() == "Stop saving"
    assert said.args[0] == "Saved as \u201cfound.csv\u201d." and find.save.text() == "Save all\u2026"
    assert len((tmp_path / "found.csv").read_text("utf-8-sig").splitlines()) == 4


def test_in_a_low_window_the_first_line_is_seen_and_what_is_done_with_the_lines_is_beneath(qtbot, frame, find):
    frame.resize(1024, 700)
    assert find.acts.y() < find.shown_as.y()
    frame.desk.change_setting("text_size", "200")
    frame.dress_anew()
    find.typed.setText("ferr")
    qtbot.waitUntil(lambda: len(found(find)) == 3)
    qtbot.waitUntil(lambda: find.shown_as.y() < find.acts.y())

    def first_is_seen():
        first = find.answers.visualRect(find.model.index(0, 0))
        return first.height() > 0 and find.answers.mapTo(find, first.bottomLeft()).y() < find.viewport().height()

    qtbot.waitUntil(first_is_seen)
    assert find.verticalScrollBar().value() == 0
    # Tab goes by what is seen: the lines, then what can be done with them.
    order, at = [], find.answers
    while at is not find.save:
        order.append(at)
        at = at.nextInFocusChain()
    assert find.shown_as.choice in order and find.kept.keep in order


def test_what_is_no_line_is_narrowed_too(qtbot, find):
    find.typed.setText("visby")
    qtbot.waitUntil(lambda: "Place" in [one.what for one in find.besides.shown])
    find.look_for(finding.Sought("visby", kinds=("gratitude",)))
    qtbot.waitUntil(find.besides.isHidden)


def test_until_what_is_nearest_is_known_it_is_not_said_that_nothing_was_found(qtbot, find, monkeypatch):
    asked = []
    monkeypatch.setattr(find.lines.beneath, "ask", lambda sought, found, read, shown, nights: asked.append(shown))
    find.typed.setText("kohlrabi")
    qtbot.waitUntil(lambda: len(asked) == 1)
    assert find.told.text() == "No line has the word." and find.model.rowCount() == 0
    asked[0](())
    assert find.told.text() == "Nothing found."
