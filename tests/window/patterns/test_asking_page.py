"""The page of patterns: asked, told strongest first, drawn, put away, kept an eye on, noted on the month."""

from datetime import timedelta

import pytest
from made.pattern_keeper import FIRST, NIGHTS, fill
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from keeper.actions.patterns import asking, deciding, shown
from keeper.actions.patterns.columns import candidates
from keeper.errors import Stopped
from keeper.model import Act
from keeper.store import month_pages
from keeper.window.patterns.picking import PickingDialog

SLEEP_MOOD = ("reading:sleep", "reading:mood", 1)
SAID = "of sleep, mood the next evening was typically 1 lower (between "


@pytest.fixture
def page(qtbot, store, frame):
    """Before anything was asked."""
    fill(store)
    frame.go("patterns")
    page = frame.pages["patterns"].asking
    qtbot.waitUntil(lambda: page.view is not None and page.view.questions == 30)
    return page


@pytest.fixture
def asked(qtbot, store, page):
    # In this process: another one takes a second to begin.
    asking.ask(store, page.desk.clock)
    page.desk.changed.emit()
    qtbot.waitUntil(lambda: len(page.told.rows) == 1)
    return page


def sentence(page):
    return page.told.rows[0].sentence


def test_who_asks_by_key_is_at_stop_meanwhile_and_reads_on_at_the_first_answer(qtbot, store, page, monkeypatch):
    def waits(store, clock, progress, stopped):
        while not stopped():
            progress(0.4, "asking")
        raise Stopped

    monkeypatch.setattr(asking, "ask_apart", waits)
    page.again.setFocus()
    qtbot.keyClick(page.again, Qt.Key.Key_Space)
    assert page.stop.hasFocus()
    qtbot.keyClick(page.stop, Qt.Key.Key_Space)
    assert page.again.hasFocus() and page.again.isEnabled() and not page.stop.isVisible()
    monkeypatch.setattr(asking, "ask_apart", lambda store, clock, progress, stopped: asking.ask(store, clock))
    qtbot.keyClick(page.again, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: bool(page.told.rows) and sentence(page).hasFocus())


def test_it_is_asked_in_the_background_and_told(qtbot, page, really_apart):
    assert page.standing.text() == "Nothing was asked yet." and page.again.text() == "Ask"
    assert page.taking.text() == "Taking part: mood, sleep, tea, ferry. That is 30 questions at most; fewer is better."
    heard = []
    page.work.moved.connect(lambda what, share: heard.append((what, share)))
    qtbot.mouseClick(page.again, Qt.MouseButton.LeftButton)
    assert page.stop.isVisible() and page.doing.text() == "Asking…" and not page.again.isEnabled()
    qtbot.waitUntil(lambda: len(page.told.rows) == 1)
    assert page.standing.text() == "Among 30 questions one answer stands out from chance."
    assert SAID in sentence(page).text() and sentence(page).accessibleName() == sentence(page).text()
    assert page.first.isVisible() and "licensed clinician" in page.caution.text() and "diagnosis" in page.caution.text()
    assert heard[0] == ("waiting", 0.0) and ("asking", pytest.approx(0.05)) in heard and heard[-1] == ("", 1.0)
    assert not page.stop.isVisible() and page.again.text() == "Ask again"


def test_it_can_be_stopped(qtbot, page):
    page.work.ask()
    qtbot.mouseClick(page.stop, Qt.MouseButton.LeftButton)
    assert not page.work.running and not page.stop.isVisible()
    page.desk.worker.finish()
    assert page.standing.text() == "Nothing was asked yet."


def test_nothing_found_is_said_as_calmly(qtbot, page, store):
    asking.pick(store, ["reading:tea", "reading:ferry"])
    page.work.ask()
    qtbot.waitUntil(lambda: page.standing.text() == "Among 5 questions nothing stands out from chance.")
    assert not page.told.rows and not page.first.isVisible() and not page.moved.isVisible() and not page.away.isVisible()


def test_what_changed_is_asked_again_at_the_next_visit(qtbot, frame, asked, store):
    frame.go("night")
    with store.writing(Act("Readings", "night")) as connection:
        connection.execute("UPDATE reading SET value = 5 WHERE tracker_id = 'mood'")
    frame.go("patterns")
    qtbot.waitUntil(lambda: asked.standing.text() == "Among 15 questions nothing stands out from chance.")


def test_a_chart_is_one_key_away_and_drawn_in_ink(qtbot, asked):
    sentence(asked).setFocus()
    assert asked.told.rows[0].below.isVisible()
    for key in (Qt.Key.Key_C, Qt.Key.Key_Return, Qt.Key.Key_Space):
        qtbot.keyClick(sentence(asked), key)
        chart = asked.told.rows[0].chart
        qtbot.waitUntil(lambda chart=chart: chart.chart is not None)
        assert chart.accessibleDescription().startswith("299 nights. mood: ")
        qtbot.keyClick(sentence(asked), key)
        assert asked.told.rows[0].chart is None
    asked.told.rows[0].toggle_chart()
    chart = asked.told.rows[0].chart
    qtbot.waitUntil(lambda: chart.chart is not None and chart.width() > 300 and chart.height() > 100)
    for palette in ("day", "night"):
        asked.desk.kept["palette"] = palette
        asked.desk.look.dress(asked.desk.kept)
        QApplication.processEvents()
        picture = chart.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
        colours = {picture.pixelColor(x, y).name() for x in range(picture.width()) for y in range(picture.height())}
        assert asked.desk.look.palette.paper in colours and asked.desk.look.palette.ink in colours and len(colours) > 4


