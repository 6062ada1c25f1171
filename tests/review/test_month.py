"""How a month's page is put together."""

import calendar
from dataclasses import replace
from datetime import UTC, date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.days import last_of_month, nights
from keeper.model import Line, Moment, MonthPage, Night, Place, Reading, Tracker
from keeper.review.month import STANDING, MonthView, month_nights, month_places, month_themes
from keeper.review.month_series import band_of, month_series, scale
from keeper.study.awake import Awake

MAY = date(2026, 5, 1)
WRITTEN = Moment(datetime(2026, 5, 1, 20, tzinfo=UTC), 120, "")
RIGA, VISBY = Place("r", "Riga"), Place("v", "Visby")


def line(day: int, kind: str = "memory", text: str = "words") -> Line:
    return Line(f"{day}{kind}", date(2026, 5, day), kind, text, WRITTEN)


def month(*kept: Night) -> list[Night]:
    known = {night.date: night for night in kept}
    return [known.get(day, Night(day)) for day in nights(MAY, last_of_month(MAY))]


def tracker(form: str = "scale", low=None, high=None, name: str = "mood", began=date(2020, 1, 1), ended=None) -> Tracker:
    return Tracker(name, name, form, low, high, "", "neither", began, ended)


def shown(*kept: Night, resting=(), awake=None, before=None, with_resting=False):
    kept = [night if awake is None else _but(night, awake) for night in kept]
    return month_nights(month(*kept), Awake(nights=frozenset(resting)), before, with_resting)


def _but(night: Night, awake) -> Night:
    return replace(night, lines=tuple(replace(one, resting=one.id not in awake) for one in night.lines))


@given(st.dates(date(1800, 1, 1), date(2999, 12, 1)))
def test_every_month_has_all_its_nights(day):
    first = day.replace(day=1)
    made = month_nights([Night(one) for one in nights(first, last_of_month(first))], Awake(), None, False)
    assert len(made) == calendar.monthrange(day.year, day.month)[1]
    assert [night.date.day for night in made] == list(range(1, len(made) + 1))


def test_a_place_is_told_where_it_changes():
    made = shown(Night(date(2026, 5, 1), place=RIGA), Night(date(2026, 5, 2), place=RIGA),
                 Night(date(2026, 5, 4), place=RIGA), Night(date(2026, 5, 9), place=VISBY),
                 Night(date(2026, 5, 10), place=RIGA), before="r")  # fmt: skip
    assert [night.date.day for night in made if night.arrived] == [1, 9, 10]


def test_resting_lines_and_nights_are_kept_back_until_asked_for():
    kept = (Night(date(2026, 5, 1), (line(1), line(1, "gratitude")), RIGA), Night(date(2026, 5, 2), (line(2),), RIGA, "", 2))
    made = shown(*kept, resting={date(2026, 5, 2)}, awake={"1gratitude", "2memory"})
    assert [one.id for one in made[0].lines] == ["1gratitude"]
    assert (made[1].lines, made[1].place, made[1].photos) == ((), None, 0)
    assert (made[0].rests, made[1].rests, made[2].rests) == (True, True, False)
    brought = shown(*kept, resting={date(2026, 5, 2)}, awake={"1gratitude", "2memory"}, with_resting=True)
    assert (len(brought[0].lines), len(brought[1].lines), brought[1].place) == (2, 1, RIGA)


def test_places_stand_in_the_order_one_came_to_them():
    made = shown(Night(date(2026, 5, 3), place=VISBY), Night(date(2026, 5, 5), place=RIGA), Night(date(2026, 5, 8), place=VISBY))
    found = month_places(made)
    assert [(one.place.name, [night.day for night in one.nights]) for one in found] == [
        ("Visby", [3, 8]), ("Riga", [5])
    ]  # fmt: skip


def test_themes_have_their_share_and_the_nearest_lines_of_two_nights():
    lines = [line(1), line(1, "gratitude"), line(2), line(3), line(9)]
    placed = [("1memory", 1, "bread", 0.9), ("1gratitude", 1, "bread", 0.8), ("2memory", 1, "bread", 0.4),
              ("3memory", 2, "sea", 0.9), ("77gone", 2, "sea", 1.0)]  # fmt: skip
    bread, sea = month_themes(placed, lines)
    assert (bread.name, bread.lines, bread.nights, bread.share) == ("bread", 3, 2, 0.5)
    assert [one.id for one in bread.standing] == ["1memory", "2memory"]
    assert len(bread.standing) <= STANDING and sea.lines == 1
    assert month_themes([], lines) == ()


def test_readings_stand_by_night_with_gaps_where_nothing_was_noted():
    made = month_series([tracker(low=0.0, high=10.0)], [Reading(date(2026, 5, 3), "mood", 7.0)], MAY, {})
    assert len(made[0].values) == 31 and made[0].values[2] == 7.0
    assert made[0].noted == 1 and made[0].values[3] is None


def test_an_empty_mark_on_a_night_that_was_kept_is_a_no_and_else_unknown():
    swam = tracker("mark", name="swam", began=date(2026, 5, 4))
    kept = {date(2026, 5, 2), date(2026, 5, 5), date(2026, 5, 6)}
    made = month_series([swam], [Reading(date(2026, 5, 6), "swam", 1.0)], MAY, {}, kept)
    assert made[0].values[:7] == (None, None, None, None, 0.0, 1.0, None)


def names(made) -> list[str]:
    return [one.tracker.name for one in made]


