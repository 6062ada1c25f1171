"""The page of threads and a theme's own page, by mouse and keyboard."""

import os
import subprocess
import sys
import threading
from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QLineEdit, QListView, QWidget
from theme_keeper import fill
from waiting.at_rest import at_rest
from waiting.themes_seen import settled, shown

from keeper.actions import writing
from keeper.actions.finding import Sought
from keeper.actions.themes import asking as themes
from keeper.actions.themes.undoing import DecisionTold
from keeper.review.themes import Course
from keeper.store.themes import found as kept_themes
from keeper.window.themes import dialogs as theme_dialogs
from keeper.window.themes import wording as theme_wording
from keeper.window.themes.course import heights
from keeper.window.themes.split import SplitDialog
from keeper.window.themes.work import ThemeWork


@pytest.fixture
def theme(qtbot, made, page):
    """The page of the largest theme."""
    qtbot.keyClick(page.overview.list, Qt.Key.Key_Return)
    return shown(qtbot, page)


def answer(monkeypatch, which, **answers):
    """Let a dialog be answered, without it being seen."""
    dialog = getattr(theme_dialogs, which)

    def answered(self):
        for what, value in answers.items():
            setattr(self, what, value)
        return 1

    monkeypatch.setattr(dialog, "exec", answered)


def names(page):
    return [thread.name for thread in page.overview.list.rows.threads]


# the threads


def test_the_threads_are_told_largest_first(made, page):
    assert names(page) == [thread.name for thread in made.threads]
    told = page.overview.told.text()
    assert told.startswith(f"{len(made.threads)} themes in 160 lines, clearly more than chance")
    index = page.overview.list.rows.index(0, 0)
    read = page.overview.list.rows.data(index, Qt.ItemDataRole.AccessibleTextRole)
    assert "lines \u00b7 since January 2024 \u00b7 last on" in read and "Nights by year: 2024" in read


def test_the_row_one_is_at_is_taller_and_the_arrows_open_the_next(qtbot, page):
    list_ = page.overview.list
    first = list_.visualRect(list_.rows.index(0, 0)).height()
    second = list_.visualRect(list_.rows.index(1, 0)).height()
    assert first > second * 1.5
    qtbot.keyClick(list_, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: list_.visualRect(list_.rows.index(1, 0)).height() == first)
    assert list_.visualRect(list_.rows.index(0, 0)).height() == second


def test_a_click_opens_the_row_and_another_the_theme(qtbot, page, made):
    list_ = page.overview.list

    def click():
        spot = list_.visualRect(list_.rows.index(2, 0)).topLeft() + QPoint(20, 20)
        qtbot.mouseClick(list_.viewport(), Qt.MouseButton.LeftButton, pos=spot)
        qtbot.wait(20)

    click()
    assert list_.number() == made.threads[2].number and page.currentWidget() is page.overview
    click()
    assert shown(qtbot, page).number == made.threads[2].number


def test_typing_narrows_and_escape_lets_all_back(qtbot, page, made):
    word = made.threads[-1].words[0]
    qtbot.keyClicks(page.overview.list, word[:1])
    qtbot.keyClicks(page.overview.typed, word[1:])
    assert page.overview.typed.text() == word
    assert made.threads[-1].name in names(page) and len(names(page)) < len(made.threads)
    qtbot.keyClick(page.overview.typed, Qt.Key.Key_Down)
    assert page.overview.list.hasFocus()
    qtbot.keyClick(page.overview.typed, Qt.Key.Key_Escape)
    assert len(names(page)) == len(made.threads)


def test_letters_that_no_thread_has_are_told(qtbot, page):
    qtbot.keyClicks(page.overview.list, "zzq")
    qtbot.waitUntil(lambda: page.overview.list.rows.rowCount() == 0)
    assert page.overview.nothing.isVisible()
    qtbot.keyClick(page.overview.typed, Qt.Key.Key_Escape)
    assert not page.overview.nothing.isVisible()


def test_the_latest_may_come_first(page, made):
    page.overview.order.click()
    latest = sorted(made.threads, key=lambda one: one.last, reverse=True)
    assert page.overview.list.rows.threads == latest
    assert page.overview.order.text() == "Latest first"


