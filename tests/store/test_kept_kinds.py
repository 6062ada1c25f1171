"""Kinds of lines in the file: sixty-four numbers a night, spans and searches with all of them, and damage."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.actions.opening import open_or_begin
from keeper.errors import UnknownThing
from keeper.model import LineKind, Moment
from keeper.store import Store, kinds, lines, search, year_pages
from keeper.store.search import Sought

FIRST = date(2026, 2, 26)
NIGHTS = [FIRST + timedelta(days=day) for day in range(6)]
THEN = Moment(datetime(2026, 11, 14, 20, tzinfo=UTC), 60, "Europe/Riga")
PLACES = st.integers(0, len(NIGHTS) - 1)


@pytest.fixture(scope="module")
def full(tmp_path_factory) -> Store:
    """A keeper with as many kinds as it can ever have, and a line of each on each of six nights."""
    with open_or_begin(tmp_path_factory.mktemp("full") / "keeper") as store, store.writing():
        for number in range(3, 64):
            kinds.add(store, LineKind("", -1, f"Kind {number}"))
        for night in NIGHTS:
            for kind in kinds.every(store):
                lines.keep(store, night, kind.key, f"Harbour {kind.number} of {night.day}", THEN)
    with open_or_begin(store.folder) as store:
        yield store


def told(found) -> list[tuple[date, str]]:
    return [(line.night, line.text) for line in found]


@given(PLACES, PLACES)
def test_a_span_has_all_lines_of_its_nights_and_no_other(full, one, other):
    first, last = NIGHTS[min(one, other)], NIGHTS[max(one, other)]
    wanted = [(night, f"Harbour {number} of {night.day}") for night in NIGHTS if first <= night <= last for number in range(64)]
    assert told(lines.between(full, first, last)) == told(year_pages.lines_between(full, first, last)) == wanted
    assert lines.any_between(full, first, last) and not lines.any_between(full, last + timedelta(days=9), date.max)
    found = search.find(full, Sought("harbour", first=first, last=last), limit=1000)
    assert [(one.line.night, one.line.text) for one in found] == wanted[::-1]
    assert search.count(full, Sought("harbour", first=first, last=last)) == len(wanted)


@given(st.integers(0, 63), st.sampled_from(["", "harbour"]))
def test_a_search_for_a_kind_finds_its_lines_alone(full, number, typed):
    key = next(kind.key for kind in kinds.every(full) if kind.number == number)
    found = search.find(full, Sought(typed, kinds=(key,)), limit=1000)
    assert told(one.line for one in found) == [(night, f"Harbour {number} of {night.day}") for night in NIGHTS[::-1]]
    assert {one.line.kind_title for one in found} == {kinds.name(full, key) or one.line.kind_title for one in found}


@given(st.permutations(range(64)))
def test_lines_of_a_night_stand_in_the_order_of_the_kinds(full, order):
    key_of = {kind.number: kind.key for kind in kinds.every(full)}
    kinds.order(full, [key_of[number] for number in order])
    assert [kind.number for kind in kinds.every(full)] == list(order)
    shown = lines.between(full, NIGHTS[0], NIGHTS[-1])
    assert [line.text for line in shown] == [f"Harbour {number} of {night.day}" for night in NIGHTS for number in order]
    kinds.order(full, [key_of[number] for number in range(64)])


def test_there_is_no_sixty_fifth_and_the_sentence_says_what_can_be_done(full):
    with pytest.raises(UnknownThing, match=r"64 kinds of line.*taken up again"):
        kinds.add(full, LineKind("", -1, "One more"))
    assert len(kinds.every(full)) == 64


def test_a_damaged_kind_is_told_of_and_its_lines_are_shown(store):
    dream = kinds.add(store, LineKind("", -1, "A dream"))
    lines.keep(store, FIRST, dream.key, "Of ferries.", THEN)
    with store.writing() as connection:
        connection.execute("UPDATE kind SET began = 'once upon a time' WHERE key = ?", (dream.key,))
    found = kinds.every(store)
    assert [kind.key for kind in found] == ["gratitude", "memory", "reflection", dream.key]
    assert lines.one(store, FIRST, dream.key).text == "Of ferries."
    assert "once upon a time" in store.damage[0]


def test_a_kind_keeps_all_that_is_said_of_it(store):
    wanted = LineKind("", -1, "A dream", "What did you dream?", 0, False, FIRST, NIGHTS[-1])
    kept = kinds.add(store, wanted)
    assert kinds.every(store)[-1] == kept
    assert (kept.name, kept.prompt, kept.in_themes, kept.began, kept.ended) == ("A dream", "What did you dream?", False, FIRST, NIGHTS[-1])
    kinds.change(store, LineKind("memory", 1, "Seen", "What did you see?", 9, True, None, FIRST))
    memory = kinds.every(store)[1]
    assert (memory.name, memory.position, memory.ended, memory.number) == ("Seen", 1, FIRST, 1)
