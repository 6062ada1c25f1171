"""Writing lines, drafts, places and questions, as window and command line do."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from soundness import emptied, whole

from keeper.actions import reading, writing
from keeper.clock import StoppedClock
from keeper.errors import AlreadyKept, UnknownThing, UnreadableText
from keeper.store import lines

NIGHT = date(2026, 11, 14)
TEXTS = st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=80)
ANY = st.text(st.characters(exclude_categories=[]), max_size=80)


def texts(store, kind: str = "memory") -> list[str]:
    """Present and earlier texts of the night's line, newest first."""
    line = reading.one_night(store, NIGHT).line(kind)
    return ([line.text] if line else []) + [w.text for w in reading.wordings(store, NIGHT, kind)]


@given(TEXTS)
def test_a_line_is_kept_as_given_but_for_the_blanks_round_it(store, clock, text):
    line = writing.write_line(store, NIGHT, "memory", text, clock)
    assert (line.text if line else "") == text.strip()
    assert lines.one(store, NIGHT, "memory") == line


@given(ANY)
def test_any_text_is_kept_or_told_of_and_then_nothing_changes(store, clock, text):
    before = texts(store)
    try:
        line = writing.write_line(store, NIGHT, "memory", text, clock)
    except UnreadableText as error:
        assert str(error).endswith(".")
        assert texts(store) == before
    else:
        assert (line.text if line else "") == text.strip()


def test_a_line_knows_when_and_where_it_was_written(store, clock):
    written = writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock).written
    assert written.utc.isoformat() == "2026-11-14T20:30:00+00:00"
    assert (written.offset_minutes, written.zone) == (120, "Europe/Riga")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("x" * 100_000, "This is 100,000 characters long; a line holds 20,000."),
        ("ab\x07c", "Character 3 cannot be kept as text (code  0007). Remove it, or type it again."),
        ("a\x00", "Character 2 cannot be kept as text (code  0000). Remove it, or type it again."),
        ("\x7f", "Character 1 cannot be kept as text (code  007F). Remove it, or type it again."),
        ("a\x9b31m", "Character 2 cannot be kept as text (code  009B). Remove it, or type it again."),
        ("ab\ud83cc", "Character 3 cannot be kept as text (code  D83C). Remove it, or type it again."),
    ],
    ids=["long", "bell", "nul", "delete", "terminal code", "half a character"],
)
def test_what_cannot_be_kept_is_told_of_and_the_line_stays(store, clock, text, told):
    writing.write_line(store, NIGHT, "memory", "Kept before.", clock)
    writing.keep_draft(store, NIGHT, "memory", text, clock)
    with pytest.raises(UnreadableText) as caught:
        writing.write_line(store, NIGHT, "memory", text, clock)
    assert str(caught.value) == told
    assert texts(store) == ["Kept before."]
    assert len(lines.drafts(store, NIGHT)) == 1


def test_a_draft_of_any_length_is_kept_whole(store, clock):
    text = "much to say \u00e6 " * 10_000
    writing.keep_draft(store, NIGHT, "memory", text, clock)
    (draft,) = reading.night_page(store, NIGHT, NIGHT).drafts
    assert draft.text == text


@given(ANY)
def test_a_draft_of_anything_is_kept_and_can_become_a_line(store, clock, text):
    writing.keep_draft(store, NIGHT, "memory", text, clock)
    (draft,) = lines.drafts(store, NIGHT)
    line = writing.write_line(store, NIGHT, "memory", draft.text, clock)
    assert (line.text if line else "") == draft.text.strip()
    writing.drop_draft(store, NIGHT, "memory")


@given(TEXTS)
def test_words_that_can_be_read_stay_as_they_are(text):
    plain = text.replace("\u2028", "\n").replace("\u2029", "\n")
    assert writing.readable(text) == plain


def test_halves_that_fit_are_joined_and_controls_left_out():
    assert writing.readable("\ud83c\udfb9 a\r\nb\rc\x07d\te") == "\U0001f3b9 a\nb\ncd\te"
    assert writing.readable("a\ud83cb") == "a\ufffdb"


@given(st.lists(TEXTS.map(str.strip), min_size=1, max_size=8), st.data())
def test_any_earlier_wording_can_be_brought_back_and_none_is_lost(store, clock, given_texts, data):
    emptied(store)
    for text in given_texts:
        writing.write_line(store, NIGHT, "memory", text, clock)
    before = texts(store)
    earlier = reading.wordings(store, NIGHT, "memory")
    if earlier:
        chosen = data.draw(st.sampled_from(earlier))
        assert writing.write_line(store, NIGHT, "memory", chosen.text, clock).text == chosen.text
    assert set(before) <= set(texts(store))
    assert {text for text in given_texts if text} <= set(texts(store))


def test_an_empty_line_takes_it_out_and_it_can_be_brought_back(store, clock):
    writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    assert writing.write_line(store, NIGHT, "memory", "  \n", clock) is None
    (earlier,) = reading.wordings(store, NIGHT, "memory")
    assert writing.write_line(store, NIGHT, "memory", earlier.text, clock).text == "The kettle sang."


