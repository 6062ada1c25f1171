"""Patterns in sentences: sides, lags, differences, shares and rhythms in people's words."""

from datetime import date

import pytest

from keeper.dates import written
from keeper.model import Tracker
from keeper.review.patterns import whole
from keeper.review.patterns.candidates import MOVE, PERSON, READING, THEME, TRAVEL, Candidate
from keeper.review.patterns.sentences import sentence, small
from keeper.review.patterns.told import LINK, MOVED, WAVE, AskingTold, PatternTold, as_plain, from_plain
from keeper.study.patterns.pattern import ABOVE, BELOW, MEANS, MEDIANS, RISKS, YES, Cut, Measure, Side


def reading(name: str, form: str, unit: str = "") -> Candidate:
    tracker = Tracker(name, name, form, 0.0, 10.0, unit, "neither", date(2026, 1, 1))
    return Candidate(name, name, READING, form == "mark", tracker)


KNOWN = {one.key: one for one in (
    reading("mood", "scale"), reading("sleep", "hours", "h"), reading("coffee", "count", "cups"), reading("swam", "mark"),
    reading("herring", "mark"), reading("walked", "amount", "km"), Candidate("theme:1", "harbour, fog", THEME),
    Candidate("person:1", "Ilze", PERSON), Candidate("move", "change of place", MOVE),
    Candidate("travel", "night on the way", TRAVEL),
)}  # fmt: skip


def link(first, second, lag=1, cut=None, measured=None, **more) -> PatternTold:
    return PatternTold(LINK, first, second, lag, 253, cut=cut or Cut(YES), contrast=measured, **more)


def measure(kind, value, low, high, of=(41, 4.0), others=(212, 6.0)) -> Measure:
    return Measure(kind, value, low, high, Side(*of), Side(*others))


LOWER = measure(MEDIANS, -2.0, -3.0, -1.0)
OFTEN = measure(RISKS, 2.07, 1.2, 3.54, (41, 12 / 41), (212, 30 / 212))


@pytest.mark.parametrize(("told", "said"), [
    (link("sleep", "mood", cut=Cut(BELOW, 5.5, 6.0), measured=LOWER),
     "After the 41 nights of under 6 hours of sleep, mood the next evening was typically 2 lower (between 1 and 3) than after 212 others."),
    (link("sleep", "mood", 2, Cut(ABOVE, 8.5, 8.0), LOWER),
     "After the 41 nights of 8:30 hours of sleep or more, mood two evenings later was typically 2 lower (between 1 and 3) than after 212 others."),
    (link("swam", "mood", 0, measured=measure(MEANS, 0.55, 0.3, 0.9)),
     "On the 41 nights with “swam”, mood was on average 0.6 higher (between 0.3 and 0.9) than on 212 others."),
    (link("coffee", "sleep", 0, Cut(ABOVE, 3.0, 2.0), measure(MEDIANS, -1.5, -2.0, -0.5)),
     "On the 41 nights with coffee at 3 cups or more, sleep was typically 1:30 hours shorter (between 30 minutes and 2 hours) than on 212 others."),
    (link("swam", "sleep", 0, measured=measure(MEDIANS, 2.0, 1.25, 2.75)),
     "On the 41 nights with “swam”, sleep was typically 2 hours longer (between 1:15 and 2:45 hours) than on 212 others."),
    (link("walked", "coffee", 3, Cut(BELOW, 2.5, 3.0), measure(MEANS, 0.8, 0.5, 1.2)),
     "After the 41 nights with walked at 2.5 km or less, coffee 3 evenings later was on average 0.8 cups more (between 0.5 and 1.2) "
     "than after 212 others."),
    (link("swam", "mood", 0, measured=measure(MEANS, -0.04, -0.07, -0.011)),
     "On the 41 nights with “swam”, mood was on average 0.04 lower (between 0.01 and 0.07) than on 212 others."),
    (link("travel", "mood", 0, measured=measure(MEDIANS, 1.0, 0.5, 2.0, (1, 7.0), (1, 6.0))),
     "On the 1 night on the way, mood was typically 1 higher (between 0.5 and 2) than on 1 other."),
    (link("travel", "herring", measured=OFTEN),
     "After 12 of the 41 nights on the way, “herring” was noted the next evening: 2.1 times as often (between 1.2 and 3.5) as after 212 others."),
    (link("person:1", "theme:1", 0, measured=OFTEN),
     "On 12 of the 41 nights that name Ilze, there was the theme “harbour, fog”: 2.1 times as often (between 1.2 and 3.5) as on 212 others."),
    (link("theme:1", "move", 0, measured=measure(RISKS, 0.0, 0.0, 0.7, (41, 0.0), (212, 0.25))),
     "On none of the 41 nights with the theme “harbour, fog”, there was a change of place; on 53 of 212 others there was."),
    (link("move", "swam", 1, measured=measure(RISKS, float("inf"), 2.0, float("inf"), (41, 3 / 41), (212, 0.0))),
     "After 3 of the 41 nights at another place than the night before, “swam” was noted the next evening; after none of 212 others."),
    (link("sleep", "mood", 0, Cut(BELOW, 5.5, 6.0), measure(MEDIANS, -1.0, -2.0, 0.0), strength=0.2, low=0.1, high=0.3),
     "More sleep goes with higher mood, over 253 nights (rank correlation 0.2, between 0.1 and 0.3)."),
    (link("sleep", "mood", 1, Cut(BELOW, 5.5, 6.0), LOWER, strength=0.2, within=-0.31, hidden=True),
     "Within the seasons, more sleep goes with lower mood the next evening (rank correlation −0.31); over the whole record the season "
     "hides it."),
    (link("swam", "herring", 1, measured=measure(RISKS, 1.5, 0.9, 2.0), strength=-0.1, low=-0.2, high=-0.05),
     "“swam” goes with “herring” less often the next evening, over 253 nights (rank correlation −0.1, between −0.2 and −0.05)."),
])  # fmt: skip
def test_what_goes_with_what(told, said):
    assert sentence(told, KNOWN) == said