def test_when_it_is_due_the_themes_are_looked_for_by_themselves(qtbot, store, frame, really_apart):
    fill(store, 160)
    frame.go("themes")
    page = frame.pages["themes"]
    qtbot.waitUntil(lambda: page.overview.stop.isVisible() or page.overview.list.rows.rowCount() > 0)
    qtbot.waitUntil(lambda: page.overview.list.rows.rowCount() >= 4)
    # The threads may be seen in the file a moment before the process that found them has ended.
    qtbot.waitUntil(lambda: not page.work.running)
    assert not page.overview.stop.isVisible() and not page.overview.doing.isVisible()
    assert page.overview.list.hasFocus()


def test_looking_can_be_stopped(qtbot, store, frame, monkeypatch):
    fill(store, 160)
    pause = threading.Event()

    def slow(store, clock, progress, stopped, anew):
        while True:
            progress(0.5, "grouping")
            pause.wait(0.02)

    monkeypatch.setattr(themes, "look_apart", slow)
    frame.go("themes")
    page = frame.pages["themes"]
    qtbot.waitUntil(lambda: "grouping, 50 %" in page.overview.doing.text())
    page.overview.stop.click()
    assert not page.work.running and not page.overview.doing.isVisible()
    at_rest(qtbot, frame.desk)
    assert themes.themes_view(store).threads == ()
    assert "not been looked for" in page.overview.told.text()


def test_themes_found_by_an_earlier_version_are_looked_for_once_and_that_is_said(qtbot, made, store, frame):
    build, said = kept_themes.build(store), []
    kept_themes.keep_build(store, replace(build, form=build.form - 1))
    older = themes.themes_view(store)
    assert older.older and theme_wording.how_matters_stand(older).endswith("in a new way, once; what you decided stays.")
    frame.desk.said.connect(said.append)
    frame.go("themes")
    page = frame.pages["themes"]
    qtbot.waitUntil(lambda: len(said) == 1)
    assert said[0].startswith("Themes were looked for in a new way") and not themes.themes_view(store).older
    settled(qtbot, page)
    page.overview.again.click()
    settled(qtbot, page)
    qtbot.waitUntil(lambda: page.overview.told.text().endswith("more than chance."))
    assert len(said) == 1


def test_a_page_made_while_themes_are_looked_for_says_so(qtbot, store, frame, monkeypatch):
    fill(store, 160)
    pause = threading.Event()

    def slow(store, clock, progress, stopped, anew):
        progress(0.5, "grouping")
        pause.wait()

    monkeypatch.setattr(themes, "look_apart", slow)
    work, told = ThemeWork.of(frame.desk), []
    work.moved.connect(lambda what, _: told.append(what))
    work.look(unasked=True)
    qtbot.waitUntil(lambda: "grouping" in told)
    frame.go("themes")
    page = frame.pages["themes"]
    qtbot.waitUntil(lambda: page.overview.view is not None)
    assert "grouping, 50 %" in page.overview.doing.text() and page.overview.stop.isVisible()
    pause.set()
    at_rest(qtbot, frame.desk)


def test_a_decision_does_not_take_back_that_themes_are_looked_for_anew(qtbot, made, page, monkeypatch):
    asked, pause = [], threading.Event()

    def slow(store, clock, progress, stopped, anew):
        asked.append(anew)
        pause.wait()

    monkeypatch.setattr(themes, "look_apart", slow)
    page.overview.again.click()
    qtbot.waitUntil(lambda: asked == [True])
    told = []
    page.work.moved.connect(lambda what, _: told.append(what))
    page.work.decide(lambda store: None)
    qtbot.waitUntil(lambda: told == ["waiting"])
    pause.set()
    settled(qtbot, page)
    page.work.look()
    settled(qtbot, page)
    assert asked == [True, True, False]


def test_closing_the_window_breaks_the_looking_off(qtbot, store, frame, monkeypatch):
    fill(store, 160)
    pause, broken_off = threading.Event(), threading.Event()

    def slow(store, clock, progress, stopped, anew):
        while not stopped():
            pause.wait(0.02)
        broken_off.set()

    monkeypatch.setattr(themes, "look_apart", slow)
    frame.go("themes")
    qtbot.waitUntil(lambda: frame.pages["themes"].work.running)
    assert frame.close()
    assert broken_off.is_set()


