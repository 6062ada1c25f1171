"""From a year, a theme and a place to its picture of words, on to Find, and back."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from theme_keeper import fill_with_themes
from waiting.at_rest import at_rest
from year_pages import all_shown

from keeper.actions import writing
from keeper.actions.finding import Sought
from keeper.actions.places import known as places
from keeper.actions.themes import asking as themes
from keeper.store.themes import found as kept_themes
from keeper.window.paper.book import BookDialog

NIGHT = date(2026, 11, 14)


@pytest.fixture
def made(store, clock):
    """160 lines with their themes; the last twenty nights were spent in Visby."""
    fill_with_themes(store)
    last = store.row("SELECT max(night) FROM line")[0]
    for back in range(20):
        writing.set_place(store, date.fromisoformat(last) - timedelta(days=back), "Visby", clock)
    return store


def visby(store):
    return store.row("SELECT id FROM place WHERE name = 'Visby'")[0]


def pictured(qtbot, page):
    """Wait until the words have their places."""
    qtbot.waitUntil(lambda: page.words is not None and page.currentWidget() is page.words)
    qtbot.waitUntil(lambda: bool(page.words.view.items))
    return page.words


def pick(qtbot, frame, words) -> Sought:
    """Click the first word; what Find is then asked, without the word."""
    item = words.view.items[0]
    sought = words.picture.sought[item.placed.word]
    qtbot.mouseClick(item, Qt.MouseButton.LeftButton)
    find = frame.pages["find"]
    assert frame.page_shown() == "find" and find.typed.text() == sought
    qtbot.waitUntil(lambda: find.model.rowCount() > 0)
    return find.sought()


# a year


@pytest.fixture
def year(qtbot, frame, made):
    frame.go("year", date(2024, 3, 1))
    page = frame.pages["year"]
    qtbot.waitUntil(lambda: all_shown(page.overview))
    return page


def test_the_words_of_a_year_lead_to_find_within_the_year(qtbot, frame, year):
    qtbot.mouseClick(year.overview.picture, Qt.MouseButton.LeftButton)
    words = pictured(qtbot, year)
    assert words.heading.text() == "The words of 2024"
    asked = pick(qtbot, frame, words)
    assert (asked.first, asked.last, asked.places, asked.themes) == (date(2024, 1, 1), date(2024, 12, 31), (), ())


@pytest.mark.parametrize("by_key", [True, False])
def test_from_the_words_of_a_year_one_comes_back_to_it(qtbot, year, by_key):
    qtbot.mouseClick(year.overview.picture, Qt.MouseButton.LeftButton)
    words = pictured(qtbot, year)
    qtbot.keyClick(words, Qt.Key.Key_Escape) if by_key else qtbot.mouseClick(words.back, Qt.MouseButton.LeftButton)
    assert year.currentWidget() is year.overview and year.overview.year == 2024
    qtbot.waitUntil(year.overview.picture.hasFocus)


def test_an_empty_year_offers_neither_words_nor_book(qtbot, frame):
    frame.go("year", NIGHT)
    page = frame.pages["year"].overview
    qtbot.waitUntil(lambda: all_shown(page))
    assert not any(part.isVisible() for part in (page.sit, page.picture, page.book))


def test_a_year_offers_its_book(qtbot, frame, year, monkeypatch):
    opened = []
    monkeypatch.setattr(BookDialog, "exec", lambda self: opened.append((self.year, self.parent())))
    qtbot.mouseClick(year.overview.book, Qt.MouseButton.LeftButton)
    assert opened == [(2024, frame)]


# a theme


@pytest.fixture
def theme(qtbot, frame, made):
    frame.go("themes")
    page = frame.pages["themes"]
    page.show_theme(themes.themes_view(made).threads[0].number)
    qtbot.waitUntil(lambda: page.theme.view is not None)
    return page


def test_the_words_of_a_theme_lead_to_find_within_the_theme(qtbot, frame, theme):
    qtbot.mouseClick(theme.theme.picture, Qt.MouseButton.LeftButton)
    words = pictured(qtbot, theme)
    assert theme.theme.view.thread.name in words.heading.text()
    asked = pick(qtbot, frame, words)
    assert (asked.themes, asked.first, asked.last) == ((theme.theme.number,), None, None)
    qtbot.waitUntil(lambda: [word.text() for word in frame.pages["find"].sentence.words] == [f"about {theme.theme.view.thread.name}"])
    frame.go("themes")
    assert theme.currentWidget() is words


def test_from_the_words_of_a_theme_one_comes_back_to_it(qtbot, theme):
    qtbot.mouseClick(theme.theme.picture, Qt.MouseButton.LeftButton)
    qtbot.mouseClick(pictured(qtbot, theme).back, Qt.MouseButton.LeftButton)
    assert theme.currentWidget() is theme.theme
    qtbot.waitUntil(theme.theme.picture.hasFocus)


def test_a_second_press_on_themes_leads_from_the_words_to_all_themes(qtbot, frame, theme):
    qtbot.mouseClick(theme.theme.picture, Qt.MouseButton.LeftButton)
    pictured(qtbot, theme)
    qtbot.mouseClick(frame.buttons["themes"], Qt.MouseButton.LeftButton)
    assert theme.currentWidget() is theme.overview


def test_loose_lines_have_no_picture(qtbot, theme):
    theme.show_theme(None)
    qtbot.waitUntil(lambda: theme.theme.heading.text() == "Loose lines")
    assert not theme.theme.picture.isVisible()


# a place


@pytest.fixture
def place(qtbot, frame, made):
    frame.go("places")
    page = frame.pages["places"]
    page.show_place(visby(made))
    qtbot.waitUntil(lambda: page.place.view is not None and page.place.picture.isVisible())
    return page


def test_the_words_of_a_place_lead_to_find_within_the_place(qtbot, frame, made, place):
    qtbot.mouseClick(place.place.picture, Qt.MouseButton.LeftButton)
    words = pictured(qtbot, place)
    assert words.heading.text() == "The words of Visby"
    asked = pick(qtbot, frame, words)
    assert (asked.places, asked.themes, asked.first) == ((visby(made),), (), None)


@pytest.mark.parametrize("by_key", [True, False])
def test_from_the_words_of_a_place_one_comes_back_to_it(qtbot, place, by_key):
    qtbot.mouseClick(place.place.picture, Qt.MouseButton.LeftButton)
    words = pictured(qtbot, place)
    qtbot.keyClick(words, Qt.Key.Key_Escape) if by_key else qtbot.mouseClick(words.back, Qt.MouseButton.LeftButton)
    assert place.currentWidget() is place.place
    qtbot.waitUntil(place.place.picture.hasFocus)


def test_the_themes_of_a_place_are_counted_and_lead_to_their_own_page(qtbot, frame, made, place):
    known = places.themes_at(made, visby(made))
    qtbot.waitUntil(lambda: len(place.place.themes.buttons) == len(known) > 0)
    number, name, times = known[0]
    members = {line.line.id for line in themes.lines_of(made, number, 1000)}
    here = {line.line.id for line in places.lines_at(made, visby(made), 1000)}
    assert times == len(members & here)
    button = place.place.themes.buttons[0]
    assert button.text() == f"{name} ({times})"
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    page = frame.pages["themes"]
    assert frame.page_shown() == "themes" and page.theme.number == number


def test_the_themes_of_a_place_are_reached_before_its_lines(qtbot, place):
    page = place.place
    qtbot.waitUntil(lambda: bool(page.themes.buttons))
    page.send.setFocus()
    for button in (*page.themes.buttons, page.order, page.lines):
        page.focusNextChild()
        assert button.hasFocus()


def test_a_theme_that_is_gone_is_not_told_at_its_place(made):
    known = places.themes_at(made, visby(made))
    with made.writing() as connection:
        connection.execute("UPDATE theme SET retired_at = '2026-11-14T20:00:00Z' WHERE number = ?", (known[0][0],))
    assert known[0][0] not in {theme.number for theme in kept_themes.every(made)}
    assert places.themes_at(made, visby(made)) == known[1:]


def test_a_theme_with_a_hostile_name_is_plain_words(qtbot, made, place):
    number = places.themes_at(made, visby(made))[0][0]
    with made.writing() as connection:
        connection.execute("UPDATE theme SET name = ? WHERE number = ?", ("<b>rope</b> & " + "tar " * 30, number))
    place.place.ask()
    qtbot.waitUntil(lambda: place.place.themes.buttons[0].text().startswith("<b>rope</b> && tar"))
    button = place.place.themes.buttons[0]
    assert "\u2026 (" in button.text() and len(button.text()) < 60
    assert "&lt;b&gt;rope" in button.toolTip() and "<b>rope</b> &" in button.accessibleName()


def test_a_place_without_themes_or_lines_tells_nothing_of_them(qtbot, frame, store, clock):
    here = writing.set_place(store, NIGHT, "Visby", clock)
    frame.go("places")
    page = frame.pages["places"]
    page.show_place(here.id)
    qtbot.waitUntil(lambda: page.place.view is not None)
    at_rest(qtbot, frame.desk)
    assert not page.place.themes.isVisible() and not page.place.picture.isVisible()


# Find


def test_find_takes_up_what_is_sought(qtbot, frame, made):
    frame.go("find")
    find = frame.pages["find"]
    number = themes.themes_view(made).threads[0].number
    for sought in (
        Sought("swam", ("memory",), (visby(made),), (number,), date(2024, 2, 1), date(2024, 2, 29), True),
        Sought("swam", first=date(2024, 2, 3), last=date(2024, 3, 4)),
        Sought("", places=(visby(made),)),
    ):
        find.look_for(sought)
        assert find.sought() == sought
    assert (find.first.text(), find.last.text()) == ("", "")
    qtbot.waitUntil(lambda: find.model.rowCount() > 0)


def test_find_says_a_whole_month_as_a_month(frame):
    frame.go("find")
    find = frame.pages["find"]
    find.look_for(Sought("a", first=date(2024, 2, 1), last=date(2024, 2, 29)))
    assert (find.first.text(), find.last.text()) == ("2024-02", "2024-02")