def test_one_is_put_away_and_brought_back(qtbot, asked, frame):
    said = sentence(asked).text()
    qtbot.keyClick(sentence(asked), Qt.Key.Key_Delete)
    qtbot.waitUntil(lambda: not asked.told.rows)
    assert asked.away.isVisible() and asked.away.fold.text() == "Put away (1) ›"
    qtbot.mouseClick(asked.away.fold, Qt.MouseButton.LeftButton)
    row = asked.away.rows.rows[0]
    assert row.sentence.text() == said
    row.sentence.setFocus()
    assert [button.text() for button in row.buttons] == ["Chart", "Bring back"] and row.below.isVisible()
    assert row.buttons[0].isVisible()
    qtbot.mouseClick(row.buttons[1], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: len(asked.told.rows) == 1)
    assert not asked.away.isVisible()


def test_an_eye_is_kept_and_told_of_when_the_nights_are_in(qtbot, asked, frame, store):
    offer = frame.rest.pattern_offer
    assert offer.button.isHidden()
    deciding.watch(store, SLEEP_MOOD, "Then.", FIRST + timedelta(days=NIGHTS - 51), 50)
    frame.desk.changed.emit()
    qtbot.waitUntil(lambda: asked.due.isVisible() and not offer.button.isHidden())
    frame.go("night")
    qtbot.mouseClick(offer.button, Qt.MouseButton.LeftButton)
    assert frame.page_shown() == "patterns"
    qtbot.waitUntil(lambda: len(asked.due.buttons) == 2)
    assert [button.text() for button in asked.due.buttons] == ["Tell me again as many nights later", "Enough"]
    qtbot.mouseClick(asked.due.buttons[1], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not asked.due.isVisible() and offer.button.isHidden())


def test_it_is_noted_on_the_month(qtbot, asked, store, tonight):
    qtbot.keyClick(sentence(asked), Qt.Key.Key_N)
    qtbot.waitUntil(lambda: month_pages.one(store, tonight).words == shown.patterns_view(store).told[0].sentence)


def test_the_key_for_an_eye_keeps_one_and_ends_it_and_the_focus_stays(qtbot, asked):
    sentence(asked).setFocus()
    qtbot.keyClick(sentence(asked), Qt.Key.Key_E)
    qtbot.waitUntil(lambda: "An eye" in asked.told.rows[0].small.text())
    assert sentence(asked).hasFocus() and asked.told.rows[0].below.isVisible()
    assert "until 50 nights more are in" in asked.told.rows[0].small.text()
    assert asked.told.rows[0].buttons[1].text() == "Keep no eye on it"
    qtbot.keyClick(sentence(asked), Qt.Key.Key_E)
    qtbot.waitUntil(lambda: "An eye" not in asked.told.rows[0].small.text())


def test_what_was_asked_and_how_is_one_key_away(qtbot, asked):
    qtbot.keyClick(asked.how, Qt.Key.Key_Space)
    texts = [part.text() for part in asked.method if part.isVisible()]
    assert "mood (300 nights)" in texts[1] and "Benjamini & Hochberg 1995" in " ".join(texts) and len(texts) > 4
    qtbot.keyClick(asked.how, Qt.Key.Key_Space)
    assert not any(part.isVisible() for part in asked.method)


def test_the_person_picks_and_sees_the_number_of_questions(qtbot, asked, store):
    dialog = PickingDialog(asked.desk, candidates(store), asking.taking_part(store), asked)
    assert dialog.told.text() == "That is 30 questions at most."
    dialog.boxes["reading:tea"].setChecked(False)
    dialog.boxes["weekday"].setChecked(True)
    assert dialog.told.text() == f"That is {3 * 2 * 2 + 3 + 3} questions at most."
    assert dialog.keys() == ["reading:mood", "reading:sleep", "reading:ferry", "weekday"]
    for box in dialog.boxes.values():
        box.setChecked(False)
    assert not dialog.ask.isEnabled()
    dialog.deleteLater()


def test_what_is_picked_is_asked_at_once(qtbot, asked, store, monkeypatch):
    monkeypatch.setattr(PickingDialog, "exec", lambda dialog: 1)
    monkeypatch.setattr(PickingDialog, "keys", lambda dialog: ["reading:tea", "reading:ferry"])
    qtbot.mouseClick(asked.choose, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: asked.standing.text() == "Among 5 questions nothing stands out from chance.")


def test_arrows_go_from_one_to_the_next(qtbot, asked, store):
    asked.told.show_patterns(shown.patterns_view(store).told * 3, ())
    rows = asked.told.rows
    rows[0].sentence.setFocus()
    qtbot.keyClick(rows[0].sentence, Qt.Key.Key_Down)
    assert rows[1].sentence.hasFocus() and [row.below.isVisible() for row in rows] == [False, True, False]
    qtbot.keyClick(rows[1].sentence, Qt.Key.Key_Up)
    assert rows[0].sentence.hasFocus()


def test_many_are_shown_some_at_a_time(qtbot, asked, store):
    asked.told.show_patterns(shown.patterns_view(store).told * 40, ())
    assert len(asked.told.rows) == 15 and asked.told.more.text() == "Show more (25 left)"
    qtbot.mouseClick(asked.told.more, Qt.MouseButton.LeftButton)
    assert len(asked.told.rows) == 30 and asked.told.rows[15].sentence.hasFocus()
    qtbot.mouseClick(asked.told.more, Qt.MouseButton.LeftButton)
    assert len(asked.told.rows) == 40 and not asked.told.more.isVisible()
