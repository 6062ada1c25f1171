"""The page of people: everybody, and one of them."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel
from waiting.at_rest import at_rest

from keeper.actions import people
from keeper.actions.history import undoing
from keeper.actions.one_person import days, page
from keeper.model.people import BIRTHDAY
from keeper.store.one_person import about as kept_about

RETURN, SPACE, DOWN = Qt.Key.Key_Return, Qt.Key.Key_Space, Qt.Key.Key_Down


@pytest.fixture
def pages(qtbot, store, write, opened):
    """The page of people, on a keeper with a few names."""
    for number in range(4):
        write(date(2026, 5, 1 + number), "memory", "Tea with Ilze, and Oddny")
    people.add(store, "Ilze")
    people.add(store, "Maren <b>&")
    frame = opened()
    frame.go("people")
    made = frame.pages["people"]
    qtbot.waitUntil(lambda: made.overview.list.rows.rowCount() == 2)
    qtbot.waitUntil(lambda: len(made.overview.offered.buttons) == 1)
    return made


def shown(pages) -> list[str]:
    return [one.person.names[0] for one in pages.overview.list.rows.people]


def names(store) -> list[str]:
    return [one.person.name for one in people.every(store)]


def open_(qtbot, pages, store, name):
    """Somebody's page, all of it answered."""
    pages.show_person(people.named(store, name).id)
    qtbot.waitUntil(lambda: pages.person.view is not None and pages.person.view.person.names[0] == name and not pages.person._errand.under_way)
    return pages.person


def test_everybody_is_listed_with_lines_and_last_night_and_told_as_plain_text(pages):
    index = pages.overview.list.rows.index(0, 0)
    told = [pages.overview.list.rows.data(index.siblingAtRow(row), Qt.ItemDataRole.AccessibleTextRole) for row in (0, 1)]
    assert told == ["Ilze. 4 lines \u00b7 last 4 May 2026", "Maren <b>&. in no line yet"]
    assert all(one.textFormat() == Qt.TextFormat.PlainText for one in pages.findChildren(QLabel))


def test_a_name_is_added_with_enter_and_mistakes_are_told(qtbot, pages, store):
    box = pages.overview
    box.more.setFocus()
    qtbot.keyClicks(box.more, "Teodor")
    qtbot.keyClick(box.more, RETURN)
    qtbot.waitUntil(lambda: len(shown(pages)) == 3)
    assert "Teodor" in names(store) and box.more.hasFocus() and not box.more.text()
    qtbot.keyClicks(box.more, "ilze")
    qtbot.keyClick(box.more, RETURN)
    qtbot.waitUntil(box.told.isVisible)
    assert "marked already" in box.told.text() and box.more.text() == "ilze"


def test_a_name_that_recurs_is_marked_with_one_key(qtbot, pages, store):
    box = pages.overview
    (button,) = box.offered.buttons
    assert button.accessibleName() == "Mark Oddny, in 4 lines"
    button.setFocus()
    qtbot.keyClick(button, SPACE)
    qtbot.waitUntil(lambda: len(shown(pages)) == 3)
    assert "Oddny" in names(store) and box.offered.buttons == [] and box.more.hasFocus()


def test_letters_leave_those_whose_names_begin_so_and_enter_opens(qtbot, pages, store):
    for name in ("Åsa Lind", "Ανδρέας", "王芳", "Jurgis", "Niels", "Pauli, Paul"):
        people.add(store, name)
    box = pages.overview
    box.ask()
    qtbot.waitUntil(lambda: len(shown(pages)) == 8)
    for typed, left in (("li", ["Åsa Lind"]), ("asa l", ["Åsa Lind"]), ("ανδρ", ["Ανδρέας"]), ("王", ["王芳"]), ("paul", ["Pauli"]), ("zz", [])):
        box.letters.setText(typed)
        assert shown(pages) == left
    assert box.nobody.text() == "No name begins so."
    box.letters.setText("il")
    qtbot.keyClick(box.letters, RETURN)
    qtbot.keyClick(box.list, RETURN)
    qtbot.waitUntil(lambda: pages.person is not None and pages.person.view is not None)
    assert pages.person.heading.text() == "Ilze" and pages.person.lines.hasFocus()


def test_who_rests_is_not_met_unless_looked_for(qtbot, pages, store):
    people.rest_by_name(store, "Ilze")
    box = pages.overview
    box.ask()
    qtbot.waitUntil(lambda: shown(pages) == ["Maren <b>&"])
    assert box.resting.text() == "Also who rests (1)"
    box.resting.click()
    assert shown(pages) == ["Ilze", "Maren <b>&"]
    pages.desk.go("night")
    pages.desk.go("people")
    qtbot.waitUntil(lambda: shown(pages) == ["Maren <b>&"])
    box.letters.setText("Ilz")
    assert shown(pages) == ["Ilze"]


