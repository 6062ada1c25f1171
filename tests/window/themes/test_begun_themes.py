"""Beginning a theme and being asked about it, by keyboard alone, in a real window."""

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication
from theme_keeper import fill_with_themes
from waiting.at_rest import at_rest

from keeper.actions.themes import asking as themes
from keeper.actions.themes import begun
from keeper.window.themes.begun.begin import BeginPage


@pytest.fixture
def page(qtbot, store, frame):
    """The page of themes of a keeper with 160 lines."""
    fill_with_themes(store)
    frame.desk.changed.emit()
    frame.go("themes")
    page = frame.pages["themes"]
    qtbot.waitUntil(lambda: page.overview.list.rows.rowCount() > 0)
    return page


def press(qtbot, key):
    qtbot.keyClick(QApplication.focusWidget(), key)


def settled(qtbot, page):
    at_rest(qtbot, page.desk)  # The window hears of it, and only then begins to look.
    qtbot.waitUntil(lambda: not page.work.running)
    at_rest(qtbot, page.desk)


def begin(qtbot, page, name="Unwell", words="doctor, fever, cough"):
    page.overview.begin.setFocus()
    press(qtbot, Qt.Key.Key_Space)
    qtbot.waitUntil(page.beginning.name.hasFocus)
    qtbot.keyClicks(page.beginning.name, name)
    press(qtbot, Qt.Key.Key_Return)
    assert page.beginning.words.hasFocus()
    qtbot.keyClicks(page.beginning.words, words)
    qtbot.waitUntil(lambda: page.beginning.list.model().rowCount() > 0)
    qtbot.waitUntil(page.beginning.act.isEnabled)


def asked(qtbot, page):
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: page.asking is not None and page.currentWidget() is page.asking)
    settled(qtbot, page)
    qtbot.waitUntil(page.asking.line.isVisible)
    qtbot.waitUntil(page.asking.line.hasFocus)
    return page.asking


def test_a_theme_is_begun_by_words_and_asked_about_with_one_key_each(qtbot, page, store):
    begin(qtbot, page)
    asking = asked(qtbot, page)
    assert asking.heading.text() == "Unwell" and asking.told.text().startswith("Does this belong to it? 1 of")
    number, seen = asking.number, []
    for place, key in enumerate((Qt.Key.Key_Y, Qt.Key.Key_N, Qt.Key.Key_S)):
        qtbot.waitUntil(lambda place=place: f" {place + 1} of " in asking.told.text())
        seen.append(asking.line.text())
        press(qtbot, key)
    settled(qtbot, page)
    one = begun.begun(store)[number]
    assert (len(one.yes), len(one.no), len(one.skipped)) == (1, 1, 1) and len(set(seen)) == 3
    qtbot.keyClick(page.window(), Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: " 3 of " in asking.told.text() and asking.line.isVisible())
    assert asking.line.text() == seen[2]


def test_after_the_last_the_answers_are_laid_over_the_themes(qtbot, page, store):
    begin(qtbot, page)
    asking, answered = asked(qtbot, page), 0
    while asking.told.text().startswith("Does this belong to it?"):
        qtbot.waitUntil(lambda answered=answered: f" {answered + 1} of " in asking.told.text())
        press(qtbot, Qt.Key.Key_N)
        answered += 1
        # Where a round has fewer lines than ten, the look that follows finds others to ask about.
        if not asking.line.isVisible():
            settled(qtbot, page)
    qtbot.waitUntil(lambda: asking.told.text().startswith(f"{answered} answers kept."))
    assert 3 <= answered <= begun.ROUND and not asking.line.isVisible() and asking.lines.isVisible()
    home = dict(store.rows("SELECT line_id, theme FROM theme_line"))
    assert not any(home[line] == asking.number for line in begun.begun(store)[asking.number].no)
    assert themes.themes_due(store) == themes.NOTHING


