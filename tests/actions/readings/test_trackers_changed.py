"""Trackers begun, changed, ordered and ended: what was noted stays, and it is said what will be."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.actions.months.scales import highest_noted
from keeper.actions.readings import changing, noting, once, wording
from keeper.actions.readings import trackers as readings
from keeper.actions.readings.shape import free_key
from keeper.cautions import OF_THE_BODY
from keeper.errors import AlreadyKept, KeeperError, UnreadableReading
from keeper.model import Tracker
from keeper.review.month_series import month_series
from keeper.store import trackers

BEGAN, NIGHT = date(2026, 1, 1), date(2026, 6, 3)


def begun(store, name: str = "mood", form: str = "scale", **told) -> Tracker:
    given_ = {"low": None, "high": None, "unit": "", "better": "neither", "began": BEGAN, **told}
    return changing.begin(store, Tracker("", name, form, **given_))


def told(store, night: date = NIGHT) -> list[str]:
    return [wording.told(one.tracker, one.reading) for one in readings.of_night(store, night)]


def drawn(store, night: date = NIGHT) -> dict[str, float | None]:
    """What the month draws of a night, by tracker."""
    every = trackers.every(store)
    series = month_series(every, trackers.readings(store, night, night), night, highest_noted(store, every))
    return {one.tracker.name: one.values[night.day - 1] for one in series}


def test_a_new_keeper_offers_three_with_a_key_each_and_notes_nothing(store):
    offers = changing.offered(NIGHT)
    assert [(one.name, one.key, one.form) for one in offers] == [("mood", "m", "scale"), ("stress", "s", "scale"), ("sleep", "l", "hours")]
    assert readings.every(store) == () == trackers.readings(store, BEGAN, NIGHT)
    for one in offers:
        changing.begin(store, one)
    assert told(store) == ["mood, not noted", "stress, not noted", "sleep, not noted"]


def test_before_the_beginning_and_after_the_end_nothing_is_counted_as_no(store, clock):
    tea = begun(store, "tea", "mark", began=date(2026, 6, 2), ended=date(2026, 6, 4))
    noting.note(store, NIGHT, tea.id, "yes", clock)
    kept = [date(2026, 6, day) for day in range(1, 8)]
    (series,) = month_series(readings.every(store), trackers.readings(store, NIGHT, NIGHT), NIGHT, {}, kept)
    assert series.values[:7] == (None, 0.0, 1.0, 0.0, None, None, None)


def test_a_guest_stays_a_month(store):
    assert changing.guest_until(date(2026, 6, 3)) == date(2026, 7, 2)
    assert changing.guest_until(date(2026, 1, 31)) == date(2026, 2, 27)
    assert changing.guest_until(date(2025, 12, 1)) == date(2025, 12, 31)
    begun(store, "guest", "mark", began=NIGHT, ended=changing.guest_until(NIGHT))
    assert told(store, date(2026, 7, 2)) == ["guest, not noted"] and told(store, date(2026, 7, 3)) == []


@given(st.dates(date(1990, 1, 1), date(2100, 1, 1)))
def test_a_guest_stays_no_less_than_four_weeks_and_no_more_than_a_month(began):
    assert 27 <= (changing.guest_until(began) - began).days <= 30


def test_another_scale_says_what_it_does_and_leaves_what_was_noted(store, clock):
    mood = begun(store)
    noting.note(store, NIGHT, mood.id, "7", clock)
    five = replace(mood, low=1.0, high=5.0)
    said = " ".join(changing.would(store, five))
    assert "1 reading so far" in said and "from 0 to 10 is drawn as high from 1 to 5" in said and "10 stays 10" in said
    assert told(store) == ["mood 7"], "Asking changes nothing."
    changing.change(store, five)
    assert told(store) == ["mood 7 (on a scale of 0 to 10)"] and drawn(store) == {"mood": pytest.approx(1 + 0.7 * 4)}
    with pytest.raises(UnreadableReading, match="from 1 to 5"):
        noting.note(store, NIGHT, mood.id, "7", clock)
    changing.change(store, replace(five, low=0.0, high=10.0))
    assert told(store) == ["mood 7"] and drawn(store) == {"mood": 7.0}


def test_another_unit_is_converted_for_showing_alone(store, clock):
    waking = begun(store, "waking", "amount", unit="C")
    assert (waking.unit, waking.low, waking.high, waking.step) == ("\u00b0C", 35.0, 38.5, 0.1)
    noting.note(store, NIGHT, waking.id, "36.6", clock)
    assert changing.would(store, replace(waking, unit="\u00b0F"))[-1] == "What was noted in \u00b0C is told in \u00b0F too."
    changed = changing.change(store, replace(waking, unit="F"))
    assert (changed.id, changed.unit, changed.low, changed.high) == (waking.id, "\u00b0F", 95.0, 101.5)
    assert told(store) == ["waking 97.88 \u00b0F (noted as 36.6 \u00b0C)"] and drawn(store) == {"waking": pytest.approx(97.88)}
    changing.change(store, replace(changed, unit="C"))
    assert told(store) == ["waking 36.6 \u00b0C"] and drawn(store) == {"waking": 36.6}


def test_how_far_a_tracker_went_is_told_in_its_unit_of_now(store, clock):
    walked = begun(store, "walked", "amount", unit="km")
    for day, typed in ((1, "12"), (2, "10 mi")):
        noting.note(store, date(2026, 6, day), walked.id, typed, clock)
    assert highest_noted(store, trackers.every(store)) == {walked.id: pytest.approx(16.09344)}
    changing.change(store, replace(walked, unit="mi"))
    assert highest_noted(store, trackers.every(store)) == {walked.id: 10.0}


def test_a_unit_that_cannot_be_converted_begins_anew_and_ends_what_was(store, clock):
    coffee, tea = begun(store, "coffee", "count", unit="cups", key="c"), begun(store, "tea", "mark")
    noting.note(store, NIGHT, coffee.id, "3", clock)
    mugs = replace(coffee, unit="mugs")
    (said,) = changing.would(store, mugs)
    assert "cups cannot be converted to mugs" in said and "ends with 3 June 2026" in said and "begins on 4 June 2026" in said
    other = changing.change(store, mugs)
    assert other.id != coffee.id and other.key == "c"
    assert told(store) == ["coffee 3 cups", "tea, not noted"]
    noting.note(store, date(2026, 6, 4), other.id, "1", clock)
    assert told(store, date(2026, 6, 4)) == ["coffee 1 mugs", "tea, not noted"]
    assert [one.name for one in readings.every(store)] == ["coffee", "coffee", "tea"] and readings.every(store)[2].id == tea.id


def test_a_unit_without_readings_is_only_another_word(store):
    coffee = begun(store, "coffee", "count", unit="cups")
    assert changing.would(store, replace(coffee, unit="mugs")) == ()
    assert changing.change(store, replace(coffee, unit="mugs")).id == coffee.id


def test_what_ends_keeps_its_readings_and_is_taken_up_without_counting_the_time_between(store, clock):
    tea = begun(store, "tea", "mark", key="t")
    noting.note(store, NIGHT, tea.id, "yes", clock)
    assert changing.retire(store, tea.id, NIGHT) == "tea ends with 3 June 2026. What was noted of it, on 1 night, is kept."
    assert told(store) == ["tea yes"] and told(store, date(2026, 6, 4)) == []
    assert changing.take_up(store, tea.id, date(2026, 6, 4)).id == tea.id
    changing.retire(store, tea.id, NIGHT)
    again = changing.take_up(store, tea.id, date(2026, 7, 1))
    assert (again.id != tea.id, again.began, again.key) == (True, date(2026, 7, 1), "t")
    kept = [date(2026, 6, day) for day in range(1, 31)]
    series = month_series(readings.every(store), trackers.readings(store, NIGHT, NIGHT), NIGHT, {}, kept)
    assert [one.values[3:] for one in series] == [(None,) * 27]


def test_what_is_not_noted_tonight_ends_with_the_night_before(store, clock):
    tea = begun(store, "tea", "mark")
    noting.note(store, date(2026, 5, 1), tea.id, "no", clock)
    changing.retire(store, tea.id, NIGHT)
    assert readings.every(store)[0].ended == date(2026, 6, 2)


def test_what_was_never_noted_is_taken_out_whole(store):
    tea = begun(store, "tea", "mark")
    assert changing.retire(store, tea.id, NIGHT) == "tea is gone; nothing was noted of it."
    assert readings.every(store) == ()


def test_the_order_is_the_persons(store):
    ids = {name: begun(store, name, "mark", key=name, ended=NIGHT if name == "b" else None).id for name in "abcd"}
    changing.move(store, ids["d"], -1, [ids[name] for name in "acd"])
    assert [one.name for one in readings.every(store)] == ["a", "b", "d", "c"]
    changing.move(store, ids["a"], 1, [ids[name] for name in "adc"])
    assert [one.name for one in readings.every(store)] == ["b", "d", "a", "c"]
    changing.move(store, ids["c"], 5, [ids[name] for name in "dac"])
    assert [one.name for one in readings.every(store)] == ["b", "d", "a", "c"]


@pytest.mark.parametrize(
    ("other", "sentence"),
    [
        ({"name": "  "}, "needs a name"), ({"name": "Mood"}, "There is mood among"), ({"name": "x" * 41}, "40 characters"),
        ({"key": "m"}, "M goes to mood"), ({"key": "mm"}, "one letter"), ({"key": "7"}, "one letter"),
        ({"low": 5.0, "high": 5.0}, "ends above"), ({"low": 0.0, "high": 1e6}, "1000 steps"),
        ({"ended": date(2025, 1, 1)}, "before it begins"), ({"form": "smile"}, "smile"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_answered_with_a_sentence(store, other, sentence):
    mood = begun(store, key="m")
    with pytest.raises(KeeperError, match=sentence):
        changing.begin(store, replace(mood, **{"id": "", "name": "other", "key": "o", **other}))
    assert readings.every(store) == (mood,)


def test_a_form_stays_once_something_was_noted(store, clock):
    mood = begun(store)
    assert changing.change(store, replace(mood, form="mark")).form == "mark"
    noting.note(store, NIGHT, mood.id, "yes", clock)
    with pytest.raises(UnreadableReading, match="stays a mark"):
        changing.change(store, replace(mood, form="count"))


def test_two_of_one_name_may_follow_one_another(store):
    begun(store, ended=date(2026, 5, 31), key="m")
    with pytest.raises(AlreadyKept):
        begun(store, began=date(2026, 5, 31))
    assert begun(store, began=date(2026, 6, 1), key="m").key == "m"


def test_a_free_letter_is_found():
    of = [Tracker("", "", "mark", None, None, "", "neither", BEGAN, key=key) for key in "st"]
    assert (free_key("stress", of), free_key("tst", of), free_key("7 \u00dcbungen", of)) == ("r", "", "\u00fc")


def test_the_caution_comes_once_and_only_for_the_body(store):
    tea, mood = begun(store, "tea", "mark"), begun(store, body=True)
    assert once.caution(store, [tea]) == ""
    assert [once.caution(store, [tea, mood]) for _ in range(2)] == [OF_THE_BODY, ""]


def test_a_word_comes_once_above_seven(store):
    for number in range(7):
        begun(store, f"reading {number}", "mark")
    assert once.of_many(store, NIGHT) == ""
    begun(store, "reading 8", "mark")
    assert [once.of_many(store, NIGHT) for _ in range(2)] == [once.MANY, ""]


NAMES = "abc"
STEPS = st.lists(st.tuples(st.sampled_from(NAMES), st.sampled_from(["scale", "name", "retire", "take up", "later", "unit"])), max_size=6)


@given(st.dictionaries(st.sampled_from(NAMES), st.integers(0, 10), max_size=3), STEPS)
def test_no_change_of_a_tracker_changes_a_value_or_notes_anything(store, clock, values, steps):
    with store.writing() as connection:
        for table in ("reading", "tracker_scale", "tracker"):
            connection.execute(f"DELETE FROM {table}")
    of = {name: begun(store, name) for name in NAMES}
    for name, value in values.items():
        noting.note(store, NIGHT, of[name].id, str(value), clock)
    for number, (name, what) in enumerate(steps):
        now = trackers.by_id(store, of[name].id)
        if what == "retire":
            changing.retire(store, now.id, date(2026, 5, 1)) if name in values else None
        elif what == "take up":
            changing.take_up(store, now.id, date(2026, 6, 5)) if now.ended else None
        elif what == "later":
            changing.move(store, now.id, 1, [one.id for one in readings.every(store)])
        else:
            changing.change(store, replace(now, name=f"{name}{number}") if what == "name" else replace(now, high=float(20 + number)))
    kept = {one.tracker_id: one.value for one in trackers.readings(store, BEGAN, date(2027, 1, 1))}
    assert kept == {of[name].id: float(value) for name, value in values.items()}
    heights = {one.tracker_id: one.value / (one.high or trackers.by_id(store, one.tracker_id).high) for one in trackers.readings(store, NIGHT, NIGHT)}
    assert heights == {of[name].id: value / 10 for name, value in values.items()}
