"""The chart of a pattern: dots, levels and courses, in the values as they are noted."""

from datetime import date, timedelta

import pytest
from test_pattern_sentences import KNOWN, link, measure

from keeper.review.patterns.chart import chart_of
from keeper.review.patterns.told import MOVED, WAVE, PatternTold
from keeper.study.patterns.pattern import BELOW, MEDIANS, RISKS, Cut

FIRST = date(2026, 1, 5)
"""A Monday."""


def test_two_readings_are_dots_on_either_side_of_the_cut():
    columns = {"sleep": (5.0, 5.0, 8.0, 8.0, None, 7.5), "mood": (None, 4.0, 4.0, 7.0, 6.0, 9.0)}
    told = link("sleep", "mood", 1, Cut(BELOW, 5.0, 6.0), measure(MEDIANS, -2.0, -3.0, -1.0, (2, 4.0), (2, 6.5)))
    chart = chart_of(told, FIRST, columns, KNOWN)
    assert [(spot.x, spot.y, spot.nights) for spot in chart.spots] == [(5.0, 4.0, 2), (8.0, 6.0, 1), (8.0, 7.0, 1)]
    assert chart.cut == 5.5 and [(one.y, one.words) for one in chart.levels] == [(4.0, "4"), (6.5, "6.5")]
    assert chart.up.name == "mood, the next evening" and chart.across.name == "sleep"
    assert chart.words == "4 nights. mood: 4 on 2 nights of under 6 hours of sleep, 6.5 on 2 others"


def test_a_mark_parts_the_nights():
    columns = {"swam": (1.0, 0.0, 1.0, None), "mood": (7.0, 5.0, 8.0, 9.0)}
    chart = chart_of(link("swam", "mood", 0, measured=measure(MEDIANS, 2.5, 1, 3, (2, 7.5), (1, 5.0))), FIRST, columns, KNOWN)
    assert [(spot.x, spot.y, spot.share) for spot in chart.spots] == [(0.0, 7.0, 0.5), (0.0, 8.0, 0.5), (1.0, 5.0, 1.0)]
    assert [words for _, words in chart.across.ticks] == ["2 nights with “swam”", "1 other"]
    assert [one.y for one in chart.levels] == [7.5, 5.0]


def test_shares_stand_on_the_axis():
    told = link("swam", "herring", 1, measured=measure(RISKS, 2, 1, 3, (40, 0.25), (200, 0.125)))
    chart = chart_of(told, FIRST, {"swam": (1.0, 0.0), "herring": (1.0, 0.0)}, KNOWN)
    assert [(one.y, one.words, one.filled) for one in chart.levels] == [(0.25, "10 of 40", True), (0.125, "25 of 200", True)]
    assert chart.up.ticks[-1] == (pytest.approx(0.3), "30 %")


def test_round_the_week_and_the_year():
    tall = tuple(float((FIRST + timedelta(days=day)).weekday() == 5) for day in range(70))
    wave = PatternTold(WAVE, "swam", "weekday", 0, 70, rhythm="weekday")
    chart = chart_of(wave, FIRST, {"swam": tall}, KNOWN)
    assert chart.lines == (("“swam”", (0, 0, 0, 0, 0, 1, 0)),) and chart.words.endswith("Fri 0 %, Sat 100 %, Sun 0 %")
    warm = tuple(float((FIRST + timedelta(days=day)).month) for day in range(400))
    moved = PatternTold(MOVED, "mood", "coffee", 0, 400, rhythm="season", peaks=(12, 12))
    chart = chart_of(moved, FIRST, {"mood": warm, "coffee": tuple(-value for value in warm)}, KNOWN)
    (_, up), (_, down) = chart.lines
    assert up[0] == 0 and up[-1] == 1 and down == tuple(pytest.approx(1 - value) for value in up)


def test_nothing_that_differs_is_still_drawn():
    told = link("sleep", "mood", 0, None, None)
    chart = chart_of(told, FIRST, {"sleep": (7.0, 7.0), "mood": (5.0, 5.0)}, KNOWN)
    assert chart.up.high > chart.up.low and chart.across.high > chart.across.low
    assert chart_of(told, FIRST, {"sleep": (None,), "mood": (1.0,)}, KNOWN).spots == ()
