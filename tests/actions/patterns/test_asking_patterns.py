"""Asking patterns: what is asked, what is kept, and that only what changed is asked again."""

import json
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made.pattern_keeper import FIRST, NIGHTS, fill

from keeper.actions.history import undoing
from keeper.actions.opening import open_or_begin
from keeper.actions.patterns import asking, shown
from keeper.actions.patterns.columns import candidates
from keeper.errors import Stopped, UnknownThing
from keeper.model import Act, Reading
from keeper.review.patterns.told import LINK, WAVE
from keeper.store import trackers
from keeper.store.patterns import found
from keeper.study.patterns import finding

ACT = Act("Readings", "night")
few = settings(max_examples=4, deadline=None)


@pytest.fixture
def filled(store):
    fill(store)
    return store


def told(given):
    """What is told, without when it was asked."""
    return [(one.kind, one.first, one.second, one.lag, round(one.p, 12), one.contrast) for one in given.told], given.questions


def note(store, name: str, day: int, value: float) -> None:
    trackers.note(store, [Reading(FIRST + timedelta(days=day), name, value)], ACT)


def test_what_is_planted_is_told_and_what_is_not_is_not(filled, clock):
    given = asking.ask(filled, clock)
    (first,) = given.told
    assert (first.kind, first.first, first.second, first.lag) == (LINK, "reading:sleep", "reading:mood", 1)
    assert first.contrast.value < 0 and first.contrast.high < 0 and first.nights == NIGHTS - 1
    assert given.questions == asking.questions(asking.taking_part(filled)) == 4 * 3 * 2 + 6
    assert dict(given.columns) == {f"reading:{name}": NIGHTS for name in ("mood", "sleep", "tea", "ferry")}
    assert asking.last_asking(filled) == given


def test_rhythms_ask_one_question_of_each_column(filled, clock):
    asking.pick(filled, ["reading:tea", "reading:ferry", "weekday", "season"])
    assert asking.questions(asking.taking_part(filled)) == 2 * 2 + 1 + 4
    # Under three years the season is not asked.
    assert asking.ask(filled, clock).questions == 2 * 2 + 1 + 2
    asking.pick(filled, ["reading:tea", "reading:ferry"])
    assert asking.ask(filled, clock).questions == 5


def test_a_week_is_told(filled, clock):
    for day in range(NIGHTS):
        note(filled, "tea", day, 4.0 if (FIRST + timedelta(days=day)).weekday() == 6 else day % 2)
    asking.pick(filled, ["reading:tea", "weekday"])
    (one,) = asking.ask(filled, clock).told
    assert (one.kind, one.first, one.rhythm) == (WAVE, "reading:tea", "weekday")
    assert [group.value == 4.0 for group in one.groups] == [False] * 6 + [True]
    assert sum(group.nights for group in one.groups) == NIGHTS


def test_only_what_changed_is_asked_again_and_the_answer_is_that_of_asking_all(filled, clock, monkeypatch):
    asked = []
    answers = finding.answers

    def heard(columns, marks, lags, only, progress):
        asked.append(set(only))
        return answers(columns, marks, lags, only, progress)

    monkeypatch.setattr(finding, "answers", heard)
    asking.ask(filled, clock)
    asking.ask(filled, clock)
    note(filled, "tea", 20, 9.0)
    after = asking.ask(filled, clock)
    assert asked == [{f"reading:{name}" for name in ("mood", "sleep", "tea", "ferry")}, {"reading:tea"}]
    monkeypatch.setattr(asking, "FORM", 99)
    assert told(asking.ask(filled, clock)) == told(after) and len(asked) == 3


def test_what_takes_part_no_longer_is_let_go_and_what_does_again_is_asked(filled, clock):
    whole = told(asking.ask(filled, clock))
    asking.pick(filled, ["reading:mood", "reading:sleep"])
    assert asking.ask(filled, clock).questions == 5
    assert len(found.answers(filled)) == 5 and len(found.fingerprints(filled)) == 2
    asking.pick(filled, [f"reading:{name}" for name in ("mood", "sleep", "tea", "ferry")])
    assert told(asking.ask(filled, clock)) == whole


