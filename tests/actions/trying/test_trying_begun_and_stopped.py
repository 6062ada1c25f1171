"""A trying drawn, kept to, stopped, and told at its end, on a real file."""

import sqlite3
from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from sqlite_utils import Database

from keeper.actions.history import undoing
from keeper.actions.trying import beginning, results, sureness, tonight, wording
from keeper.actions.trying.beginning import WantedPlan
from keeper.errors import CannotTry, UnknownThing
from keeper.model import Act, Reading, Tracker
from keeper.store import open_store, trackers
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import FILE, MARK, SCHEMA
from keeper.store.trying import plans as kept
from keeper.study.patterns.trying import draw, outcome

FIRST = date(2026, 6, 3)
NOTED = Act("Readings", night=FIRST)
WANTED = WantedPlan("tea", "mood", FIRST, 8, 3)


def tracker(name: str, form: str = "scale", **other) -> Tracker:
    low, high = (0.0, 10.0) if form == "scale" else (None, None)
    return Tracker(name, name, form, low, high, "", "neither", date(2025, 1, 1), **other)


@pytest.fixture
def known(store):
    for one in (tracker("tea", "mark"), tracker("mood"), tracker("headache", "mark"), tracker("sleep", "hours")):
        trackers.add(store, one)
    return store


def begin(store, wanted: WantedPlan = WANTED, seed: int = 5, on: date = FIRST):
    return beginning.begin(store, wanted, seed, on, agreed=True)


def note(store, tracker_id: str, values, first: date = FIRST) -> None:
    nights = [(first + timedelta(n), value) for n, value in enumerate(values) if value is not None]
    trackers.note(store, [Reading(night, tracker_id, value) for night, value in nights], NOTED)


def test_the_lot_is_drawn_and_kept_with_its_number(known):
    made = begin(known)
    assert made.withs == draw(8, 3, 5).withs and made.seed == 5 and sum(made.withs) == 4
    assert kept.every(known) == (made,) and made.last == FIRST + timedelta(23)


def test_nothing_begins_unless_it_is_confirmed_that_it_is_no_treatment(known):
    with pytest.raises(CannotTry, match="medicine, a treatment or anything that a clinician prescribed"):
        beginning.begin(known, WANTED, 5, FIRST, agreed=False)
    assert not kept.every(known)


@pytest.mark.parametrize(("other", "told"), [
    ({"mark_id": "mood", "reading_id": "sleep"}, "yes or no"), ({"reading_id": "tea"}, "something else"),
    ({"blocks": 1}, "2 to 60 blocks"), ({"length": 15}, "1 to 14 nights"), ({"blocks": 60, "length": 14}, "840 nights"),
    ({"first": FIRST - timedelta(1)}, "tonight or within"), ({"first": FIRST + timedelta(40)}, "tonight or within"),
])  # fmt: skip
def test_what_cannot_be_tried_is_told(known, other, told):
    with pytest.raises(CannotTry, match=told):
        begin(known, replace(WANTED, **other))
    with pytest.raises(UnknownThing):
        begin(known, replace(WANTED, mark_id="gone"))
    assert not kept.every(known)


def test_what_ends_or_begins_on_the_way_cannot_be_tried(known):
    trackers.add(known, tracker("swim", "mark", ended=FIRST + timedelta(23)), Act("Swim"))
    begin(known, replace(WANTED, mark_id="swim"))
    undoing.undo(known)
    with pytest.raises(CannotTry, match="swim is noted until 26 June 2026"):
        begin(known, replace(WANTED, mark_id="swim", later=1))
    trackers.change(known, replace(tracker("swim", "mark"), began=FIRST + timedelta(1)), Act("Swim"))
    with pytest.raises(CannotTry, match="swim is noted from 4 June 2026 on"):
        begin(known, replace(WANTED, mark_id="swim"))


def test_one_thing_at_a_time_until_it_is_over(known):
    one = begin(known)
    with pytest.raises(CannotTry, match="one thing at a time"):
        begin(known, replace(WANTED, mark_id="headache", first=one.last), on=one.last)
    begin(known, replace(WANTED, mark_id="headache", first=one.last + timedelta(1)), on=one.last + timedelta(1))
    assert len(kept.every(known)) == 2


def test_all_of_it_can_be_undone(known):
    begin(known)
    assert undoing.undo(known).sentence == "Took back: A trying of “tea” for mood, 8 blocks of 3 nights."
    assert not kept.every(known)
    undoing.redo(known)
    (one,) = kept.every(known)
    beginning.stop(known, one.id, FIRST + timedelta(4))
    assert kept.every(known)[0].stopped == FIRST + timedelta(4)
    undoing.undo(known)
    assert kept.every(known) == (one,)
    beginning.stop(known, one.id, FIRST)
    assert not kept.every(known)
    undoing.undo(known)
    assert kept.every(known) == (one,)