def test_chosen_lines_begin_it_and_stay_chosen_over_another_search(qtbot, page, store):
    begin(qtbot, page, words="hymn")
    beginning = page.beginning
    press(qtbot, Qt.Key.Key_Down)
    assert beginning.list.hasFocus()
    press(qtbot, Qt.Key.Key_Space)
    chosen = beginning.list.model().at(0).line.id
    assert "1 line chosen" in beginning.told.text()
    beginning.words.setFocus()
    beginning.words.selectAll()
    qtbot.keyClicks(beginning.words, "choir")
    qtbot.waitUntil(lambda: beginning.list.model().rowCount() > 1)
    assert beginning.list.model().at(0).line.id == chosen and beginning.list.selectionModel().isRowSelected(0)
    asking = asked(qtbot, page)
    one = begun.begun(store)[asking.number]
    assert one.lines == (chosen,) and one.words == ()


def test_lines_chosen_are_there_again_in_the_next_window_until_the_theme_is_begun(qtbot, page, store):
    begin(qtbot, page, words="hymn")
    press(qtbot, Qt.Key.Key_Down)
    press(qtbot, Qt.Key.Key_Space)
    chosen = page.beginning.list.model().at(0).line.id
    qtbot.waitUntil(lambda: [one.line.id for one in begun.chosen_before(store)] == [chosen])
    again = BeginPage(page.desk, page.work)
    qtbot.addWidget(again)
    again.show()
    again.start()
    qtbot.waitUntil(lambda: "1 line chosen" in again.told.text())
    assert again.list.model().at(0).line.id == chosen and again.list.selectionModel().isRowSelected(0)
    again.close()
    page.beginning.act.click()
    qtbot.waitUntil(lambda: [one.lines for one in begun.begun(store).values()] == [(chosen,)])
    qtbot.waitUntil(lambda: not begun.chosen_before(store))


def test_what_was_typed_is_there_again_and_a_name_that_is_taken_is_said(qtbot, page, store):
    taken = themes.themes_view(store).threads[0].name
    begin(qtbot, page, name=taken, words="doctor")
    press(qtbot, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: "is called" in page.beginning.told.text())
    assert page.beginning.name.text() == taken and page.currentWidget() is page.beginning
    press(qtbot, Qt.Key.Key_Escape)
    assert page.currentWidget() is page.overview
    page.show_begin()
    assert page.beginning.name.text() == taken


def test_a_theme_begun_is_told_in_the_list_and_asks_from_its_own_page(qtbot, page, store, clock):
    begin(qtbot, page)
    asking = asked(qtbot, page)
    press(qtbot, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: page.overview.list.rows.row_of(asking.number) >= 0)
    page.show_theme(asking.number)
    qtbot.waitUntil(page.theme.asked.isVisible)
    page.theme.asked.click()
    qtbot.waitUntil(lambda: page.currentWidget() is asking and asking.line.isVisible())


def test_one_sees_at_which_line_one_is_while_lines_are_chosen(qtbot, page):
    begin(qtbot, page)
    press(qtbot, Qt.Key.Key_Down)
    list_ = page.beginning.list
    qtbot.waitUntil(list_.hasFocus)
    press(qtbot, Qt.Key.Key_Down)
    row = list_.currentIndex()
    bar = list_.visualRect(row).topLeft() + QPoint(0, 8)
    assert not list_.selectionModel().isSelected(row)
    assert list_.viewport().grab().toImage().pixelColor(bar) == QColor(page.desk.look.palette.ink)


def test_where_no_line_is_in_it_none_is_offered_to_be_seen(qtbot, page, store):
    begin(qtbot, page)
    asking = asked(qtbot, page)
    with store.writing() as connection:
        connection.execute("UPDATE theme SET retired_at = 'now' WHERE number = ?", (asking.number,))
        connection.execute("DELETE FROM theme_asked")
    asking.ask()
    qtbot.waitUntil(lambda: asking.told.text() == "No line stands in it so far; lines that you write later may.")
    assert not asking.lines.isVisible() and asking.back.hasFocus()
