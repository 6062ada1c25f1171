"""Lines that are near to what was typed, and near to another line."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.actions import finding, writing
from keeper.actions.finding import Sought, marked_words
from keeper.errors import Stopped, UnknownThing
from keeper.store import lines, resting, word_index

LINES = (
    (date(2021, 6, 3), "memory", "The ferry to R\u00f8nne was late, and somebody sang on the quay."),
    (date(2022, 2, 9), "memory", "A landlady who bakes rye bread at five in the morning."),
    (date(2022, 2, 10), "gratitude", "Der Hafenmeister stimmte uns fr\u00f6hlich."),
    (date(2022, 7, 1), "memory", "\u4eca\u65e5\u306f\u6d77\u3067\u6cf3\u3044\u3060\u3002"),
    (date(2023, 5, 5), "memory", "\u0397 \u03b8\u03ac\u03bb\u03b1\u03c3\u03c3\u03b1 \u03ae\u03c4\u03b1\u03bd \u03ae\u03c1\u03b5\u03bc\u03b7."),
    (date(2023, 5, 6), "memory", "\u05d4\u05d9\u05dd \u05d4\u05d9\u05d4 \u05e9\u05e7\u05d8 \u05d4\u05e2\u05e8\u05d1."),
    (date(2023, 5, 7), "memory", "\u6211\u4eca\u5929\u5728\u6e2f\u53e3\u542c\u5230\u4e86\u94a2\u7434\u58f0\u3002"),
    (date(2024, 6, 3), "memory", "Late again: the ferries wait for nobody who sings."),
)


@pytest.fixture
def kept(store, clock):
    """A keeper with a few lines in several languages."""
    for night, kind, text in LINES:
        writing.write_line(store, night, kind, text, clock)
    return store


def near(store, typed: str, **narrowed) -> list[str]:
    """The texts of the nearest lines."""
    return [one.line.text for one in finding.find(store, Sought(typed, best_first=True, **narrowed)) if one.near]


@pytest.mark.parametrize(
    ("typed", "line"),
    [
        ("landladies baking", 1), ("landlday bred", 1), ("somebody quays", 0), ("hafenmeistern", 2), ("frolich stimmen", 2),
        ("\u6d77\u3067\u6cf3\u3050", 3), ("\u03b8\u03b1\u03bb\u03b1\u03c3\u03c3\u03b5\u03c2", 4), ("\u05d9\u05dd \u05e9\u05e7\u05d8", 5),
        ("\u94a2\u7434\u66f2", 6),
    ],
)  # fmt: skip
def test_a_half_remembered_line_is_found(kept, typed, line):
    assert near(kept, typed)[0] == LINES[line][2]


def test_what_has_every_word_comes_first_and_but_once(kept):
    found = finding.find(kept, Sought("late ferr"))
    assert [one.near for one in found[:2]] == [False, False]
    assert len({one.line.id for one in found}) == len(found)
    assert finding.find(kept, Sought("late ferr"), limit=1) == found[:1]
    assert finding.find(kept, Sought("late ferr"), skip=2) == ()


def test_the_words_that_met_are_told_and_can_be_marked(kept):
    (first, *_) = finding.find(kept, Sought("landladies, bred"))
    assert set(first.met) == {"landlady", "bread"}
    text = first.line.text
    assert [text[start:end] for start, end in marked_words(text, first.met)] == ["landlady", "bread"]
    assert marked_words("\u4eca\u65e5\u306f\u6d77\u3067\u6cf3\u3044\u3060", ("\u6d77\u3067",)) == ((3, 5),)
    assert marked_words("bread, breads", ("bread",)) == ((0, 5),)


def test_controls_narrow_the_nearest_too(kept):
    assert near(kept, "ferrys sings", first=date(2024, 1, 1)) == [LINES[7][2]]
    assert LINES[2][2] not in near(kept, "stimmen", kinds=("memory",))


def test_no_page_is_empty_for_a_word_with_any_letter_in_common(kept):
    assert near(kept, "zzzquayzzzy") != []
    assert finding.find(kept, Sought("%&")) == ()


@given(st.text(max_size=30))
def test_whatever_is_typed_no_error_comes(kept, typed):
    found = finding.find(kept, Sought(typed))
    assert sum(not one.near for one in found) == finding.count_found(kept, Sought(typed))


def test_a_line_just_written_or_reworded_is_near_at_once(kept, clock):
    assert near(kept, "zeppelins landed")
    writing.write_line(kept, date(2024, 6, 4), "memory", "A zeppelin over the sound.", clock)
    assert near(kept, "zeppelins landed")[0] == "A zeppelin over the sound."
    writing.write_line(kept, date(2024, 6, 4), "memory", "A submarine over the sound.", clock)
    assert near(kept, "submarnie xx")[0] == "A submarine over the sound."


def test_the_state_of_the_index_is_another_after_each_wording(kept, clock):
    states = []
    for word in ("one", "two", "one"):
        writing.write_line(kept, date(2024, 6, 4), "memory", f"A line with {word}.", clock)
        states.append(word_index.state(kept))
    assert len(set(states)) == 3
    writing.keep_draft(kept, date(2024, 6, 5), "memory", "typed", clock)
    assert word_index.state(kept) == states[-1]


def test_what_rests_is_found_near_and_said_to_rest(kept):
    bread = next(one for one in lines.between(kept, date(2022, 1, 1), date(2022, 12, 31)) if "rye" in one.text)
    resting.rest(kept, "line", bread.id)
    (first, *_) = finding.find(kept, Sought("landladies bred"))
    assert first.line.resting


def test_more_like_a_line_are_those_of_other_years(kept, clock):
    writing.write_line(kept, date(2021, 8, 1), "memory", "The ferry was late, and somebody sang.", clock)
    line = lines.one(kept, date(2021, 6, 3), "memory")
    like = finding.more_like(kept, line.id)
    assert like[0].line.text == LINES[7][2]
    assert set(like[0].met) >= {"ferries"}
    assert all(one.line.night.year != 2021 for one in like)


def test_more_like_brings_up_nothing_that_rests(kept):
    first, last = lines.one(kept, date(2021, 6, 3), "memory"), lines.one(kept, date(2024, 6, 3), "memory")
    resting.rest(kept, "line", last.id)
    assert last.id not in {one.line.id for one in finding.more_like(kept, first.id)}


def test_more_like_a_line_that_is_gone_says_so(kept):
    with pytest.raises(UnknownThing):
        finding.more_like(kept, "nothing")


def test_it_can_be_broken_off(kept):
    with pytest.raises(Stopped):
        finding.nearest_beneath(kept, Sought("landladies bred"), (), stopped=lambda: True)


def test_an_empty_keeper_has_nothing_near(store):
    assert finding.find(store, Sought("ferry quay")) == ()