def test_nothing_is_done_where_nothing_was_done_since(filled, clock, monkeypatch):
    first = asking.ask(filled, clock)
    monkeypatch.setattr(asking, "apart", None)
    assert asking.ask_apart(filled, clock, lambda *_: None, lambda: False) == first


def test_it_is_asked_in_a_process_of_its_own_with_progress(filled, clock):
    heard = []
    given = asking.ask_apart(filled, clock, lambda share, words: heard.append((share, words)), lambda: False)
    assert told(given) == told(asking.last_asking(filled)) and given.told
    assert heard[0] == (0.0, "reading what was noted") and sorted(heard) == heard and len(heard) > 5


def test_it_can_be_stopped_and_what_was_told_stays(filled, clock):
    before = asking.ask(filled, clock)
    note(filled, "tea", 20, 9.0)
    with pytest.raises(Stopped):
        asking.ask_apart(filled, clock, lambda *_: None, lambda: True)
    assert asking.last_asking(filled) == before


@pytest.mark.parametrize("damaged", ["", "{", "[]", '{"form": 1}', json.dumps({"form": asking.FORM, "asking": {"told": [{}]}})])
def test_what_was_kept_and_cannot_be_read_is_asked_again(filled, clock, damaged):
    whole = told(asking.ask(filled, clock))
    with filled.writing() as connection:
        connection.execute("UPDATE pattern_found_told SET told = ?", (damaged,))
    assert asking.last_asking(filled) is None and not shown.patterns_view(filled).asked
    assert told(asking.ask(filled, clock)) == whole


def test_what_takes_part_is_an_act(filled):
    before = asking.taking_part(filled)
    asking.pick(filled, ["season", "reading:mood"])
    assert [one.key for one in asking.taking_part(filled)] == ["reading:mood", "season"]
    assert undoing.undo(filled).sentence == "Took back: What takes part in patterns."
    assert asking.taking_part(filled) == before
    for keys in ([], ["reading:gone"]):
        with pytest.raises(UnknownThing):
            asking.pick(filled, keys)


def test_too_little_is_not_asked_and_said(store, clock):
    fill(store, nights=30)
    given = asking.ask(store, clock)
    assert (given.questions, given.told) == (0, ())
    assert shown.patterns_view(store).standing.startswith("There are not enough nights yet")


def test_a_keeper_without_readings(store, clock):
    assert asking.ask(store, clock).questions == 0 and shown.patterns_view(store).taking == ()


@pytest.fixture(scope="module")
def usual(tmp_path_factory):
    """What is told of the keeper as it is made."""
    return told(_asked(tmp_path_factory.mktemp("usual"), lambda store: fill(store, nights=150)))


def _asked(folder, make):
    from keeper.clock import Clock

    with open_or_begin(folder / "keeper") as store:
        make(store)
        return asking.ask(store, Clock())


@given(st.integers(-9000, 9000))
@few
def test_shifting_all_dates_changes_nothing(tmp_path_factory, usual, days):
    moved = _asked(tmp_path_factory.mktemp("moved"), lambda store: fill(store, FIRST + timedelta(days=days), 150))
    assert told(moved) == usual


@given(st.lists(st.integers(1, 400), min_size=1, max_size=3))
@few
def test_empty_nights_around_change_nothing(tmp_path_factory, usual, days):
    def make(store):
        fill(store, nights=150)
        with store.writing(ACT) as connection:
            for day in days:
                for night in (FIRST - timedelta(days=day), FIRST + timedelta(days=149 + day)):
                    connection.execute("INSERT INTO night (date, begun_at) VALUES (?, '') ON CONFLICT DO NOTHING", (night.isoformat(),))

    assert told(_asked(tmp_path_factory.mktemp("empty"), make)) == usual


def test_names_and_order_change_nothing(tmp_path, usual):
    def make(store):
        fill(store, nights=150, order=-1)
        for one in trackers.every(store):
            trackers.change(store, type(one)(**{**one.__dict__, "name": f"{one.name}, otherwise"}), ACT)

    found_so = _asked(tmp_path, make)
    assert told(found_so) == usual and next(key for key, _ in found_so.columns) == "reading:ferry"
    assert date.fromisoformat(found_so.first) == FIRST


def test_the_candidates_come_in_the_order_of_the_readings(filled):
    assert [one.name for one in candidates(filled)][:4] == ["mood", "sleep", "tea", "ferry"]
