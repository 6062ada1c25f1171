"""What is written is what the standards ask for; their own examples stand beside the cases."""

import csv
import io
import json
from datetime import UTC, date, datetime

import pytest
from hypothesis import given
from made_keepers.diaries import WORDS

from keeper.exchange.out.cells import Cells
from keeper.exchange.out.given import GivenNight, GivenReading, value_text
from keeper.exchange.out.globe import GivenJourney, GivenStay, Globe
from keeper.exchange.out.journal import Journal, escaped, folded
from keeper.exchange.out.rows import RowsOut
from keeper.exchange.out.year_text import YearText
from keeper.model import Line, Moment, Place, Tracker
from keeper.study.great_circle import line_between

NIGHT = date(2026, 11, 14)


def line(text: str) -> Line:
    return Line("01a2228d-4007-7677-a4e0-3090e18901a1", NIGHT, "memory", text, Moment(datetime(2026, 11, 14, 20, tzinfo=UTC), 120, ""))


def test_rows_of_cells_end_and_are_quoted_as_rfc_4180_has_it():
    out = io.StringIO()
    Cells(out, ("aaa", "bbb")).row('b"bb', "b\nbb")
    # RFC 4180, 2: CRLF (1), breaks within quotes (6), a quote doubled (7).
    assert out.getvalue() == 'aaa,bbb\r\n"b""bb","b\nbb"\r\n'


@pytest.mark.parametrize("words", ["=1+1", "+49 451", "-2", "@SUM(A1)", "\t=1", "\uff1d1"])
def test_words_that_begin_like_a_formula_are_written_as_text(words):
    out = io.StringIO()
    Cells(out, ("words",)).row(words)
    assert next(csv.reader(io.StringIO(out.getvalue().split("\r\n", 1)[1], newline="")))[0] == f"'{words}"


def test_numbers_below_nought_stay_numbers():
    out = io.StringIO()
    Cells(out, ("degrees",)).row(-33.9)
    assert out.getvalue() == "degrees\r\n-33.9\r\n"


def test_a_long_row_is_folded_between_letters():
    row = "DESCRIPTION:" + "\u017e\U0001f3b9" * 40
    pieces = folded(row).removesuffix("\r\n").split("\r\n ")
    # RFC 5545, 3.1: no more than 75 octets; each piece but the first has a space before it.
    assert all(len(piece.encode()) + (place > 0) <= 75 for place, piece in enumerate(pieces))
    assert "".join(pieces) == row


def test_text_is_escaped_as_in_the_example():
    # RFC 5545, 3.3.11: the example of a text with breaks and a comma.
    given_text = "Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
    assert escaped(given_text) == r"Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
    assert escaped("a\\b;c,d\x07") == r"a\\b\;c\,d"


def test_an_entry_has_the_id_of_its_line():
    out = io.StringIO()
    journal = Journal(out, "1")
    journal.night(GivenNight(NIGHT, Place("p", "L\u00fcbeck", country="DE"), (line("The kettle sang."),)))
    journal.end()
    rows = out.getvalue().split("\r\n")
    assert {"UID:01a2228d-4007-7677-a4e0-3090e18901a1", "DTSTART;VALUE=DATE:20261114", "DTSTAMP:20261114T200000Z",
            "SUMMARY:Memory\\, L\u00fcbeck\\, DE", "DESCRIPTION:The kettle sang."} <= set(rows)  # fmt: skip


def test_a_journey_over_the_date_line_comes_in_two_pieces_with_longitude_first():
    out = io.StringIO()
    globe = Globe(out)
    globe.stay(GivenStay(Place("p", "Suva", latitude=-18.1, longitude=178.4), NIGHT, NIGHT, 1))
    globe.stay(GivenStay(Place("q", "A ferry", latitude=1.0, longitude=2.0, on_the_way=True), NIGHT, NIGHT, 1))
    globe.journey(GivenJourney("Suva", "Apia", NIGHT, NIGHT, 1150.0, (), line_between((-18.1, 178.4), (-13.8, -171.8))))
    globe.end()
    stay, journey = json.loads(out.getvalue())["features"]
    assert stay["geometry"]["coordinates"] == [178.4, -18.1]
    # RFC 7946, 3.1.9: cut at 180 degrees, each piece ending there.
    first, second = journey["geometry"]["coordinates"]
    assert (first[-1][0], second[0][0]) == (180.0, -180.0)


@given(WORDS)
def test_only_the_persons_words_stand_behind_the_sign(words):
    out = io.StringIO()
    text = YearText(out, 2026, ())
    text.night(GivenNight(NIGHT, None, (line(words),)))
    said = [row[2:] for row in out.getvalue().split("\n") if row.startswith("> ")]
    assert "\n".join(said) == words


def test_a_reading_is_told_in_words():
    sleep = Tracker("t", "sleep", "hours", None, None, "", "higher", NIGHT)
    mood = Tracker("m", "mood", "scale", 0.0, 10.0, "", "higher", NIGHT)
    assert value_text(GivenReading(sleep, 7.5, "23:30", "07:00")) == "7.5 hours (23:30 to 07:00)"
    assert value_text(GivenReading(mood, 3.0, low=1.0, high=5.0)) == "3 of 1 to 5"


def test_a_table_without_rows_is_an_empty_list_and_bytes_are_base64():
    out = io.StringIO()
    rows = RowsOut(out, 17, True)
    rows.table("goal", ("id",), ())
    rows.table("other", ("id", "what"), [(1, b"\xff")])
    rows.end()
    assert json.loads(out.getvalue())["tables"] == {"goal": [], "other": [{"id": 1, "what": {"base64": "/w=="}}]}
