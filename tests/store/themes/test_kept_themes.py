"""Themes as rows: kept all at once, their numbers never given twice."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from keeper.model import Moment
from keeper.store import lines, open_store, resting, search
from keeper.store.themes import decisions as theme_decisions
from keeper.store.themes import found as themes
from keeper.store.themes import keeping as theme_keeping
from keeper.store.themes import lines as theme_lines
from keeper.store.themes.found import Build, KeptTheme, Outcome

AT = datetime(2026, 11, 14, 21, tzinfo=UTC)
BUILD = Build("one", AT, 4, True, 0.9, "decided", "speech", 1)
NIGHTS = [date(2026, 11, day) for day in (1, 2, 3, 4)]


@pytest.fixture
def ids(store):
    """Four lines; their ids, oldest first."""
    for night in NIGHTS:
        lines.keep(store, night, "memory", f"a line of day {night.day}", Moment(AT, 0, ""))
    return [line.id for line in lines.between(store, NIGHTS[0], NIGHTS[-1])]


def theme(number, name="a name", **more):
    return KeptTheme(number, name, more.get("named", False), more.get("pinned", False), 0.5, (("bread", 1.0),))


@pytest.fixture
def outcome(store, ids):
    return Outcome(
        build=BUILD, arrays=b"arrays", themes=[theme(1), theme(2)],
        members=[(ids[0], 1, 0.5), (ids[1], 1, 0.9), (ids[2], 2, 0.7), (ids[3], None, 0.0)],
        base={ids[0]: 1, ids[1]: 1, ids[2]: 2, ids[3]: None}, base_terms={1: ("bread",), 2: ("sea",)},
        read={row[0]: row[1] for row in themes.plain_lines(store)},
    )  # fmt: skip


def test_what_was_kept_is_read_again(store, ids, outcome):
    theme_keeping.keep(store, outcome)
    assert themes.every(store) == (theme(1), theme(2))
    assert themes.one(store, 2) == theme(2) and themes.one(store, 3) is None
    assert themes.build(store) == BUILD and themes.arrays(store) == b"arrays"
    assert themes.base(store) == {1: (tuple(sorted(ids[:2])), ("bread",)), 2: ((ids[2],), ("sea",))}
    assert themes.loose_in_base(store) == (ids[3],)
    assert theme_lines.member_ids(store, 1) == (ids[1], ids[0]) and theme_lines.member_ids(store, None) == (ids[3],)
    assert theme_lines.nights_by_theme(store) == {1: NIGHTS[:2], 2: [NIGHTS[2]], None: [NIGHTS[3]]}
    assert theme_lines.nights_of(store, None) == (NIGHTS[3],)
    assert [found.line.id for found in theme_lines.lines_of(store, 1, 50, 0, False)] == [ids[1], ids[0]]
    assert themes.new_count(store) == 0 and themes.unplaced(store, 9) == []


def test_nothing_is_there_before_the_first_rebuild(store, ids):
    assert themes.build(store) is None and themes.arrays(store) == b""
    assert themes.every(store) == () and themes.next_number(store) == 1
    assert themes.new_count(store) == 4 and len(themes.unplaced(store, 9)) == 4


def test_a_number_is_never_given_twice(store, ids, outcome):
    theme_keeping.keep(store, outcome)
    theme_keeping.keep(store, replace(outcome, themes=[theme(1)], members=[(ids[0], 1, 0.5)], base={}, base_terms={}))
    assert [one.number for one in themes.every(store)] == [1]
    assert themes.next_number(store) == 3
    themes.reserve(store, 3, AT)
    assert themes.next_number(store) == 4 and themes.one(store, 3) is None


def test_a_retired_theme_that_comes_back_is_the_same_row(store, outcome):
    theme_keeping.keep(store, outcome)
    before = store.rows("SELECT id FROM theme WHERE number = 2")
    theme_keeping.keep(store, replace(outcome, themes=[theme(1)], members=[]))
    theme_keeping.keep(store, outcome)
    assert store.rows("SELECT id FROM theme WHERE number = 2 AND retired_at IS NULL") == before


def test_a_base_theme_that_is_not_shown_has_its_row(store, ids, outcome):
    theme_keeping.keep(store, replace(outcome, themes=[theme(1)], members=[(line, 1, 0.5) for line in ids]))
    assert themes.base(store)[2] == ((ids[2],), ("sea",))
    assert themes.next_number(store) == 3


def test_without_a_base_the_one_that_is_there_stays(store, ids, outcome):
    theme_keeping.keep(store, outcome)
    base = themes.base(store)
    theme_keeping.keep(store, replace(outcome, base=None, base_terms={}, members=[(ids[0], 2, 0.5)]))
    assert themes.base(store) == base
    assert theme_lines.member_ids(store, 2) == (ids[0],)


def test_a_line_written_or_reworded_meanwhile_is_left_for_later(store, ids, outcome):
    lines.keep(store, NIGHTS[0], "memory", "quite other words", Moment(AT, 0, ""))
    lines.keep(store, NIGHTS[0], "gratitude", "a new line", Moment(AT, 0, ""))
    lines.keep(store, NIGHTS[1], "memory", "", Moment(AT, 0, ""))
    theme_keeping.keep(store, outcome)
    assert {row[1] for row in themes.unplaced(store, 9)} == {"quite other words", "a new line"}
    assert themes.new_count(store) == 2
    assert theme_lines.member_ids(store, 1) == ()
    assert ids[1] in themes.base(store)[1][0]


def test_a_reworded_line_looks_for_its_theme_again_and_a_typed_again_one_does_not(store, ids, outcome):
    theme_keeping.keep(store, outcome)
    lines.keep(store, NIGHTS[0], "memory", "a line of day 1", Moment(AT, 0, ""))
    assert themes.unplaced(store, 9) == []
    lines.keep(store, NIGHTS[0], "memory", "other words", Moment(AT, 0, ""))
    assert themes.unplaced(store, 9) == [(ids[0], "other words", None)]


def test_a_line_taken_out_and_brought_back_comes_home(store, ids, outcome):
    theme_keeping.keep(store, outcome)
    lines.keep(store, NIGHTS[0], "memory", "", Moment(AT, 0, ""))
    assert theme_lines.member_ids(store, 1) == (ids[1],)
    lines.keep(store, NIGHTS[0], "memory", "a line of day 1", Moment(AT, 0, ""))
    assert themes.unplaced(store, 9) == [(ids[0], "a line of day 1", 1)]


def test_put_passes_over_lines_that_are_gone(store, ids, outcome):
    theme_keeping.keep(store, outcome)
    themes.put(store, [("no such line", 1, 1.0), (ids[3], 2, 1.0)])
    assert theme_lines.member_ids(store, 2) == (ids[3], ids[2]) and theme_lines.member_ids(store, None) == ()


def test_half_an_outcome_is_none(store, folder, outcome):
    theme_keeping.keep(store, outcome)
    broken = replace(outcome, themes=[theme(1, "another name")], members=[(outcome.members[0][0], 77, 0.5)])
    with pytest.raises(Exception, match=r".+"):
        theme_keeping.keep(store, broken)
    with open_store(folder) as again:
        assert themes.every(again) == (theme(1), theme(2))
        assert len(theme_lines.member_ids(again, 1)) == 2


def test_names_and_pins_are_kept(store, outcome):
    theme_keeping.keep(store, outcome)
    themes.call(store, 1, "Bread")
    themes.pin(store, 2, True)
    assert [(t.name, t.named, t.pinned) for t in themes.every(store)] == [("Bread", True, False), ("a name", False, True)]


def test_what_rests_is_not_among_the_central_lines_but_in_the_list(store, ids, outcome):
    theme_keeping.keep(store, outcome)
    assert [line.id for line in theme_lines.central(store, 1, 3)] == [ids[1], ids[0]]
    resting.rest(store, "line", ids[1])
    assert [line.id for line in theme_lines.central(store, 1, 3)] == [ids[0]]
    resting.rest_span(store, NIGHTS[0], NIGHTS[0])
    assert theme_lines.central(store, 1, 3) == ()
    assert [found.line.resting for found in theme_lines.lines_of(store, 1, 50, 0, True)] == [True, False]


def test_find_narrows_by_theme(store, ids, outcome):
    theme_keeping.keep(store, outcome)
    found = search.find(store, search.Sought(typed="line", themes=(1,)))
    assert [one.line.id for one in found] == [ids[1], ids[0]]
    assert search.nights(store, search.Sought(themes=(2,))) == {NIGHTS[2]}


def test_decisions_stand_in_order_until_they_are_undone(store):
    first = theme_decisions.add(store, "move", {"line": "a", "theme": 1}, AT)
    second = theme_decisions.add(store, "pin", {"theme": 1, "lines": ["a"]}, AT)
    assert theme_decisions.standing(store) == (first, second) and theme_decisions.last(store) == second
    theme_decisions.undo(store, second.id, AT)
    assert theme_decisions.standing(store) == (first,)
    third = theme_decisions.add(store, "rename", {"theme": 1, "name": "Łódź"}, AT)
    assert theme_decisions.standing(store) == (first, third)
    assert store.row("SELECT count(*) FROM theme_decision") == (3,)


def test_what_others_write_while_it_is_compared_is_heeded(store, folder, ids, outcome, monkeypatch):
    compare, times = theme_keeping._compare, []

    def compare_and_write(store, outcome):
        version = compare(store, outcome)
        times.append(version)
        with open_store(folder) as other:
            if not store.connection.in_transaction:
                lines.keep(other, NIGHTS[len(times) % 4], "memory", f"reworded {len(times)}", Moment(AT, 0, ""))
        return version

    monkeypatch.setattr(theme_keeping, "_compare", compare_and_write)
    assert theme_keeping.keep(store, outcome)
    assert len(times) == theme_keeping._TRIES + 1
    assert themes.new_count(store) == 4 and len(themes.unplaced(store, 9)) == 4 and themes.build(store) == BUILD


def test_without_agreement_nothing_is_kept(store, ids, outcome):
    assert not theme_keeping.keep(store, outcome, lambda: False)
    assert themes.build(store) is None and len(themes.unplaced(store, 9)) == 4
    assert store.rows("SELECT name FROM sqlite_temp_master") == []
    assert theme_keeping.keep(store, outcome) and themes.new_count(store) == 0


# second themes


def seconds(store):
    return store.rows("SELECT line_id, theme, closeness, offered FROM theme_second ORDER BY line_id")


@pytest.fixture
def twofold(store, ids, outcome):
    """The first line stands in theme 2 besides, and the loose one would come nearest to theme 1."""
    outcome = replace(outcome, seconds=[(ids[0], 2, 0.4, False), (ids[3], 1, 0.0, True)])
    theme_keeping.keep(store, outcome)
    return outcome


def test_second_themes_are_kept_changed_and_let_go(store, ids, twofold):
    assert seconds(store) == twofold.seconds
    theme_keeping.keep(store, replace(twofold, seconds=[(ids[0], 2, 0.6, False), (ids[3], 2, 0.0, True)]))
    assert seconds(store) == [(ids[0], 2, 0.6, 0), (ids[3], 2, 0.0, 1)]
    theme_keeping.keep(store, replace(twofold, seconds=[(ids[1], 2, 0.3, False)]))
    assert seconds(store) == [(ids[1], 2, 0.3, 0)]


def test_a_second_theme_goes_with_its_line_and_when_its_first_changes(store, ids, twofold):
    themes.put(store, [(ids[3], 2, 1.0)])
    assert [row[0] for row in seconds(store)] == [ids[0]]
    lines.keep(store, NIGHTS[0], "memory", "other words", Moment(AT, 0, ""))
    assert seconds(store) == []
    theme_keeping.keep(store, replace(twofold, read={row[0]: row[1] for row in themes.plain_lines(store)}))
    lines.keep(store, NIGHTS[0], "memory", "", Moment(AT, 0, ""))
    assert [row[0] for row in seconds(store)] == [ids[3]]
    with store.writing() as connection:
        connection.execute("UPDATE theme_line SET theme = 1 WHERE line_id = ?", (ids[3],))
    assert seconds(store) == []


def test_find_by_theme_finds_what_stands_in_it_second_but_not_what_is_only_near(store, ids, twofold):
    assert {one.line.id for one in search.find(store, search.Sought(themes=(2,)))} == {ids[0], ids[2]}
    assert {one.line.id for one in search.find(store, search.Sought(themes=(1,)))} == {ids[0], ids[1]}
    assert search.nights(store, search.Sought(themes=(2,))) == {NIGHTS[0], NIGHTS[2]}
    assert theme_lines.beside(store, 2, (ids[0], ids[2])) == {ids[0]: (1, "a name")}
    assert theme_lines.beside(store, None, ids) == {ids[3]: (1, "a name")}