def test_look_again_is_there_on_demand(qtbot, page, store):
    before = store.rows("SELECT told FROM theme_model")
    page.overview.again.click()
    settled(qtbot, page)
    assert store.rows("SELECT told FROM theme_model") != before


def test_a_young_keeper_is_told_that_it_is_not_enough_yet(qtbot, store, frame):
    fill(store, 12)
    frame.go("themes")
    overview = frame.pages["themes"].overview
    qtbot.waitUntil(lambda: "Not enough yet: 12 lines." in overview.told.text())
    assert not overview.list.isVisible() and not overview.again.isVisible()
    assert not frame.pages["themes"].work.running


def test_one_line_over_and_over_is_not_said_to_never_come_back(qtbot, store, frame):
    for day in range(40):
        writing.write_line(store, date(2026, 1, 1) + timedelta(day), "memory", "We baked bread.", frame.desk.clock)
    frame.go("themes")
    overview = frame.pages["themes"].overview
    qtbot.waitUntil(lambda: "Among 40 lines no theme stands out from chance yet" in overview.told.text())
    assert not overview.list.isVisible()


def test_the_window_opens_without_what_themes_need(store, folder):
    script = (
        "import sys; from pathlib import Path; from keeper.window.frame import opening; app = opening.application();"
        f"frame = opening.make_frame(app, Path({str(folder)!r})); frame.show(); frame.load_rest();"
        "[app.processEvents() for _ in iter(frame.rest_is_loaded, True)]; frame.go('themes');"
        "print(sorted({'numpy', 'scipy', 'sklearn'} & set(sys.modules))); frame.close()"
    )
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, env=env)
    assert done.stdout == "[]\n", done.stderr


def test_tab_reaches_every_part_of_both_pages(qtbot, frame, page, theme):
    for seen in (theme, page.overview):
        if seen is page.overview:
            theme.left.emit()
            qtbot.waitUntil(page.overview.list.hasFocus)
        reached = set()
        for _ in range(40):
            qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
            reached.add(QApplication.focusWidget())
        parts = [part for kind in (QAbstractButton, QLineEdit, QListView) for part in seen.findChildren(kind)]
        missed = [part.accessibleName() for part in parts if part.isVisible() and part.isEnabled() and part not in reached]
        assert not missed


def test_a_name_of_one_endless_word_takes_no_more_than_its_place(qtbot, monkeypatch, frame, theme, page):
    frame.resize(1024, 700)
    answer(monkeypatch, "NameDialog", name="W" * 80)
    theme.acts.rename.click()
    settled(qtbot, page)
    qtbot.waitUntil(lambda: theme.view.thread.name == "W" * 80)
    assert theme.course.isVisible() and theme.course.width() > theme.column.width() / 4
    assert theme.heading.width() >= theme.heading.minimumSizeHint().width()


def test_what_runs_from_the_right_stands_where_one_begins_to_read(qtbot, monkeypatch, store, theme, page, made):
    line, words = made.threads[0].central[0], "אפיתי לחם עם קמח ושמרים"
    writing.write_line(store, line.night, line.kind, words, page.desk.clock)
    themes.move(store, (line.id,), made.threads[0].number, page.desk.clock)
    answer(monkeypatch, "NameDialog", name="לחם ומרק")
    theme.acts.rename.click()
    settled(qtbot, page)
    rows = theme.lines.rows
    qtbot.waitUntil(lambda: any(rows.at(row).line.text == words for row in range(rows.rowCount())))
    at = next(row for row in range(rows.rowCount()) if rows.at(row).line.text == words)
    laid = theme.lines.itemDelegate()._laid_out(rows.index(at, 0), 600)
    assert laid.lineAt(0).naturalTextRect().right() > 500
    assert theme.heading.alignment() & Qt.AlignmentFlag.AlignAbsolute


def test_every_control_has_a_name(qtbot, theme, page):
    theme.lines.selectAll()
    for part in (page.overview, theme):
        for widget in part.findChildren(QWidget):
            if isinstance(widget, QAbstractButton | QLineEdit | QListView) and widget.objectName()[:3] != "qt_":
                name = QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)
                assert name.strip() or not widget.isVisibleTo(part), widget


# one theme


