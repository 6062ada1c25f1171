"""The page of loose lines: what comes nearest to each, and the key that puts one in."""

from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QColor, QKeyEvent
from PySide6.QtWidgets import QApplication
from waiting.themes_seen import settled, shown

from keeper.actions.themes import asking as themes
from keeper.errors import CannotWrite


def test_loose_lines_can_be_seen(qtbot, store, clock, page):
    with store.writing() as connection:
        connection.execute("UPDATE theme_line SET theme = NULL WHERE line_id IN (SELECT line_id FROM theme_line LIMIT 3)")
    page.overview.ask()
    qtbot.waitUntil(page.overview.loose.isVisible)
    page.overview.loose.click()
    theme = shown(qtbot, page)
    qtbot.waitUntil(lambda: theme.heading.text() == "Loose lines")
    assert not theme.acts.rename.isVisible() and not theme.course.isVisible()
    theme.lines.selectAll()
    assert theme.acts.move.isVisible() and not theme.acts.out.isVisible()


def test_p_puts_the_line_one_is_at_into_the_nearest_theme(qtbot, store, page, loose):
    lines = page.theme.lines
    qtbot.keyClick(lines, Qt.Key.Key_Home)
    qtbot.waitUntil(page.theme.acts.put.isVisible)
    rows = {lines.rows.at(row).line.id for row in range(lines.rows.rowCount())}
    first = lines.rows.at(lines.currentIndex().row()).line.id
    assert loose.keys() <= rows and "nearest: " in lines.rows.beside_told(lines.rows.at(lines.currentIndex().row()))
    qtbot.keyClicks(lines, "p")
    settled(qtbot, page)
    home = dict(store.rows("SELECT line_id, theme FROM theme_line"))
    assert home[first] == loose[first]
    assert all(home[line] is None for line in loose.keys() - {first})
    qtbot.waitUntil(lambda: lines.rows.rowCount() == len(rows) - 1)


def test_the_first_key_is_for_the_first_line_and_one_sees_that(qtbot, store, page, loose):
    lines = page.theme.lines
    qtbot.waitUntil(lambda: lines.hasFocus() and page.theme.acts.put.isVisible())
    assert lines.currentIndex().row() == 0 and not lines.chosen()
    bar = lines.visualRect(lines.currentIndex()).bottomLeft() - QPoint(0, 8)
    assert lines.viewport().grab().toImage().pixelColor(bar) == QColor(page.desk.look.palette.ink)
    first = lines.rows.at(0).line.id
    qtbot.keyClick(lines, Qt.Key.Key_P)
    settled(qtbot, page)
    assert themes.lines_beside(store, None)[1].keys() == loose.keys() - {first}


def test_keys_in_quick_succession_put_in_one_line_each(qtbot, store, page, loose):
    lines = page.theme.lines
    many = lines.rows.rowCount()
    with_nearest = [at for at in range(many) if lines.rows.at(at).line.id in loose]
    lines.be_at(with_nearest[0])
    for at in range(3):
        lines.be_at(with_nearest[at] - at)
        qtbot.keyClick(lines, Qt.Key.Key_P)
        # Before anything is kept the next is there.
        assert lines.rows.rowCount() == many - at - 1
    settled(qtbot, page)
    home = dict(store.rows("SELECT line_id, theme FROM theme_line"))
    assert {line: home[line] for line in loose} == loose
    qtbot.waitUntil(lambda: lines.rows.rowCount() == many - 3 and not lines.rows.leaving)


def test_a_key_held_down_puts_in_one_line(page, loose):
    lines = page.theme.lines
    many = lines.rows.rowCount()
    lines.be_at(next(at for at in range(many) if lines.rows.at(at).line.id in loose))
    QApplication.sendEvent(lines, QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_P, Qt.KeyboardModifier.NoModifier, "p", True))
    assert lines.rows.rowCount() == many


def test_a_line_put_in_can_be_taken_back_here(qtbot, store, page, loose):
    lines, acts = page.theme.lines, page.theme.acts
    assert not acts.undo.isVisible() and not page.theme.order.isVisible()
    said = []
    page.desk.said.connect(said.append)
    lines.be_at(next(at for at in range(lines.rows.rowCount()) if lines.rows.at(at).line.id in loose))
    name = lines.rows.beside[lines.rows.at(lines.currentIndex().row()).line.id][1]
    qtbot.keyClick(lines, Qt.Key.Key_P)
    settled(qtbot, page)
    assert said == [f"Put into \u201c{name}\u201d; Undo takes it back."]
    qtbot.waitUntil(acts.undo.isVisible)
    acts.undo.click()
    settled(qtbot, page)
    home = dict(store.rows("SELECT line_id, theme FROM theme_line"))
    assert not any(home[line] for line in loose)
    qtbot.waitUntil(lambda: loose.keys() <= {lines.rows.at(at).line.id for at in range(lines.rows.rowCount())})


def test_where_nothing_comes_near_that_is_said(qtbot, store, page, loose):
    said = []
    page.desk.said.connect(said.append)
    page.theme.lines.rows.beside = {}
    qtbot.keyClick(page.theme.lines, Qt.Key.Key_P)
    assert said == ["No theme comes near it."]


def test_a_line_that_cannot_be_put_in_is_there_again(qtbot, monkeypatch, page, loose):
    def failing(*_):
        raise CannotWrite("The disk is full.")

    monkeypatch.setattr(themes, "put_in", failing)
    lines, said = page.theme.lines, []
    page.desk.said.connect(said.append)
    many = lines.rows.rowCount()
    lines.be_at(next(at for at in range(many) if lines.rows.at(at).line.id in loose))
    qtbot.keyClick(lines, Qt.Key.Key_P)
    qtbot.waitUntil(lambda: said == ["The disk is full."])
    qtbot.waitUntil(lambda: lines.rows.rowCount() == many)


def test_where_none_is_loose_any_more_that_is_said(qtbot, store, page, loose):
    with store.writing() as connection:
        connection.execute("UPDATE theme_line SET theme = 1 WHERE theme IS NULL")
    page.theme.ask()
    qtbot.waitUntil(lambda: page.theme.facts.text() == "Every line is in a theme.")
