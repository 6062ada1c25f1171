"""Closer looks at what was noted: what can be asked, and what is told."""

import pytest
from noted.courses_noted import FIRST, begin, dip_after, night, note

from keeper.actions import writing
from keeper.actions.courses import asked
from keeper.actions.courses.after import PhaseAsked, after_mark
from keeper.actions.courses.around import around_mark
from keeper.actions.courses.changes import changes_of
from keeper.errors import Stopped, UnknownThing, UnreadableReading


def test_marks_and_readings_are_offered_apart(store):
    dip_after(store)
    there = asked.what_can_be_asked(store)
    assert [one.name for one in there.marks_noted] == ["ferry"] and [one.name for one in there.readings] == ["mood"]
    assert asked.named(there.marks, "FER").key == "reading:ferry"
    with pytest.raises(UnknownThing, match="ferry"):
        asked.named(there.marks, "train")


def test_the_dip_on_the_night_after_is_told_with_its_nights(store):
    told = around_mark(store, *dip_after(store), 3)
    assert told.sentences[0].startswith("On the night after (10 nights with “ferry”), mood was 2.9 on average")
    assert "around other nights of the same seasons it is between" in told.sentences[0]
    assert told.sentences[-1] == "Chance alone takes one of the 7 nights as far in 0.1 % of draws."
    assert [row[0] for row in told.figures.rows][3:5] == ["the night itself", "the night after"]
    assert around_mark(store, "reading:ferry", "reading:mood", 3) == told


def test_too_few_nights_are_said_to_be_too_few(store):
    mark, reading = dip_after(store, nights=40)
    told = around_mark(store, mark, reading, 3)
    assert told.found is None and told.figures.rows == ()
    assert told.sentences == (
        "Nothing can be said yet: it takes 5 nights with “ferry”, each more than 3 nights after the one before. So far there are 2.",
    )  # fmt: skip
    note(store, "ferry", [1.0] * 8, first=20)
    assert around_mark(store, mark, reading, 3).sentences[0].endswith("So far there are 9, and 2 of them so far apart.")
    begin(store, "train", "mark")
    none = around_mark(store, "reading:train", reading, 3)
    assert none.sentences == ("Nothing can be said yet: there is no night with “train”.",)


@pytest.mark.parametrize("span", [0, 61])
def test_a_span_that_cannot_be_is_refused(store, span):
    with pytest.raises(UnreadableReading, match="1 to 60 nights"):
        around_mark(store, *dip_after(store), span)


def test_it_can_be_broken_off(store):
    def stop(share):
        raise Stopped

    with pytest.raises(Stopped):
        around_mark(store, *dip_after(store), 3, stop)


def test_an_empty_mark_of_a_night_that_was_kept_is_a_no(store, clock):
    begin(store, "ferry", "mark")
    begin(store, "train", "mark")
    note(store, "ferry", [1.0])
    note(store, "train", [1.0], first=3)
    for number in range(4):
        writing.write_line(store, night(number), "memory", "A line.", clock)
    its = asked.nights_of(store, asked.known(store, "reading:ferry", "reading:train"))
    assert its.first == FIRST
    assert its.values["reading:ferry"][:4] == (1, 0, 0, 0) and its.values["reading:train"][:4] == (0, 0, 0, 1)


def test_how_often_a_mark_comes_after_another(store):
    begin(store, "ferry", "mark")
    begin(store, "ache", "mark")
    note(store, "ferry", [float(number % 10 == 0) for number in range(100)])
    note(store, "ache", [float(number % 10 == 1 and number != 11) for number in range(100)])
    told = after_mark(store, "reading:ferry", "reading:ache", 1)
    assert told.sentences[0] == (
        "On the night after one with “ferry”, “ache” came on 9 of 10 occasions (90 %); otherwise on 0 of 40 occasions (0 %)."
    )
    assert told.sentences[1].startswith("That is at least ") and told.sentences[2].endswith("in less than 0.1 % of cases.")
    assert told.figures.rows[0] == ("after one with “ferry”", "9", "1", "10", "90 %")


def test_only_the_nights_of_a_phase_take_part(store):
    for name, yes in (("begun", 0), ("ferry", 5), ("ache", 6)):
        begin(store, name, "mark")
        note(store, name, [float(number % 20 == yes) for number in range(200)])
    within = after_mark(store, "reading:ferry", "reading:ache", 1, PhaseAsked("reading:begun", 1, 9))
    assert within.sentences[0].startswith("On the night after one with “ferry”, in nights 1 to 9 after one with “begun”, “ache” came on 10 of 10")
    without = after_mark(store, "reading:ferry", "reading:ache", 1, PhaseAsked("reading:begun", 10, 15))
    assert without.found is None and without.sentences[0].endswith("there are 0 and 0.")
    itself = after_mark(store, "reading:ferry", "reading:ache", 1, PhaseAsked("reading:ferry", 1, 9))
    assert "is night 0 of the phase" in itself.sentences[0]
    with pytest.raises(UnreadableReading, match="from one night to a later one"):
        after_mark(store, "reading:ferry", "reading:ache", 1, PhaseAsked("reading:begun", 9, 1))
    with pytest.raises(UnreadableReading, match="1 to 30 nights"):
        after_mark(store, "reading:ferry", "reading:ache", 31)


def test_a_shift_of_level_is_told_with_its_date_and_the_month_with_the_usual(store):
    reading = begin(store, "mood", body=True)
    note(store, "mood", [7 + number % 2 - 3 * (number >= 120) for number in range(240)])
    told = changes_of(store, reading)
    assert told.sentences[0] == "Over 240 nights the level of mood shifted once: around 1 May 2026 from 7.5 to 4.5."
    assert told.sentences[1] == (
        "August 2026 is below the usual: the middle of mood is 4.5; of the 7 other months half lie between 4.8 and 7.5, and 1 lies lower."
    )
    assert [row[:3] for row in told.figures.rows] == [("1 Jan 2026", "30 Apr 2026", "7.5"), ("1 May 2026", "28 Aug 2026", "4.5")]


def test_no_shift_and_too_little_are_said_calmly(store):
    reading = begin(store, "mood")
    assert changes_of(store, reading).sentences == ("Nothing can be said yet: it takes 60 nights with mood, and there are 0.",)
    note(store, "mood", [5 + number % 2 for number in range(90)])
    told = changes_of(store, reading).sentences
    assert told[0] == "Over 90 nights no shift in the level of mood stands out from chance."
    assert told[1] == "How a month of mood stands to the usual can be said from 6 other months on, each with 10 nights; there are 2."


def test_the_levels_are_the_same_in_a_process_of_their_own_and_can_be_stopped(store):
    reading = begin(store, "mood")
    note(store, "mood", [7 + number % 2 - 3 * (number >= 120) for number in range(240)])
    heard = []
    assert changes_of(store, reading, lambda share, words: heard.append(words), lambda: False) == changes_of(store, reading)
    assert heard
    with pytest.raises(Stopped):
        changes_of(store, reading, lambda *_: None, lambda: True)