def test_a_person_tells_of_lines_months_places_and_others(qtbot, pages, store):
    people.add(store, "Oddny")
    one = open_(qtbot, pages, store, "Ilze")
    qtbot.waitUntil(lambda: one.model.rowCount() == 4)
    assert one.facts.text().startswith("4 lines \u00b7 first 1 May 2026, last 4 May 2026")
    assert one.view.months == {date(2026, 5, 1): 4} and one.months.cursor == date(2026, 5, 1)
    assert pages.only == frozenset(date(2026, 5, 1 + number) for number in range(4))
    qtbot.waitUntil(lambda: bool(one.around.together))
    with qtbot.waitSignal(one.person_wanted):
        next(way for way in one.findChildren(type(one.back)) if way.accessibleName() == "Oddny, together in 4 lines").click()
    qtbot.waitUntil(lambda: one.heading.text() == "Oddny")


def test_who_they_are_is_kept_as_it_is_typed_and_undone(qtbot, pages, store):
    one = open_(qtbot, pages, store, "Ilze")
    one.about.setFocus()
    qtbot.keyClicks(one.about, "My sister")
    qtbot.waitUntil(lambda: kept_about.about(store, one.person_id) == "My sister")
    pages.desk.go("night")
    undoing.undo(store)
    assert kept_about.about(store, one.person_id) == ""
    undoing.redo(store)
    assert kept_about.about(store, one.person_id) == "My sister"


def test_a_birthday_is_typed_understood_kept_and_told_when_wished(qtbot, pages, store):
    one = open_(qtbot, pages, store, "Ilze")
    box = one.days
    box.when.setFocus()
    qtbot.keyClicks(box.when, "29 February 1960")
    qtbot.waitUntil(lambda: box.told.text() == "Monday 29 February 1960")
    qtbot.keyClick(box.when, RETURN)
    qtbot.waitUntil(lambda: len(box.rows) == 1)
    (row,) = box.rows
    assert row.told.text() == "Birthday: 29 February 1960" and row.leap.text() == "28 February in other years" and not box.when.text()
    row.tell.setFocus()
    qtbot.keyClick(row.tell, SPACE)
    qtbot.waitUntil(lambda: box.rows[0].tell.text() == "Told on Tonight")
    assert box.rows[0].tell.hasFocus()
    box.rows[0].leap.click()
    qtbot.waitUntil(lambda: box.rows[0].leap.text() == "1 March in other years")
    (kept,) = page.person_page(store, one.person_id).days
    assert (kept.what, kept.told, kept.after) == (BIRTHDAY, True, True)


def test_what_is_no_day_is_told_and_stays_to_be_mended(qtbot, pages, store):
    box = open_(qtbot, pages, store, "Ilze").days
    box.when.setText("30 February")
    qtbot.keyClick(box.when, RETURN)
    qtbot.waitUntil(lambda: "no day 30" in box.told.text())
    assert box.when.text() == "30 February" and box.rows == []
    box.calendar.setCurrentIndex(box.calendar.findData("Persian"))
    box.when.setText("5 Farvardin 1360")
    qtbot.waitUntil(lambda: box.told.text() == "Wednesday 25 March 1981")
    box.what.setText("Her name day")
    qtbot.keyClick(box.when, RETURN)
    qtbot.waitUntil(lambda: len(box.rows) == 1)
    assert box.rows[0].told.text() == "Her name day: 25 March 1981 \u00b7 5 Farvardin 1360, Persian"


def test_spellings_are_written_anew_and_none_at_all_puts_them_back(qtbot, pages, store):
    one = open_(qtbot, pages, store, "Ilze")
    one.spellings.setText("")
    one.spellings.editingFinished.emit()
    assert one.spellings.text() == "Ilze"
    one.spellings.setText("Ilze, Ilža")
    one.spellings.editingFinished.emit()
    qtbot.waitUntil(lambda: "Ilze, Ilža" in names(store))
    one.spellings.setText("Maren <b>&")
    one.spellings.editingFinished.emit()
    qtbot.waitUntil(lambda: "marked already" in one.told.text())
    assert one.spellings.text() == "Maren <b>&"


def test_resting_and_marking_no_longer(qtbot, pages, store):
    one = open_(qtbot, pages, store, "Ilze")
    one.rest.setFocus()
    qtbot.keyClick(one.rest, SPACE)
    qtbot.waitUntil(lambda: one.rest.text() == "Wake" and "resting" in one.facts.text())
    one.out.setFocus()
    qtbot.keyClick(one.out, SPACE)
    qtbot.waitUntil(lambda: pages.currentWidget() is pages.overview)
    assert names(store) == ["Maren <b>&"]
    undoing.undo(store)
    assert people.named(store, "Ilze").resting


