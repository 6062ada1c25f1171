"""The small questions of a month's page."""

from datetime import date, timedelta

import pytest

from keeper.actions import writing
from keeper.model import Line
from keeper.store import lines, month_pages, nights, people, resting, word_index
from keeper.store.places import named as places
from keeper.store.places.named import Place
from keeper.store.themes import lines as theme_lines

FIRST, LAST = date(2026, 5, 1), date(2026, 5, 31)


@pytest.fixture
def write(store, clock):
    return lambda night, text, kind="memory": writing.write_line(store, night, kind, text, clock)


def test_whether_a_span_has_lines(store, write):
    assert not lines.any_between(store, FIRST, LAST)
    write(LAST, "the last night counts")
    assert lines.any_between(store, FIRST, LAST) and lines.any_between(store, LAST, LAST)
    assert not lines.any_between(store, FIRST, date(2026, 5, 30))


def test_nights_rest_by_span_and_by_place(store, write, clock):
    for day in (1, 2, 3, 9):
        write(date(2026, 5, day), "words")
    place = places.add(store, Place("", "Riga"))
    nights.set_place(store, date(2026, 5, 9), place.id, "said", "2026-05-09T20:00:00Z")
    resting.rest_span(store, date(2026, 5, 2), date(2026, 5, 3))
    assert resting.nights(store, FIRST, LAST) == {date(2026, 5, 2), date(2026, 5, 3)}
    resting.rest(store, "place", place.id)
    assert date(2026, 5, 9) in resting.nights(store, FIRST, LAST)
    assert date(2026, 5, 9) not in resting.nights(store, FIRST, LAST, places=False)


def test_the_words_of_all_lines_are_counted_by_the_index(store, write):
    assert word_index.words_in_all(store) == 0
    write(FIRST, "Tuned the old piano, and the pianist slept.")
    write(LAST, "Two pianos; a Müller sang.", "gratitude")
    assert word_index.words_in_all(store) == 13
    assert word_index.words_beginning(store, ["pian", "mull"]) == {"piano": 1, "pianos": 1, "pianist": 1, "muller": 1}
    assert word_index.words_beginning(store, ["xyz"]) == word_index.words_beginning(store, []) == {}


def test_counts_follow_what_is_changed_and_taken_out(store, write):
    write(FIRST, "snow snow snow")
    assert word_index.words_beginning(store, ["sno"]) == {"snow": 3}
    write(FIRST, "rain")
    assert word_index.words_beginning(store, ["sno"]) == {}
    assert word_index.words_in_all(store) == 1
    write(FIRST, "")
    assert word_index.words_in_all(store) == 0


@pytest.mark.parametrize("count", [1, 40])
def test_the_sum_that_the_index_keeps_is_that_of_its_counts(store, write, count):
    # The one is a record that SQLite does not document; the other goes through the whole index.
    for place in range(count):
        write(FIRST + timedelta(place), "Tuned the old piano, and the pianist slept. " * (1 + place * 7))
    assert word_index.words_in_all(store) == sum(word_index.words_beginning(store, [""]).values()) > 0


def test_counting_changes_nothing_in_the_file(store, write):
    write(FIRST, "snow")
    before = store.rows("SELECT name FROM sqlite_master ORDER BY name")
    word_index.words_beginning(store, ["sno"])
    assert store.rows("SELECT name FROM sqlite_master ORDER BY name") == before


def test_places_and_names_of_before(store, write):
    place, other = (places.add(store, Place("", name)) for name in ("Riga", "Visby"))
    nights.set_place(store, date(2026, 4, 30), place.id, "said", "2026-04-30T20:00:00Z")
    nights.set_place(store, date(2026, 5, 2), other.id, "said", "2026-05-02T20:00:00Z")
    assert places.known_before(store, [place.id, other.id], FIRST) == {place.id}
    write(date(2026, 4, 3), 'Frau Jürgen said "no".')
    assert _texts(store, "Frau Jürgen") and _texts(store, "frau jurgen")
    assert not _texts(store, "Jürgen Frau")
    assert (word_index.lines_with(store, "frau Jürgen"), word_index.lines_with(store, "Jürgen Frau")) == (1, 0)
    assert not _texts(store, 'a" OR "said')
    assert not _texts(store, "Frau Jürgen", date(2026, 4, 3))


def _texts(store, name, before=FIRST):
    return list(people.texts_naming(store, [name], before))


def test_themes_by_month(store, write):
    early, late = write(date(2026, 4, 3), "bread"), write(date(2026, 5, 3), "bread again")
    loose: Line = write(date(2026, 5, 4), "nothing")
    with store.writing() as connection:
        connection.execute("INSERT INTO theme (number, id, name, begun_at) VALUES (1, 'a', 'bread', ''), (2, 'b', 'gone', '')")
        connection.execute("UPDATE theme SET retired_at = 'x' WHERE number = 2")
        connection.executemany(
            "INSERT INTO theme_line VALUES (?, ?, 0.5)", [(early.id, 1), (late.id, 1), (loose.id, None)]
        )
    assert theme_lines.named_between(store, FIRST, LAST) == ((late.id, 1, "bread", 0.5),)
    assert theme_lines.totals(store) == {1: 2}
    assert theme_lines.known_before(store, [1, 2], FIRST) == {1}
    assert [line.text for line in theme_lines.every_line_of(store, 1)] == ["bread", "bread again"]


def test_lines_of_a_place_and_questions(store, write):
    write(FIRST, "here")
    place = places.add(store, Place("", "Riga"))
    nights.set_place(store, FIRST, place.id, "said", "2026-05-01T20:00:00Z")
    assert [line.text for line in places.lines_of(store, place.id)] == ["here"]
    month_pages.set_question(store, date(2026, 6, 3), "What now?")
    month_pages.set_question(store, date(2026, 5, 3), "")
    assert month_pages.questions(store) == ((date(2026, 6, 1), "What now?"),)
    assert lines.count(store) == 1