def test_a_theme_tells_itself(made, theme):
    thread = made.threads[0]
    assert theme.heading.text() == thread.name
    assert theme.facts.text().startswith(f"{thread.lines} lines \u00b7 since January 2024")
    assert "Strongest in " in theme.more.text() and theme.words.text().startswith("Words: ")
    assert theme.course.accessibleDescription().startswith("Nights by year: 2024")
    assert theme.lines.rows.rowCount() == min(50, thread.lines)


def test_the_ribbon_holds_back_other_nights_and_leaving_lets_them_back(qtbot, frame, made, theme, page):
    qtbot.waitUntil(lambda: frame.ribbon._only is not None)
    assert len(frame.ribbon._only) == made.threads[0].nights
    frame.go("find")
    assert frame.ribbon._only is None
    frame.go("themes")
    qtbot.waitUntil(lambda: frame.ribbon._only is not None)
    assert page.currentWidget() is theme
    qtbot.keyClick(theme.lines, Qt.Key.Key_Escape)
    assert frame.ribbon._only is None and page.currentWidget() is page.overview


def test_enter_opens_the_night_and_coming_back_finds_the_theme(qtbot, frame, theme, page):
    night = theme.lines.rows.at(1).line.night
    theme.lines.setCurrentIndex(theme.lines.rows.index(1, 0))
    qtbot.keyClick(theme.lines, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: frame.page_shown() == "night")
    assert frame.night == night
    frame.go("themes")
    assert page.currentWidget() is theme
    frame.go("themes")
    assert page.currentWidget() is page.overview


def test_renaming_and_undoing(qtbot, monkeypatch, theme, page, made):
    answer(monkeypatch, "NameDialog", name="<b>Bread</b> & butter")
    theme.acts.rename.click()
    qtbot.waitUntil(lambda: theme.heading.text() == "<b>Bread</b> & butter")
    assert theme.heading.textFormat() == Qt.TextFormat.PlainText
    qtbot.waitUntil(theme.acts.undo.isVisible)
    settled(qtbot, page)
    theme.acts.undo.click()
    qtbot.waitUntil(lambda: theme.heading.text() == made.threads[0].name)


def test_merging(qtbot, monkeypatch, theme, page, made):
    answer(monkeypatch, "ThemeDialog", number=made.threads[1].number)
    theme.acts.merge.click()
    both = made.threads[0].lines + made.threads[1].lines
    qtbot.waitUntil(lambda: theme.view.thread.lines == both)
    settled(qtbot, page)
    page.theme.left.emit()
    qtbot.waitUntil(lambda: len(names(page)) == len(made.threads) - 1)
    assert page.overview.decided.text().startswith("Last decision: ")
    page.overview.undo.click()
    qtbot.waitUntil(lambda: len(names(page)) == len(made.threads))


def halves_shown(qtbot, monkeypatch, theme, accepted):
    """What the dialog of the split has in it: of each half its name, how many lines are told, and the lines."""
    seen = []

    def answered(dialog):
        told = [one.text() for one in dialog.findChildren(QLabel)]
        seen.append((told, [[shown.item(row).text() for row in range(shown.count())] for shown in dialog.lists]))
        return accepted

    monkeypatch.setattr(SplitDialog, "exec", answered)
    theme.acts.split.click()
    assert not theme.acts.split.isEnabled()
    qtbot.waitUntil(lambda: bool(seen))
    assert theme.acts.split.isEnabled()
    return seen[0]


def test_both_halves_are_shown_before_a_split_and_nothing_is_done_without_a_word(qtbot, monkeypatch, store, theme, page, made):
    told, halves = halves_shown(qtbot, monkeypatch, theme, False)
    texts = sorted(" ".join(one.line.text.split()) for one in themes.lines_of(store, theme.number, limit=1000))
    assert sorted(halves[0] + halves[1]) == texts and min(map(len, halves)) > 0
    assert f"{len(halves[0])} lines" in told and f"{len(halves[1])} lines" in told
    names_told = [words for words in told if ", " in words and "would become" not in words]
    assert len(set(names_told)) == 2
    settled(qtbot, page)
    assert theme.view.thread.lines == made.threads[0].lines and themes.decisions(store, page.desk.clock) == ()


def test_splitting(qtbot, monkeypatch, theme, page, made):
    _, (stay, go) = halves_shown(qtbot, monkeypatch, theme, True)
    qtbot.waitUntil(lambda: theme.view.thread.lines < made.threads[0].lines)
    settled(qtbot, page)
    assert abs(theme.view.thread.lines - len(stay)) <= len(go) // 4
    page.theme.left.emit()
    qtbot.waitUntil(lambda: len(names(page)) == len(made.threads) + 1)


