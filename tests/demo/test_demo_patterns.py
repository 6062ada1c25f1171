"""Patterns tell what is planted in the demo's readings, and leave alone what is not (demo_db/README.md says what)."""

import shutil
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from demo_db import prose, readings, towns  # noqa: E402
from demo_db.make import HERE, SEED  # noqa: E402
from keeper.actions import opening  # noqa: E402
from keeper.actions.patterns import asking, shown  # noqa: E402
from keeper.actions.patterns.columns import candidates, columns  # noqa: E402
from keeper.study.patterns import find_patterns  # noqa: E402

MARKS = [tracker.name for tracker in readings.TRACKERS if tracker.form == "mark"]
GENEROUS = 0.10


@pytest.fixture(scope="module")
def patterns():
    told = prose.read_all(HERE / "lines", frozenset(towns.BY_NAME))
    days = readings.days([night for month in told for night in month.nights], SEED)
    return find_patterns({tracker.name: column(tracker, days) for tracker in readings.TRACKERS}, marks=MARKS)


def column(tracker, days) -> list[float | None]:
    """A value for each day; on a day that was kept, an empty mark means no."""
    empty = [0.0 if tracker.form == "mark" and day.noted and day.date >= tracker.began else None for day in days]
    return [day.noted.get(tracker.name, otherwise) for day, otherwise in zip(days, empty, strict=True)]


def told(patterns, bar):
    return {(one.first, one.second, one.lag): one for one in patterns if one.q <= bar}


def test_what_is_planted_is_told_and_nothing_else(patterns):
    assert len(patterns) > 100
    assert told(patterns, GENEROUS).keys() == {("sleep", "mood", 1), ("swam", "mood", 0)}
    assert [one for one in patterns if one.stands_out] == [one for one in patterns if one.q <= 0.05]
    assert sum(one.stands_out for one in patterns) == 2


def test_sleep_goes_with_the_mood_of_the_next_day(patterns):
    found = told(patterns, 0.05)["sleep", "mood", 1]
    assert found == patterns[0] and found.nights > 1000 and not found.hidden
    assert 0.2 < found.low < found.strength < found.high < 0.35


def test_a_swim_goes_with_a_better_day(patterns):
    measure = told(patterns, 0.05)["swam", "mood", 0].measure
    assert (measure.kind, measure.value) == ("difference of medians", 1) and measure.low > 0
    assert (measure.with_mark.value, measure.without.value) == (7, 6)


def test_herring_goes_with_nothing(patterns):
    with_herring = [one for one in patterns if "herring" in (one.first, one.second)]
    assert len(with_herring) >= 30
    assert min(one.q for one in with_herring) > 2 * GENEROUS


def test_what_only_follows_the_bad_winters_is_put_down_to_the_season(patterns):
    (found,) = [one for one in patterns if {one.first, one.second} == {"mood", "stress"} and one.lag == 0]
    assert found.strength < -0.1 and not found.stands_out and found.rhythm == "season"


@pytest.fixture
def demo(tmp_path):
    """A copy of the demo keeper."""
    shutil.copytree(ROOT / "demo_db" / "keeper", tmp_path / "keeper")
    with opening.open_again(tmp_path / "keeper") as store:
        yield store


def test_the_demo_tells_what_is_planted_in_sentences(demo):
    asking.ask(demo, opening.demo_clock(demo))
    view = shown.patterns_view(demo)
    assert [one.sentence for one in view.told] == [
        "After the 235 nights of under 6:30 hours of sleep, mood the next evening was on average 0.8 lower (between 0.7 and 1) "
        "than after 790 others.",
        "On the 96 nights with “swam”, mood was typically 1 higher (between 0.3 and 1.7) than on 682 others.",
    ]
    assert [one.sentence for one in view.moved] == [
        "Stress is highest around January, mood around July; within the seasons they do not go together."
    ]
    assert view.standing == "Among 105 questions 2 answers stand out from chance."


def test_the_columns_of_the_demo_are_what_was_drawn_and_herring_is_not_told_at_a_generous_bar_either(demo, patterns):
    its = columns(demo, asking.taking_part(demo))
    names = {one.key: one.name for one in candidates(demo)}
    found = find_patterns(its.values, marks=its.marks)
    generous = {(names[one.first], names[one.second], one.lag) for one in found if one.q <= GENEROUS}
    assert generous == told(patterns, GENEROUS).keys()
    assert not any("herring" in question for question in generous)