def test_a_line_carries_the_place_on_and_an_emptied_one_does_not(store, clock):
    riga = writing.set_place(store, NIGHT - timedelta(days=2), "Riga", clock)
    writing.write_line(store, NIGHT - timedelta(days=1), "memory", " ", clock)
    writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    assert reading.one_night(store, NIGHT - timedelta(days=1)).place is None
    assert (reading.one_night(store, NIGHT).place, reading.one_night(store, NIGHT).place_source) == (riga, "carried")


def test_a_new_place_comes_by_name_and_a_known_one_is_the_same(store, clock):
    first = writing.set_place(store, NIGHT, "  L\u00fcbeck   Hbf ", clock)
    assert first.name == "L\u00fcbeck Hbf"
    assert writing.set_place(store, NIGHT - timedelta(days=1), "lubeck hbf", clock) == first
    assert writing.set_place(store, NIGHT, " ", clock) is None
    assert reading.known_places(store) == (first,)
    with pytest.raises(UnreadableText):
        writing.set_place(store, NIGHT, "Ri\x07ga", clock)


def test_a_question_is_asked_all_month_and_taken_back(store, clock):
    writing.ask_question(store, NIGHT, "  What was\n new? ")
    assert reading.month_question(store, date(2026, 11, 1)) == "What was new?"
    assert reading.night_page(store, date(2026, 11, 30), NIGHT).question == "What was new?"
    assert reading.month_question(store, date(2026, 12, 1)) == ""
    writing.ask_question(store, NIGHT, "")
    assert reading.month_question(store, NIGHT) == ""


def test_resting_and_waking(store, clock):
    line = writing.write_line(store, NIGHT, "memory", "Not again.", clock)
    writing.rest_line(store, line.id)
    assert reading.one_night(store, NIGHT).line("memory").resting
    writing.wake_line(store, line.id)
    assert not reading.one_night(store, NIGHT).line("memory").resting
    with pytest.raises(UnknownThing):
        writing.rest_line(store, "nonesuch")


def test_writing_once_refuses_unless_told_what_becomes_of_the_line(store, clock):
    assert writing.write_once(store, NIGHT, "memory", "One.", clock).text == "One."
    assert writing.write_once(store, NIGHT, "memory", " One. ", clock).text == "One."
    with pytest.raises(AlreadyKept, match="One"):
        writing.write_once(store, NIGHT, "memory", "Two.", clock)
    assert writing.write_once(store, NIGHT, "memory", "Two.", clock, "add").text == "One. Two."
    assert writing.write_once(store, NIGHT, "memory", "Three.", clock, "replace").text == "Three."
    assert texts(store) == ["Three.", "One. Two.", "One."]


@given(st.sampled_from(["", "add", "replace"]), TEXTS, TEXTS.filter(str.strip), TEXTS.filter(str.strip))
def test_writing_once_never_loses_what_was_there_or_waited(store, clock, how, line, draft, text):
    emptied(store)
    writing.write_line(store, NIGHT, "memory", line, clock)
    writing.keep_draft(store, NIGHT, "memory", draft, clock)
    (waiting,) = lines.drafts(store, NIGHT)
    try:
        writing.write_once(store, NIGHT, "memory", text, clock, how)
    except AlreadyKept:
        assert lines.drafts(store, NIGHT) == (waiting,)
        kept = texts(store)
    else:
        assert text.strip() in texts(store)[0]
        kept = texts(store)
        assert waiting.text.strip() in kept or waiting.text.strip() in kept[0]
    assert line.strip() in ["", *kept]


def test_writing_once_keeps_nothing_of_what_is_no_text(store, clock):
    writing.keep_draft(store, NIGHT, "memory", "On its w", clock)
    with pytest.raises(UnreadableText):
        writing.write_once(store, NIGHT, "memory", "a\x00", clock, "replace")
    with pytest.raises(UnreadableText):
        writing.write_once(store, NIGHT, "memory", "x" * (writing.LONGEST - 3), clock, "add")
    assert texts(store) == []
    assert len(lines.drafts(store, NIGHT)) == 1
    assert whole(store)


def test_flying_over_the_date_line_neither_loses_nor_doubles_a_night(store):
    # Kiritimati is a whole day ahead of Honolulu, at nearly the same hour.
    for zone, at, night in (
        ("Pacific/Honolulu", datetime(2026, 3, 1, 22), date(2026, 3, 1)),
        ("Pacific/Kiritimati", datetime(2026, 3, 3, 22), date(2026, 3, 3)),
        ("Pacific/Honolulu", datetime(2026, 3, 3, 22), date(2026, 3, 3)),
    ):
        clock = StoppedClock(at.replace(tzinfo=ZoneInfo(zone)), zone)
        assert clock.tonight(4) == night
        writing.write_line(store, clock.tonight(4), "memory", f"From {zone}.", clock)
    assert texts_of(store, date(2026, 3, 3)) == ["From Pacific/Honolulu.", "From Pacific/Kiritimati."]
    assert texts_of(store, date(2026, 3, 1)) == ["From Pacific/Honolulu."]


def texts_of(store, night: date) -> list[str]:
    """Present and earlier texts of a night's memory."""
    return [lines.one(store, night, "memory").text, *(w.text for w in reading.wordings(store, night, "memory"))]