def test_pinning(qtbot, theme, page):
    assert theme.acts.pin.text() == "Pin"
    theme.acts.pin.click()
    qtbot.waitUntil(lambda: theme.acts.pin.text() == "Unpin" and "pinned" in theme.facts.text())
    theme.acts.pin.click()
    qtbot.waitUntil(lambda: theme.acts.pin.text() == "Pin")


def test_lines_are_let_out_moved_and_make_a_theme(qtbot, monkeypatch, store, theme, page, made):
    assert not theme.acts.out.isVisible()
    theme.lines.setCurrentIndex(theme.lines.rows.index(0, 0))
    assert theme.acts.out.isVisible() and theme.acts.chosen.text() == "1 line chosen:"
    theme.acts.out.click()
    # Lines that stand in it second come and go with its middle.
    qtbot.waitUntil(lambda: theme.view.thread.lines < made.threads[0].lines)
    settled(qtbot, page)
    other = made.threads[1]
    answer(monkeypatch, "ThemeDialog", number=other.number)
    theme.lines.clearSelection()
    qtbot.keyClick(theme.lines, Qt.Key.Key_Home)
    qtbot.keyClick(theme.lines, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert theme.acts.chosen.text() == "2 lines chosen:"
    theme.acts.move.click()
    qtbot.waitUntil(lambda: theme.view.thread.lines <= made.threads[0].lines - 2)
    settled(qtbot, page)
    theme.lines.selectAll()
    theme.acts.start.click()
    settled(qtbot, page)
    assert themes.themes_view(store).threads[-1].number != other.number
    assert themes.last_decision(store) == "a theme started"


def test_an_earlier_decision_is_undone_by_itself(qtbot, monkeypatch, store, theme, page, made):
    theme.acts.pin.click()
    settled(qtbot, page)
    answer(monkeypatch, "NameDialog", name="Mine")
    theme.acts.rename.click()
    settled(qtbot, page)
    theme.left.emit()
    qtbot.waitUntil(page.overview.earlier.isVisible)
    first = themes.decisions(store, page.desk.clock)[-1]
    answer(monkeypatch, "DecisionDialog", decision=first.id)
    page.overview.earlier.click()
    settled(qtbot, page)
    known = themes.themes_view(store).threads[0]
    assert known.name == "Mine" and not known.pinned


def test_the_dialog_of_decisions_tells_the_latest_first_and_narrows(qtbot, frame):
    made = [DecisionTold("b", "\u201cTea\u201d pinned", date(2026, 11, 14)), DecisionTold("a", "a theme started", date(2024, 1, 2))]
    dialog = theme_dialogs.DecisionDialog(frame.desk, made, frame)
    assert [dialog.list.item(row).text() for row in range(2)] == [
        "\u201cTea\u201d pinned \u00b7 Sat 14 Nov 2026", "a theme started \u00b7 Tue 2 Jan 2024",
    ]  # fmt: skip
    assert not dialog.act.isEnabled()
    qtbot.keyClicks(dialog.typed, "start")
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Down)
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Return)
    assert dialog.decision == "a"


def test_a_word_is_left_out_and_let_back_in(qtbot, monkeypatch, theme, page, made):
    word = made.threads[0].words[0]
    answer(monkeypatch, "WordDialog", word=word)
    theme.acts.leave_out.click()
    settled(qtbot, page)
    page._back()
    qtbot.waitUntil(lambda: page.overview.left_out.text() == f"Words left out: {word}.")
    qtbot.waitUntil(lambda: not any(word in thread.words for thread in page.overview.view.threads))
    page.overview.let_in.click()
    settled(qtbot, page)
    qtbot.waitUntil(lambda: not page.overview.left_out.isVisible())


def test_a_theme_that_is_gone_leads_back_to_all(qtbot, store, theme, page):
    with store.writing() as connection:
        connection.execute("UPDATE theme SET retired_at = 'now' WHERE number = ?", (theme.number,))
    theme.ask()
    qtbot.waitUntil(lambda: page.currentWidget() is page.overview)