@pytest.mark.parametrize(("rhythm", "peaks", "said"), [
    ("season", (7, 7), "Mood and “swam” are both highest around July; within the seasons they do not go together."),
    ("season", (7, 1), "Mood is highest around July, “swam” around January; within the seasons they do not go together."),
    ("drift", (0, 0), "Mood and “swam” both drift over the months; from night to night they do not go together."),
    ("weekday", (0, 0), "Mood and “swam” both follow the day of the week; beyond that they do not go together."),
])  # fmt: skip
def test_what_only_moves_together(rhythm, peaks, said):
    assert sentence(PatternTold(MOVED, "mood", "swam", 0, 900, rhythm=rhythm, peaks=peaks), KNOWN) == said


def test_rhythms():
    days = tuple(Side(50, 6 + (day == 5) - (day == 0) / 2) for day in range(7))
    told = PatternTold(WAVE, "mood", "weekday", 0, 350, rhythm="weekday", groups=days)
    assert sentence(told, KNOWN) == "Mood goes with the day of the week: highest on Saturdays (7 on average), lowest on Mondays (5.5)."
    months = tuple(Side(30 if month != 3 else 0, 0.4 if month == 6 else 0.0 if month == 3 else 0.1) for month in range(12))
    told = PatternTold(WAVE, "swam", "season", 0, 330, rhythm="season", groups=months)
    assert sentence(told, KNOWN) == "“swam” goes with the season: most often in July (40 % of them), least in January (10 %)."


def test_the_nights_and_what_is_likely_to_be_met_again_stand_small_below():
    assert small(link("sleep", "mood", measured=LOWER), KNOWN) == "From 253 nights."
    told = link("sleep", "mood", measured=LOWER, share=0.57, also=(0, 2))
    assert small(told, KNOWN) == (
        "From 253 nights. What is met again is likely to be about 57 % of this. It shows on the same night and two evenings later too."
    )


def test_numbers_are_written_as_the_person_does():
    written.follow(lambda: written.Habits(thousands=".", decimal=","))
    try:
        told = link("swam", "mood", 0, measured=measure(MEANS, 0.55, 0.3, 0.9, (41, 4.0), (1212, 6.0)))
        assert sentence(told, KNOWN).endswith("was on average 0,6 higher (between 0,3 and 0,9) than on 1.212 others.")
    finally:
        written.follow(written.Habits)


@pytest.mark.parametrize(("questions", "told", "said"), [
    (63, 0, "Among 63 questions nothing stands out from chance."),
    (1260, 1, "Among 1,260 questions one answer stands out from chance."),
    (63, 20, "Among 63 questions 20 answers stand out from chance."),
])  # fmt: skip
def test_how_matters_stand(questions, told, said):
    asking = AskingTold("2026-11-14", "2026-01-01", "2026-11-13", questions, (), (), 0, "")
    assert whole.standing(asking, told) == said
    assert whole.standing(None, 0) == "Nothing was asked yet."


def test_what_is_kept_is_what_is_told():
    told = (link("sleep", "mood", cut=Cut(BELOW, 5.5, 6.0), measured=LOWER, also=(0,)), PatternTold(MOVED, "a", "b", 0, 9, peaks=(1, 2)),
            PatternTold(WAVE, "a", "weekday", 0, 9, groups=(Side(3, 0.5),)), link("move", "swam", measured=measure(RISKS, float("inf"), 2, 3)))  # fmt: skip
    asking = AskingTold("2026-11-14", "2026-01-01", "2026-11-13", 63, (("sleep", 40),), told, 3, "7")
    import json

    assert from_plain(json.loads(json.dumps(as_plain(asking)))) == asking


def test_what_was_asked_is_told():
    asking = AskingTold("2026-11-14", "2026-01-01", "2026-11-13", 63, (("mood", 300), ("gone", 2), ("move", 0)), (), 0, "")
    assert whole.what_was_asked(asking, KNOWN) == (
        "Asked on 14 November 2026, over the nights of 1 Jan 2026 to 13 Nov 2026: 63 questions.",
        "What took part: mood (300 nights), change of place.",
    )
