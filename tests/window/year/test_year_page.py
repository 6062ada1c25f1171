"""The page of a year, as it is shown."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QLabel
from waiting.at_rest import at_rest
from year_pages import all_shown

from keeper import cautions
from keeper.actions import writing
from keeper.clock import StoppedClock
from keeper.model import Place, Reading, Tracker
from keeper.review.year import ThemeFlow, YearReadings
from keeper.store import trackers
from keeper.store.places import named as places
from keeper.study.readings.spread import Spread
from keeper.window.parts.choice import Choice
from keeper.window.parts.places.map import MapView
from keeper.window.year import dialogs as year_dialogs
from keeper.window.year.flow import FlowView
from keeper.window.year.readings import ReadingStrip


def open_year(qtbot, frame, year):
    frame.go("year", min(date(year, 12, 31), frame.desk.tonight()))
    page = frame.pages["year"].overview
    qtbot.waitUntil(lambda: all_shown(page))
    return page


def seen(page) -> str:
    return "\n".join(label.text() for label in page.findChildren(QLabel) if label.isVisible())


@pytest.fixture
def lines_of_may(write):
    return [write(date(2026, 5, day), "memory", f"The {what}, all of it.").id
            for day, what in enumerate(("harbour", "bread", "piano", "letter", "rain"), 1)]  # fmt: skip


def test_a_new_keeper_says_that_the_year_fills_in_by_itself(qtbot, frame):
    page = open_year(qtbot, frame, 2026)
    assert "Nothing is kept yet" in seen(page)
    assert not page.sit.isVisible()


def test_a_year_of_one_month(qtbot, frame, lines_of_may):
    page = open_year(qtbot, frame, 2026)
    assert "5 nights kept, 5 lines, 25 words." in seen(page)
    assert "The harbour, all of it." in seen(page)
    assert "No photo was kept." in seen(page)
    assert page.sit.isVisible()


def test_a_year_with_nothing_in_it_beside_one_with_lines(qtbot, frame, lines_of_may):
    open_year(qtbot, frame, 2026)
    page = open_year(qtbot, frame, 2025)
    assert page.counted.text() == "Nothing is kept of 2025."
    assert "harbour" not in seen(page)


@pytest.mark.parametrize("words", ["2026", "all years", "W", "i"])
def test_what_is_chosen_is_seen_whole_where_a_choice_has_the_width_it_asks_for(frame, words):
    choice = Choice(frame.desk.look, "Year")
    choice.addItem(words)
    choice.resize(choice.sizeHint())
    assert choice.words() == words


def test_years_are_turned_by_button_and_by_choice(qtbot, frame, write, lines_of_may):
    write(date(2024, 2, 29), "memory", "a leap day")
    page = open_year(qtbot, frame, 2026)
    assert [page.years.itemData(place) for place in range(page.years.count())] == [2026, 2025, 2024]
    assert not page.after.isEnabled()
    qtbot.mouseClick(page.before, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: page.year == 2025 and all_shown(page))
    page.years.setCurrentIndex(2)
    qtbot.waitUntil(lambda: page.year == 2024 and all_shown(page))
    assert not page.before.isEnabled() and page.after.isEnabled()
    assert "a leap day" in seen(page)
    assert frame.night == date(2024, 12, 31)


def test_words_are_never_taken_for_markup(qtbot, frame, write):
    write(date(2026, 5, 1), "memory", "<b>bold</b> & <img src=x>")
    page = open_year(qtbot, frame, 2026)
    shown = [label for label in page.findChildren(QLabel) if label.text() == "<b>bold</b> & <img src=x>"]
    assert shown and all(label.textFormat() == Qt.TextFormat.PlainText for label in shown)


def test_what_another_program_writes_is_seen(qtbot, frame, write, lines_of_may):
    page = open_year(qtbot, frame, 2026)
    write(date(2026, 6, 1), "memory", "from elsewhere")
    frame._look_round()
    qtbot.waitUntil(lambda: "from elsewhere" in seen(page))


def test_a_line_left_out_is_gone_and_comes_back_as_proposed(qtbot, frame, lines_of_may):
    page = open_year(qtbot, frame, 2026)
    rows = page.lines.rows
    qtbot.mouseClick(rows._rows[0][2], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: len(rows.lines) == 4 and "harbour" not in seen(page))
    again = page.lines.again
    qtbot.waitUntil(again.isVisible)
    qtbot.mouseClick(again, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: "harbour" in seen(page))


def test_a_line_gives_way_to_another(qtbot, frame, write, monkeypatch):
    for number in range(60):
        write(date(2026, 3 + number % 3, 1 + number // 3), "memory", f"word{number} alone")
    page = open_year(qtbot, frame, 2026)
    rows, old = page.lines.rows, page.review.lines[0]

    def take_first(dialog):
        qtbot.waitUntil(dialog.take.isEnabled)
        offered = [dialog.model.at(row).line.id for row in range(dialog.model.rowCount())]
        assert not {line.id for line in page.review.lines} & set(offered)
        dialog._take()
        return dialog.result()

    monkeypatch.setattr(year_dialogs.LineDialog, "exec", take_first)
    qtbot.mouseClick(rows._rows[0][1], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: page.review.own_lines and old not in rows.lines)
    assert len(rows.lines) == 12


def test_the_focus_stays_in_its_row_when_a_line_is_left_out(qtbot, frame, lines_of_may):
    page = open_year(qtbot, frame, 2026)
    rows = page.lines.rows
    rows._rows[1][2].setFocus()
    qtbot.keyClick(rows._rows[1][2], Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: len(rows.lines) == 4)
    assert rows._rows[1][2].hasFocus()


def test_readings_come_with_the_caution(qtbot, frame, store, lines_of_may):
    mood = trackers.add(store, Tracker("", "mood", "scale", 0, 10, "", "higher", date(2026, 1, 1), body=True))
    trackers.note(store, [Reading(date(2026, 5, day), mood, 6.0) for day in (1, 2)])
    page = open_year(qtbot, frame, 2026)
    assert cautions.OF_THE_BODY in seen(page)
    (strip,) = page.findChildren(ReadingStrip)
    assert "May: 6, 2 nights, half of them from 6 to 6" in strip.accessibleDescription()


def test_another_palette_and_size_are_taken_up(qtbot, frame, lines_of_may):
    page = open_year(qtbot, frame, 2026)
    frame.desk.change_setting("text_size", "200")
    frame.desk.change_setting("palette", "night")
    frame.dress_anew()
    qtbot.waitUntil(lambda: all_shown(page))
    assert "harbour" in seen(page)


def test_a_place_on_the_map_opens_its_own_page(qtbot, frame, store, clock, lines_of_may):
    place = places.add(store, Place("", "Ystad", latitude=55.43, longitude=13.82))
    writing.set_place(store, date(2026, 5, 1), "Ystad", clock)
    page = open_year(qtbot, frame, 2026)
    qtbot.waitUntil(lambda: "1 night with a known place, at 1 place" in seen(page))
    page.findChild(MapView).picked.emit(place.id)
    qtbot.waitUntil(lambda: frame.page_shown() == "places")
    assert frame.pages["places"].place.place_id == place.id


def test_a_theme_opens_its_own_page(frame, qtbot, lines_of_may):
    page = open_year(qtbot, frame, 2026)
    page.theme_wanted.emit(3)
    assert frame.page_shown() == "themes"
    assert frame.pages["themes"].currentWidget() is frame.pages["themes"].theme


# what is painted


@pytest.fixture
def flow(qtbot, frame):
    view = FlowView(frame.desk.look)
    qtbot.addWidget(view)
    shares = (0.5, 0.0, 0.25, *[0.1] * 9)
    view.show_flow([ThemeFlow(3, "sea", 20, shares), ThemeFlow(8, "bread <b>", 12, shares[::-1])], range(1, 13))
    view.resize(700, view.sizeHint().height())
    view.show()
    return view


def test_bands_are_told_by_keys(qtbot, flow):
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Down):
        qtbot.keyClick(flow, key)
    assert flow.at[0] == 1
    assert "bread <b> in " in flow.accessibleDescription() and "% of the nights kept" in flow.accessibleDescription()
    with qtbot.waitSignal(flow.picked) as heard:
        qtbot.keyClick(flow, Qt.Key.Key_Return)
    assert heard.args == [8]


def test_a_band_is_as_thick_as_its_share(flow):
    thick = [flow._band(0, flow.flow[0]).intersected(_column(flow, month)).boundingRect().height() for month in (1, 2, 3)]
    assert thick[0] == pytest.approx(2 * thick[2], rel=0.02) and thick[1] < 2
    assert flow.grab().toImage().width() > 0


def _column(flow, month):
    from PySide6.QtGui import QPainterPath

    column = QPainterPath()
    column.addRect(flow._x(month) - 0.5, 0, 1, flow.height())
    return column


@pytest.mark.parametrize("months", [range(5, 6), range(6, 12)])
def test_a_part_year_flows_too(flow, months):
    flow.show_flow(flow.flow, months)
    assert not flow.grab().isNull()
    assert flow._spot(QPointF(flow.width() - 5, 5))[1] == months[-1]


def test_no_themes_no_bands(flow):
    flow.show_flow((), ())
    assert not flow.grab().isNull() and flow.most() == 0


@pytest.mark.parametrize("form", ["scale", "hours", "count", "amount", "mark"])
def test_a_strip_tells_each_month_by_keys(qtbot, frame, form):
    tracker = Tracker("t", "sleep", form, 0.0, 10.0, "h", "higher", date(2026, 1, 1))
    months = (Spread(0.5, 0.2, 0.8, 4), *[Spread()] * 10, Spread(0.25, 0.1, 0.5, 8))
    strip = ReadingStrip(frame.desk.look, YearReadings(tracker, months, (Spread(),) * 12, 0.0, 10.0), 2026)
    qtbot.addWidget(strip)
    strip.resize(700, strip.sizeHint().height())
    strip.show()
    qtbot.keyClick(strip, Qt.Key.Key_Right)
    assert strip.part == 1
    assert "January" in strip.accessibleDescription() and "February" not in strip.accessibleDescription()
    low, high = strip.scale()
    assert (low, high) == (0.0, 10.0) and not strip.grab().isNull()


# offering the sitting


@pytest.mark.parametrize(("month", "day", "offered"), [(12, 20, True), (12, 10, False), (11, 14, False)])
def test_the_sitting_is_offered_on_the_page_of_the_night(qtbot, opened, write, month, day, offered):
    write(date(2026, 5, 1), "memory", "a line")
    riga = ZoneInfo("Europe/Riga")
    frame = opened(StoppedClock(datetime(2026, month, day, 22, 0, tzinfo=riga), "Europe/Riga"))
    at_rest(qtbot, frame.desk)
    if offered:
        qtbot.waitUntil(lambda: frame.rest.year_offer.button.isVisible())
        qtbot.mouseClick(frame.rest.year_offer.button, Qt.MouseButton.LeftButton)
        qtbot.waitUntil(lambda: frame.pages["year"].sitting.month.isVisible())
        assert frame.page_shown() == "year"
    else:
        assert frame.rest.year_offer is None or not frame.rest.year_offer.button.isVisible()
