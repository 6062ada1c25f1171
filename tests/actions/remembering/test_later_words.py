"""Later words: kept beside an old line, never in it."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from keeper.actions import people, writing
from keeper.actions.awake import awake
from keeper.actions.finding import everywhere
from keeper.actions.history import lately, undoing
from keeper.actions.readings import changing, noting
from keeper.actions.remembering import later
from keeper.errors import UnknownThing, UnreadableReading, UnreadableText
from keeper.store import lines
from keeper.store.rows import second_wordings

THEN = date(2023, 11, 14)
TONIGHT = date(2026, 11, 14)


@pytest.fixture
def line(store, clock):
    return writing.write_line(store, THEN, "memory", "The piano in Turku had lost its voice.", clock)


def words_under(store, line):
    return [(one.said_on, one.text) for one in lines.by_id(store, line.id).later]


def test_a_later_word_stands_beside_the_line_and_leaves_it_as_it_was(store, clock, line):
    later.write(store, line.id, TONIGHT, " It has it again. ", clock)
    now = lines.by_id(store, line.id)
    assert (now.text, now.written) == (line.text, line.written)
    assert words_under(store, line) == [(TONIGHT, "It has it again.")]
    assert store.row("SELECT count(*) FROM wording") == (0,)


def test_what_is_written_on_one_night_is_one_word_and_each_later_night_has_its_own(store, clock, line):
    later.write(store, line.id, date(2025, 11, 14), "I was wrong about it.", clock)
    later.write(store, line.id, TONIGHT, "It has", clock)
    later.write(store, line.id, TONIGHT, "It has it again.", clock)
    later.write(store, line.id, date(2024, 2, 29), "Sold, I hear.", clock)
    assert words_under(store, line) == [
        (date(2024, 2, 29), "Sold, I hear."), (date(2025, 11, 14), "I was wrong about it."), (TONIGHT, "It has it again."),
    ]  # fmt: skip
    shown = later.under(store, line.id, TONIGHT)
    assert ([one.text for one in shown.before], shown.text) == (["Sold, I hear.", "I was wrong about it."], "It has it again.")
    later.write(store, line.id, TONIGHT, "", clock)
    assert len(words_under(store, line)) == 2 and later.under(store, line.id, TONIGHT).text == ""


def test_it_is_an_act_that_is_undone_and_done_again(store, clock, line):
    later.write(store, line.id, TONIGHT, "It has it again.", clock)
    assert lately.latest(store)[0].act.told == "A later word under the memory for the night of 14 November 2023"
    undoing.undo(store)
    assert words_under(store, line) == []
    undoing.redo(store)
    assert words_under(store, line) == [(TONIGHT, "It has it again.")]


def test_a_line_taken_out_takes_them_along_and_brings_them_back(store, clock, line):
    later.write(store, line.id, TONIGHT, "It has it again.", clock)
    writing.write_line(store, THEN, "memory", "", clock)
    assert everywhere.everywhere(store, "again", TONIGHT) == ((), 0)
    undoing.undo(store)
    assert words_under(store, line) == [(TONIGHT, "It has it again.")]


def test_they_rest_with_their_line_and_a_line_rests_with_whom_they_name(store, clock, line):
    later.write(store, line.id, TONIGHT, "Aino has it now.", clock)
    assert awake(store).line(lines.by_id(store, line.id))
    person = people.add(store, "Aino")
    people.rest(store, person.id)
    assert not awake(store).line(lines.by_id(store, line.id))


def test_find_tells_of_them_with_the_night_they_stand_under(store, clock, line):
    later.write(store, line.id, TONIGHT, "It has it again.", clock)
    (found,), more = everywhere.everywhere(store, "again", TONIGHT)
    assert (found.what, found.text, found.page, found.night, more) == (
        "Later word, Tuesday 14 November 2023", "It has it again.", "night", THEN, 0,
    )  # fmt: skip


def test_how_the_mood_of_that_night_looks_today_is_kept_beside_it(store, clock, line):
    mood = changing.begin(store, changing.offered(THEN)[0])
    noting.note(store, THEN, mood.id, "3", clock)
    assert later.under(store, line.id, TONIGHT).was.value == 3.0
    later.look_anew(store, line.id, TONIGHT, "6", clock)
    (word,) = lines.by_id(store, line.id).later
    assert (word.text, word.of, word.was, word.looks) == ("", "mood", 3.0, 6.0)
    assert noting.noted(store, THEN, mood.id).value == 3.0
    later.write(store, line.id, TONIGHT, "It was not so bad.", clock)
    later.write(store, line.id, TONIGHT, "", clock)
    assert later.under(store, line.id, TONIGHT).looks == 6.0
    with pytest.raises(UnreadableReading, match="goes from 0 to 10"):
        later.look_anew(store, line.id, TONIGHT, "11", clock)
    later.look_anew(store, line.id, TONIGHT, "", clock)
    assert lines.by_id(store, line.id).later == ()


def test_what_cannot_be_kept_is_refused_in_a_sentence(store, clock, line):
    with pytest.raises(UnreadableText, match="on a night after the line\u2019s own, 14 November 2023"):
        later.write(store, line.id, THEN, "The same night.", clock)
    with pytest.raises(UnreadableText, match="characters long"):
        later.write(store, line.id, TONIGHT, "a" * 20_001, clock)
    with pytest.raises(UnknownThing, match="no longer in the keeper"):
        later.write(store, "gone", TONIGHT, "Lost.", clock)
    with pytest.raises(UnknownThing, match="No scale was noted on that night"):
        later.look_anew(store, line.id, TONIGHT, "6", clock)
    assert words_under(store, line) == [] and later.under(store, line.id, THEN + timedelta(1)).tracker is None


def test_what_was_said_on_another_evening_is_changed_and_what_it_said_before_is_kept_for_ever(store, clock, line):
    said_on = date(2024, 11, 14)
    later.write(store, line.id, said_on, "Sold,", replace(clock, at=clock.at - timedelta(731)))
    later.write(store, line.id, said_on, "Sold, I hear.", replace(clock, at=clock.at - timedelta(731)))
    assert later.under(store, line.id, said_on).earlier == ()
    for text in ("Not sold", "Not sold after all."):
        later.write(store, line.id, said_on, text, clock)
    shown = later.under(store, line.id, said_on)
    assert (shown.text, [one.text for one in shown.earlier]) == ("Not sold after all.", ["Sold, I hear."])
    assert words_under(store, line) == [(said_on, "Not sold after all.")] and later.under(store, line.id, TONIGHT).earlier == ()
    # What came of another keeper is told elsewhere.
    assert second_wordings.every(store) == ()
    undoing.undo(store)
    undoing.undo(store)
    assert (words_under(store, line), later.under(store, line.id, said_on).earlier) == ([(said_on, "Sold, I hear.")], ())


def test_one_that_is_removed_on_another_evening_is_kept_as_it_was_worded(store, clock, line):
    said_on = date(2024, 11, 14)
    later.write(store, line.id, said_on, "Sold, I hear.", replace(clock, at=clock.at - timedelta(731)))
    later.write(store, line.id, said_on, "", clock)
    (before,) = later.under(store, line.id, said_on).earlier
    assert (words_under(store, line), before.text, before.replaced_at) == ([], "Sold, I hear.", clock.moment().utc)
    later.write(store, line.id, said_on, before.text, clock)
    assert words_under(store, line) == [(said_on, "Sold, I hear.")]
