"""Later words go wherever their line goes: into the book if wished, pages to send, the copy to read, texts, tables and the calendar."""

import csv
from datetime import date
from io import StringIO

import pytest
from waiting.when_used import WhenUsed

from keeper.actions import writing
from keeper.actions.paper.contents import book_of
from keeper.actions.readings import changing, noting
from keeper.actions.remembering import later
from keeper.actions.sending.parts import by_night, speaker
from keeper.exchange.out.given import GivenNight
from keeper.exchange.out.journal import Journal
from keeper.exchange.out.tables import LaterWordCells
from keeper.exchange.out.year_text import YearText
from keeper.model.later import words_alone
from keeper.review.book import BookParts
from keeper.store import lines
from keeper.store.backups import reading_copy

icalendar = WhenUsed("icalendar")

THEN = date(2023, 11, 14)
TONIGHT = date(2026, 11, 14)


@pytest.fixture
def line(store, clock):
    line = writing.write_line(store, THEN, "memory", "The piano in Turku had lost its voice.", clock)
    later.write(store, line.id, date(2024, 11, 15), "Sold, I hear.\n> # not a heading", clock)
    mood = changing.begin(store, changing.offered(THEN)[0])
    noting.note(store, THEN, mood.id, "3", clock)
    later.look_anew(store, line.id, TONIGHT, "6", clock)
    return lines.by_id(store, line.id)


def test_the_book_has_them_only_if_wished(store, line):
    def told(parts):
        return [[(one.head, one.text) for one in said.later]
                for month in book_of(store, 2023, parts).months for night in month.nights for said in night.lines]  # fmt: skip

    assert told(BookParts()) == [[]]
    assert told(BookParts(later_words=True)) == [[("A year and a day on, 15 November 2024", "Sold, I hear.\n> # not a heading")]]


def test_a_page_to_send_has_them(line):
    (night,) = by_night([line], speaker([line.text]))
    assert [one.head for one in night.lines[0].later] == ["A year and a day on, 15 November 2024"]


def test_the_copy_to_read_and_the_texts_tell_them_as_the_persons_words(store, line, tmp_path):
    reading_copy.write(store, tmp_path, TONIGHT)
    out = StringIO()
    YearText(out, 2023, ()).night(GivenNight(THEN, lines=(line,)))
    for text in ((tmp_path / "2023.md").read_text("utf-8"), out.getvalue()):
        rows = text.split("\n")
        at = rows.index("Of it was said later, on Friday 15 November 2024:")
        assert rows[at + 1 : at + 4] == ["", "> Sold, I hear.", "> > # not a heading"]
        at = rows.index("Of it was said later, on Saturday 14 November 2026:")
        assert rows[at + 2] == "mood, as it looked then: 6."


def test_the_table_has_a_row_for_each(line):
    out = StringIO()
    LaterWordCells(out).night(GivenNight(THEN, lines=(line,)))
    rows = list(csv.DictReader(StringIO(out.getvalue())))
    assert [(row["night"], row["said on"], row["what was looked at again"], row["as it looked"]) for row in rows] == [
        ("2023-11-14", "2024-11-15", "", ""), ("2023-11-14", "2026-11-14", "mood", "6.0"),
    ]  # fmt: skip
    assert rows[0]["later word"].startswith("Sold") and rows[0]["id of the line"] == line.id


def test_the_calendar_has_them_as_comments_of_the_entry(line):
    # RFC 5545, 3.6.3: COMMENT may stand more than once in a VJOURNAL; read by the library icalendar.
    out = StringIO()
    journal = Journal(out, "1")
    journal.night(GivenNight(THEN, lines=(line,)))
    journal.end()
    (entry,) = icalendar.Calendar.from_ical(out.getvalue()).walk("VJOURNAL")
    assert str(entry["COMMENT"]) == "2024-11-15: Sold, I hear.\n> # not a heading"


def test_without_readings_only_words_are_left(line):
    (word,) = words_alone(line.later)
    assert (word.text[:4], word.looks, word.of) == ("Sold", None, "")