def line(store, night: date, on: date | None = None) -> str:
    return tonight.told(store, night, on or night).line


def test_tonight_tells_where_in_the_plan_it_is_and_no_more(known):
    assert tonight.told(known, FIRST, FIRST) == tonight.TriedTonight()
    one = begin(known)
    for night in range(24):
        how = "with" if one.withs[night // 3] else "without"
        told = line(known, FIRST + timedelta(night))
        assert told == f"Trying: {how} “tea”, night {night % 3 + 1} of 3 in block {night // 3 + 1} of 8"
    # Of nights to come nothing; of nights before, what was.
    assert line(known, FIRST + timedelta(1), FIRST) == ""
    assert line(known, FIRST, FIRST + timedelta(9)).startswith("Trying: ")


def test_after_its_end_it_is_offered_for_a_while_to_see_what_came_of_it(known):
    one = begin(known)
    after, late = one.last + timedelta(1), one.last + timedelta(15)
    assert tonight.told(known, after, after) == tonight.TriedTonight(at_its_end="What came of trying “tea” can be seen")
    assert tonight.told(known, after, after + timedelta(1)) == tonight.told(known, late, late) == tonight.TriedTonight()


def test_the_night_of_the_last_reading(known):
    one = begin(known, replace(WANTED, later=1))
    assert line(known, one.last + timedelta(1)) == "Trying “tea”: tonight’s reading is its last"


def test_a_stopped_one_is_told_no_more(known):
    one = begin(known)
    beginning.stop(known, one.id, FIRST + timedelta(4))
    assert line(known, FIRST + timedelta(4)) == ""
    assert line(known, FIRST + timedelta(3), FIRST + timedelta(4)) != ""
    with pytest.raises(CannotTry, match="over already"):
        beginning.stop(known, one.id, FIRST + timedelta(5))


def test_the_night_page_asks_one_small_question(known):
    begin(known)
    asked = []
    known.connection.set_trace_callback(asked.append)
    tonight.told(known, FIRST, FIRST)
    known.connection.set_trace_callback(None)
    assert len(asked) == 1
    (plan,) = [row[3] for row in known.rows(f"EXPLAIN QUERY PLAN {asked[0]}") if "SCAN" in row[3]]
    assert plan.startswith("SCAN trying")


def test_no_result_before_the_end(known):
    one = begin(known)
    note(known, "mood", [5.0] * 24)
    with pytest.raises(CannotTry, match="at the end, or when it is stopped"):
        results.came_of(known, one.id, one.last)
    assert results.came_of(known, one.id, one.last + timedelta(1)).tried.difference == 0


def test_the_end_tells_what_the_study_found_and_what_was_kept_to(known):
    one = begin(known)
    withs = [side for side in one.withs for _ in range(3)]
    mood = [(7.0 if side else 4.0) + n % 2 for n, side in enumerate(withs)]
    mood[2] = None
    done = [float(side) for side in withs]
    done[0], done[5] = 1 - done[0], None
    note(known, "mood", mood)
    # The night of which only the mark is unknown would count as no: nothing at all is noted of night 5.
    note(known, "tea", done)
    trackers.take_back(known, "mood", FIRST + timedelta(5), NOTED)
    mood[5] = None
    found = results.came_of(known, one.id, one.last + timedelta(1))
    assert found.tried == outcome(draw(8, 3, 5), mood, 5)
    assert found.keeping == results.KeptTo(22, 1, 1) and sum(found.noted) == 22
    said = " ".join(wording.came_of_it(found))
    assert "higher on" in said and "drawn to be with “tea” than on" in said and "stands out from chance" in said
    assert "What was drawn was kept to on 22 of 24 nights, on 1 it was not, of 1 nothing is noted; all count as drawn." in said


def test_the_lot_that_fell_counts_and_not_what_was_done(known):
    one = begin(known)
    withs = [side for side in one.withs for _ in range(3)]
    note(known, "mood", [7.0 if side else 4.0 for side in withs])
    note(known, "tea", [1.0] * 24)
    before = results.came_of(known, one.id, one.last + timedelta(1))
    note(known, "tea", [0.0] * 24)
    after = results.came_of(known, one.id, one.last + timedelta(1))
    assert before.tried == after.tried and before.keeping.to == after.keeping.to == 12


def test_what_is_read_the_night_after(known):
    one = begin(known, replace(WANTED, later=1))
    withs = [side for side in one.withs for _ in range(3)]
    note(known, "mood", [7.0 if side else 4.0 for side in withs], FIRST + timedelta(1))
    assert not results.every(known, one.last + timedelta(1))[0].over
    found = results.came_of(known, one.id, one.last + timedelta(2))
    assert found.tried.difference == 3.0 and sum(found.noted) == 24
    assert "Mood was on average 3 higher after 12 nights drawn to be with “tea” than after 12 without" in wording.came_of_it(found)[0]


def test_stopped_what_is_there_is_told(known):
    one = begin(known)
    withs = [side for side in one.withs for _ in range(3)]
    note(known, "mood", [7.0 if side else 4.0 for side in withs])
    # The tonight on which it is stopped, and what comes after, is not of it.
    beginning.stop(known, one.id, FIRST + timedelta(13))
    found = results.came_of(known, one.id, FIRST + timedelta(13))
    assert sum(found.noted) == 13 and found.tried.difference == 3.0
    assert wording.came_of_it(found)[-1] == "It was stopped on 16 June 2026, after 13 of 24 nights."


def test_with_nothing_noted_nothing_is_compared(known):
    one = begin(known)
    beginning.stop(known, one.id, FIRST + timedelta(2))
    found = results.came_of(known, one.id, FIRST + timedelta(2))
    assert found.tried is None and wording.headline(found).startswith("Nothing can be compared: mood has to be noted")


def test_a_mark_can_be_what_is_read(known):
    one = begin(known, replace(WANTED, reading_id="headache"))
    withs = [side for side in one.withs for _ in range(3)]
    note(known, "mood", [5.0] * 24)
    note(known, "headache", [1.0 if side and n % 2 else None for n, side in enumerate(withs)])
    found = results.came_of(known, one.id, one.last + timedelta(1))
    # Left empty on a night that was kept it is a no.
    assert found.noted == (12, 12) and found.tried.difference == pytest.approx(0.5)
    assert "Headache came on 50 more of 100 nights on 12 nights drawn to be with “tea” than on 12 without" in wording.headline(found)


def test_how_sure_is_tried_on_the_nights_before(known):
    rng = np.random.default_rng(1)
    past = [None if n % 9 == 0 else float(round(6 + rng.normal() * 1.5)) for n in range(200)]
    note(known, "mood", past, FIRST - timedelta(200))
    heard = []
    found = sureness.how_sure(known, replace(WANTED, length=5), FIRST, lambda share, words: heard.append(share))
    effects, shares = zip(*found.told, strict=True)
    assert len(effects) == 3 and shares[0] < shares[1] < shares[2] and shares[2] > 0.8
    assert found.nights == sum(value is not None for value in past) and heard == sorted(heard) and len(heard) > 100
    assert wording.sure(found)[0].startswith("Were the difference 0.7, ")


def test_how_sure_where_it_cannot_be_told(known):
    assert "was not noted before" in wording.sure(sureness.how_sure(known, WANTED, FIRST))[0]
    note(known, "mood", [5.0, 6.0] * 10, FIRST - timedelta(20))
    assert "takes 24 nights, and mood was noted on 20" in wording.sure(sureness.how_sure(known, WANTED, FIRST))[0]
    few = wording.sure(sureness.how_sure(known, replace(WANTED, blocks=6, length=2), FIRST))
    assert few == ("6 blocks cannot tell anything from chance, however large the difference; from 7 blocks on it can.",)
    note(known, "sleep", [7.0] * 40, FIRST - timedelta(40))
    assert "was the same each night" in wording.sure(sureness.how_sure(known, replace(WANTED, reading_id="sleep"), FIRST))[0]


def test_an_older_keeper_comes_along(folder):
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / FILE, isolation_level=None))
    old.execute("PRAGMA journal_mode = WAL")
    later = sorted(one.name for one in migrations.pending(old) if one.name >= "m013")
    migrations.apply(old, stop_before=later[0])
    for name, form in (("tea", "mark"), ("mood", "scale")):
        old.execute("INSERT INTO tracker (id, name, form, unit, better, began, position) VALUES (?, ?, ?, '', 'neither', '2025-01-01', 0)",
                    (name, name, form))  # fmt: skip
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 12")
    old.conn.close()
    with open_store(folder) as store:
        assert store.row("PRAGMA user_version") == (SCHEMA,) and kept.every(store) == ()
        begin(store)
        undoing.undo(store)
        assert kept.every(store) == ()
