"""All that a search finds, put into a file; read back by others: csv, openpyxl, pypdfium2."""

import csv
from datetime import date
from io import StringIO

import pypdfium2
import pytest
from waiting.when_used import WhenUsed

from keeper.actions import people, writing
from keeper.actions.finding import Sought
from keeper.actions.sending.found import put_found
from keeper.actions.sending.making import UnknownFormat
from keeper.errors import Stopped, UnknownThing

openpyxl = WhenUsed("openpyxl")

LINES = (
    (date(2024, 6, 2), "memory", "=The ferry, \u201clate\u201d\nand wet."),
    (date(2025, 1, 5), "memory", "Ice on the ferry, <b>R\u00f8nne</b>."),
    (date(2025, 1, 6), "gratitude", "Maja and the ferry."),
    (date(2025, 1, 7), "memory", "Felt and brass."),
)


@pytest.fixture
def kept(store, clock):
    """Three lines of a ferry, one of another thing; one names someone who rests."""
    for night, kind, text in LINES:
        writing.write_line(store, night, kind, text, clock)
    writing.set_place(store, LINES[0][0], "Turku", clock)
    people.add(store, "Maja")
    people.rest_by_name(store, "Maja")
    return store


def test_a_table_has_each_line_whole_and_what_rests_stays_out(kept, tmp_path):
    made = put_found(kept, Sought("ferry"), tmp_path / "found.csv")
    rows = list(csv.reader(StringIO((tmp_path / "found.csv").read_bytes().decode("utf-8-sig"), newline="")))
    assert rows == [
        ["night", "weekday", "kind", "place", "text"],
        ["2024-06-02", "Sunday", "Memory", "Turku", f"'{LINES[0][2]}"],
        ["2025-01-05", "Sunday", "Memory", "", LINES[1][2]],
    ]
    assert made.left_out == ("1 line that rests is not in it.",)


def test_a_spreadsheet_holds_dates_and_words_that_are_no_formula(kept, tmp_path):
    put_found(kept, Sought("ferry", resting=None), tmp_path / "found.xlsx")
    rows = list(openpyxl.load_workbook(tmp_path / "found.xlsx").active.iter_rows())
    assert [(rows[1][0].value.date(), rows[1][4].value, rows[1][4].data_type)] == [(LINES[0][0], LINES[0][2], "s")]
    assert len(rows) == 3


def test_a_text_and_what_rests_where_that_is_sought(kept, tmp_path):
    put_found(kept, Sought("ferry", resting=True), tmp_path / "found.txt")
    assert (tmp_path / "found.txt").read_text("utf-8") == "Monday 6 January 2025, Gratitude\nMaja and the ferry.\n"


def test_a_page_says_what_was_sought_and_takes_words_as_they_are(kept, tmp_path):
    put_found(kept, Sought("ferry", weekdays=(6,)), tmp_path / "found.html")
    page = (tmp_path / "found.html").read_text("utf-8")
    assert "\u201cferry\u201d on Sundays" in page and "&lt;b&gt;R\u00f8nne&lt;/b&gt;" in page and "Turku" not in page
    put_found(kept, Sought("ferry", weekdays=(6,)), tmp_path / "found.pdf")
    pdf = pypdfium2.PdfDocument(tmp_path / "found.pdf")
    assert "on Sundays" in pdf[0].get_textpage().get_text_range()
    pdf.close()


def test_what_cannot_be_is_said_and_nothing_lies_there(kept, tmp_path):
    with pytest.raises(UnknownFormat, match=r"\.csv, \.xlsx"):
        put_found(kept, Sought("ferry"), tmp_path / "found.doc")
    with pytest.raises(UnknownThing, match="no line to save"):
        put_found(kept, Sought("herring"), tmp_path / "found.csv")
    with pytest.raises(Stopped):
        put_found(kept, Sought("ferry"), tmp_path / "found.csv", stopped=lambda: True)
    assert list(tmp_path.glob("found*")) == []
