"""Earlier wordings on the command line: by the clock of the place where they were written."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from keeper.actions import reading, writing
from keeper.cli import shown
from keeper.clock import StoppedClock

NIGHT = date(2026, 11, 14)


def test_an_earlier_wording_tells_the_time_of_the_place_where_it_was_written(store, clock):
    honolulu = StoppedClock(datetime(2026, 11, 14, 22, 45, tzinfo=ZoneInfo("Pacific/Honolulu")), "Pacific/Honolulu")
    writing.write_line(store, NIGHT, "memory", "By the sea.", honolulu)
    writing.write_line(store, NIGHT, "memory", "At home.", clock)
    told = shown.night_text(reading.night_page(store, NIGHT, NIGHT), reading.wordings(store, NIGHT, "memory"))
    assert "By the sea. (memory, written 2026-11-14 22:45)" in told
