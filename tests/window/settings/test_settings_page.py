"""The settings page draws itself and puts each setting in force."""

from PySide6.QtCore import Qt

from keeper.actions import opening
from keeper.settings import PAPERS, SETTINGS
from keeper.window.desk.look import weekday_that_begins


def choose(control, text):
    place = control.findText(text)
    assert place >= 0, text
    control.setCurrentIndex(place)
    control.activated.emit(place)


def test_every_setting_with_a_label_has_a_control(frame):
    frame.go("settings")
    page = frame.pages["settings"]
    assert set(page.controls) == {setting.name for setting in SETTINGS if setting.label}


def test_each_paper_can_be_chosen(frame):
    frame.go("settings")
    for name, paper in PAPERS.items():
        choose(frame.pages["settings"].controls["palette"], name)
        assert frame.desk.look.palette.paper == paper


def test_a_change_is_in_force_and_kept(qtbot, frame, store):
    frame.go("settings")
    controls = frame.pages["settings"].controls
    choose(controls["palette"], "night")
    assert frame.desk.look.palette.dark
    choose(controls["ink"], "plum")
    choose(controls["text_size"], "200 %")
    choose(controls["rollover"], "2:00")
    choose(controls["week_begins"], "Sunday")
    assert frame.desk.rollover() == 2
    assert weekday_that_begins(frame.desk.kept) == Qt.DayOfWeek.Sunday
    assert frame.desk.writer.finish()
    kept = opening.read_settings(store)
    assert {name: kept[name] for name in ("palette", "ink", "text_size", "rollover", "week_begins")} == {
        "palette": "night", "ink": "plum", "text_size": "200", "rollover": "2", "week_begins": "Sunday",
    }  # fmt: skip


def test_text_at_twice_the_size_makes_the_words_twice_as_large(frame, page):
    small = page.fields["memory"].fontInfo().pointSizeF()
    frame.go("settings")
    choose(frame.pages["settings"].controls["text_size"], "200 %")
    frame.go("night")
    page.fields["memory"].ensurePolished()
    assert abs(page.fields["memory"].fontInfo().pointSizeF() / small - 2) < 0.1


def test_the_night_follows_the_rollover_hour_at_once(frame, page):
    from datetime import datetime
    from zoneinfo import ZoneInfo

    from keeper.clock import StoppedClock

    frame.desk.clock = StoppedClock(datetime(2026, 11, 15, 3, 0, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")
    assert frame.desk.tonight().day == 14
    frame.go("settings")
    choose(frame.pages["settings"].controls["rollover"], "2:00")
    assert frame.desk.tonight().day == 15