def test_trackers_keep_their_spot_in_all_months_of_a_year_and_all_are_gone_without_a_reading():
    some = [tracker(name="a", ended=date(2026, 4, 1)), tracker(name="b"), tracker(name="c", began=date(2026, 6, 1)),
            tracker(name="d"), tracker("mark", name="e"), tracker(name="f"), tracker(name="z", ended=date(2025, 4, 9)),
            tracker(name="guest", began=date(2026, 6, 1), ended=date(2026, 6, 30))]  # fmt: skip
    noted = [Reading(date(2026, month, 2), "d", 1.0) for month in (1, 5, 12)]
    for reading in noted:
        assert names(month_series(some, [reading], reading.night, {})) == ["a", "b", "c", "d", "f", "e"]
    june = month_series(some, [Reading(date(2026, 6, 2), "d", 1.0)], date(2026, 6, 1), {})
    assert names(june) == ["a", "b", "c", "d", "f", "e", "guest"]
    assert names(month_series(some, [Reading(date(2025, 6, 2), "d", 1.0)], date(2025, 6, 1), {})) == ["a", "b", "d", "f", "z", "e"]
    assert month_series(some, [], MAY, {}) == ()
    again = tracker(name="d", began=date(2026, 6, 1))
    assert names(month_series([*some, again], [Reading(MAY, "b", 1.0)], MAY, {})).count("d") == 1


def test_where_a_tracker_began_and_ended_is_known_by_day():
    some = [tracker(name="a", began=date(2026, 5, 4), ended=date(2026, 5, 20)), tracker(name="b", began=date(2026, 6, 1)),
            tracker(name="c", ended=date(2026, 2, 1)), tracker(name="d")]  # fmt: skip
    made = {one.tracker.name: one for one in month_series(some, [Reading(MAY, "d", 1.0)], MAY, {})}
    assert (made["a"].began, made["a"].ended, made["a"].in_force) == (4, 20, range(4, 21))
    assert (made["b"].here, made["b"].over, made["b"].began) == (False, False, 0)
    assert (made["c"].here, made["c"].over) == (False, True)
    assert made["d"].in_force == range(1, 32) and made["d"].here


FORMS_AND_VALUES = st.tuples(st.sampled_from(["scale", "hours", "count", "amount", "mark"]), st.dictionaries(st.integers(1, 31), st.just(0.0) | st.floats(0, 10)))


@given(st.lists(FORMS_AND_VALUES, min_size=1, max_size=6), st.sets(st.integers(1, 31)), st.randoms())
def test_what_was_not_noted_is_never_a_value_and_the_order_changes_only_the_order(told, written, chance):
    some = [tracker(form, name=f"t{n}", began=date(2026, 5, 5)) for n, (form, _) in enumerate(told)]
    noted = [Reading(date(2026, 5, day), one.id, min(value, 1.0) if one.form == "mark" else value)
             for one, (_, its) in zip(some, told, strict=True) for day, value in its.items()]  # fmt: skip
    kept = {date(2026, 5, day) for day in written}
    made = month_series(some, noted, MAY, {}, kept)
    known = {(one.tracker_id, one.night.day): one.value for one in noted}
    somehow_kept = written | {day for _, day in known}
    for series in made:
        for day, value in enumerate(series.values, 1):
            is_no = series.tracker.form == "mark" and day in somehow_kept and day >= 5
            assert value == known.get((series.tracker.id, day), 0.0 if is_no else None)
    other = list(some)
    chance.shuffle(other)
    assert {one.tracker.id: one for one in month_series(other, noted, MAY, {}, kept)} == {one.tracker.id: one for one in made}


@pytest.mark.parametrize(("form", "low", "high", "highest", "wanted"), [
    ("scale", 1.0, 5.0, 0.0, (1.0, 5.0)), ("hours", None, None, 9.0, (0.0, 12.0)), ("hours", 0.0, 10.0, 9.0, (0.0, 10.0)),
    ("hours", None, None, 13.5, (0.0, 14.0)),
    ("mark", None, None, 1.0, (0.0, 1.0)), ("count", None, None, 0.0, (0.0, 1.0)), ("count", None, None, 5.0, (0.0, 5.0)),
    ("amount", None, None, 17.3, (0.0, 20.0)), ("amount", None, None, 101.0, (0.0, 150.0)), ("scale", 5.0, 5.0, 0.0, (5.0, 6.0)),
    ("amount", -5.0, None, -3.0, (-5.0, -3.0)),
])  # fmt: skip
def test_the_scale_is_the_tracker_s_own(form, low, high, highest, wanted):
    assert scale(tracker(form, low, high), highest) == wanted


@given(st.floats(0, 1e9), st.none() | st.floats(-1e6, 1e6))
def test_a_scale_holds_all_that_was_ever_noted(highest, lowest):
    low, high = scale(tracker("amount", lowest), highest)
    assert low == (lowest or 0) and high > low and high >= highest - 1e-6 * abs(highest)


def test_the_band_is_for_hours_of_sleep_only():
    assert band_of(tracker("hours", name="Sleep")) == (7.0, 9.0)
    assert band_of(tracker("hours", name="practice")) is band_of(tracker("scale", name="sleep quality")) is None


def test_answers_are_reflections_under_a_question():
    kept = shown(Night(date(2026, 5, 1), (line(1, "reflection"), line(1))))
    asked = MonthView(MAY, MonthPage(MAY, "What?"), None, kept)
    assert [one.kind for one in asked.answers] == ["reflection"]
    assert MonthView(MAY, MonthPage(MAY), None, kept).answers == ()
    assert (asked.kept, len(asked.lines), asked.empty) == (1, 2, False)
    assert MonthView(MAY, MonthPage(MAY), None, shown()).empty