def test_the_strip_goes_from_month_to_month_and_opens_one(qtbot, pages, store, write):
    write(date(2024, 2, 3), "memory", "Ilze, once")
    one = open_(qtbot, pages, store, "Ilze")
    one.months.setFocus()
    qtbot.keyClick(one.months, Qt.Key.Key_Left)
    assert one.months.cursor == date(2024, 2, 1) and one.months.told(one.months.cursor) == "February 2024 \u00b7 1 line"
    assert one.months.month_at(one.months._x(2024 * 12 + 1)) == date(2024, 2, 1)
    qtbot.keyClick(one.months, RETURN)
    assert pages.window().page_shown() == "month" and pages.window().night == date(2024, 2, 1)
    pages.desk.go("people")
    qtbot.waitUntil(lambda: pages.currentWidget() is one)


def test_all_of_a_person_is_reached_by_tab(qtbot, pages, store):
    ilze = people.named(store, "Ilze")
    days.remember(store, ilze.id, "", "3 June", date(2026, 11, 14))
    one = open_(qtbot, pages, store, "Ilze")
    one.back.setFocus()
    seen = []
    for _ in range(16):
        seen.append(QApplication.focusWidget())
        qtbot.keyClick(seen[-1], Qt.Key.Key_Tab)
    (row,) = one.days.rows
    wanted = [one.back, one.about, one.months, row.tell, row.out, one.days.what, one.days.when, one.days.calendar, one.days.add,
              one.spellings, one.rest, one.find, one.send, one.out, one.lines]  # fmt: skip
    assert seen[: len(wanted)] == wanted


CARDS = """BEGIN:VCARD
VERSION:4.0
FN:Ilze Kalni\u0146a
N:Kalni\u0146a;Ilze;;;
BDAY:19600229
END:VCARD
BEGIN:VCARD
VERSION:4.0
FN:Somebody Else
BDAY:--0203
END:VCARD
"""


def test_birthdays_come_in_after_what_they_bring_was_told(qtbot, pages, store, tmp_path):
    file = tmp_path / "cards.vcf"
    file.write_text(CARDS, encoding="utf-8")
    pages.show_cards(file)
    leaf = pages.cards
    qtbot.waitUntil(leaf.keep_it.isVisible)
    told = [one.text().replace("\u200b", "") for one in leaf.findChildren(QLabel)]
    assert "Ilze Kalni\u0146a is taken for Ilze." in told and "Left out, since no line has the name: Somebody Else." in told
    assert page.person_page(store, people.named(store, "Ilze").id).days == ()
    leaf.all.setFocus()
    qtbot.keyClick(leaf.all, SPACE)
    assert leaf.all.text() == "Only those named in lines" and leaf.all.hasFocus()
    leaf.keep_it.setFocus()
    qtbot.keyClick(leaf.keep_it, SPACE)
    qtbot.waitUntil(lambda: pages.currentWidget() is pages.overview and len(shown(pages)) == 3)
    (day,) = page.person_page(store, people.named(store, "Ilze").id).days
    assert (day.year, day.month, day.day) == (1960, 2, 29)
    undoing.undo(store)
    assert names(store) == ["Ilze", "Maren <b>&"] and page.person_page(store, people.named(store, "Ilze").id).days == ()


def test_a_file_that_is_none_is_told_and_escape_leads_back(qtbot, pages, tmp_path):
    file = tmp_path / "cards.vcf"
    file.write_bytes(b"\x89PNG\r\n")
    pages.show_cards(file)
    qtbot.waitUntil(lambda: any("neither a file of cards" in one.text().replace("\u200b", "") for one in pages.cards.findChildren(QLabel)))
    assert not pages.cards.keep_it.isVisible()
    qtbot.keyClick(pages.cards.back, Qt.Key.Key_Escape)
    assert pages.currentWidget() is pages.overview


def test_a_day_that_is_wished_is_told_on_tonight_and_leads_to_the_person(qtbot, pages, store):
    frame, ilze = pages.window(), people.named(store, "Ilze")
    offer = frame.rest.days_offer
    assert not offer.button.isVisible()
    day = days.remember(store, ilze.id, "", "20 November 1960", date(2026, 11, 14))
    frame.go("night")
    offer.ask()
    at_rest(qtbot, frame.desk)
    assert not offer.button.isVisibleTo(frame)
    days.tell(store, day.id, True)
    offer.ask()
    qtbot.waitUntil(offer.button.isVisible)
    assert offer.button.text() == "Fri 20 Nov: birthday of Ilze, 66 years"
    offer.button.click()
    qtbot.waitUntil(lambda: pages.currentWidget() is pages.person and pages.person.heading.text() == "Ilze")
    people.rest(store, ilze.id)
    frame.go("night")
    offer.ask()
    qtbot.waitUntil(lambda: not offer.button.isVisibleTo(frame.night_page))