def test_central_lines_may_come_first(qtbot, theme, store):
    theme.order.click()
    central = themes.lines_of(store, theme.number, central_first=True)
    qtbot.waitUntil(lambda: theme.lines.rows.rowCount() and theme.lines.rows.at(0).line == central[0].line)
    assert theme.order.text() == "Most central first"


def test_more_lines_come_when_scrolled(qtbot, frame, made, store, page):
    number = made.threads[0].number
    with store.writing() as connection:
        connection.execute("UPDATE theme_line SET theme = ?", (number,))
    page.show_theme(number)
    theme = shown(qtbot, page)
    assert theme.lines.rows.rowCount() == 50
    theme.lines.rows.fetchMore(theme.lines.rootIndex())
    qtbot.waitUntil(lambda: theme.lines.rows.rowCount() == 100)


def test_find_offers_the_themes(qtbot, frame, page, made):
    frame.go("find")
    find = frame.pages["find"]
    qtbot.waitUntil(lambda: find.sentence.only.known is not None)
    told = [one for one in find.sentence.only.known.all if one.sort == "themes"]
    assert len(told) == len(made.threads)
    find.sentence.only.setText(made.threads[0].name)
    find.sentence.only.settle()
    qtbot.waitUntil(lambda: find.told.text() == f"{made.threads[0].lines} lines")
    assert [word.text() for word in find.sentence.words] == [f"about {made.threads[0].name}"]


def test_a_long_name_in_find_is_cut_and_said_whole(qtbot, monkeypatch, frame, theme, page, made):
    name = "A name of a good many words that goes on and on and on"
    answer(monkeypatch, "NameDialog", name=name)
    theme.acts.rename.click()
    settled(qtbot, page)
    frame.go("find")
    sentence = frame.pages["find"].sentence
    qtbot.waitUntil(lambda: sentence.only.known is not None)
    frame.pages["find"].look_for(Sought(themes=(made.threads[0].number,)))
    (word,) = sentence.words
    assert word.text().endswith("\u2026") and word.text().startswith("about A name of")
    assert word.accessibleName() == f"Take off: about {name}"


def test_a_line_written_tonight_finds_its_theme_by_itself(qtbot, frame, store, made):
    words = " ".join(made.threads[0].words[:4])
    qtbot.keyClicks(frame.pages["night"].fields["gratitude"], words)
    frame.pages["night"].keep()
    asked = "SELECT theme FROM theme_line JOIN line ON id = line_id WHERE night = '2026-11-14'"
    qtbot.waitUntil(lambda: store.rows(asked) == [(made.threads[0].number,)])


# dialogs and words


def test_the_dialog_of_themes_narrows_as_one_types(qtbot, frame):
    others = [(1, "Bread"), (2, "Caf\u00e9"), (3, "The sea")]
    dialog = theme_dialogs.ThemeDialog(frame.desk, "Merge", "Merge", others, "", frame)
    assert not dialog.act.isEnabled()
    qtbot.keyClicks(dialog.typed, "cafe")
    assert dialog.list.count() == 1 and dialog.act.isEnabled()
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Return)
    assert dialog.number == 2


def test_the_dialog_of_words_takes_one_typed_or_chosen(qtbot, frame):
    dialog = theme_dialogs.WordDialog(frame.desk, "Leave out", "Leave out", ("bread", "oven"), frame)
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Down)
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Down)
    qtbot.keyClick(dialog.typed, Qt.Key.Key_Return)
    assert dialog.word == "oven"


def test_a_course_has_no_more_steps_than_there_is_room_for_and_gaps_where_nothing_was_kept():
    course = Course(date(2024, 1, 1), (0, 10, 0, 0, 3), (10, 10, 10, 0, 10))
    found = heights(course, 100)
    assert len(found) == 5 and found[3] is None and max(x for x in found if x is not None) == found[1]
    many = Course(date(1970, 1, 1), (3,) * 600, (30,) * 600)
    assert heights(many, 80) == pytest.approx([0.1] * 80)


def test_growing_is_told_with_what_is_compared():
    from keeper.review.themes import Change

    told = theme_wording.changed(Change("growing", 0.04, 0.09, 365))
    assert told == "Growing: on 9 % of the nights kept in the last year, 4 % in the year before."
    assert theme_wording.changed(Change("fading", 0.2, 0.1, 120)).endswith("the last 4 months, 20 % in as many before.")
    assert theme_wording.changed(None) == ""
