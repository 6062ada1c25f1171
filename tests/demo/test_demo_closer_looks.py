"""Closer looks at the shipped demo tell what is planted in its readings, and leave alone what is not (demo_db/README.md)."""

import shutil
import sys
from datetime import date
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from demo_db.make import HERE  # noqa: E402
from keeper.actions.courses import asked  # noqa: E402
from keeper.actions.courses.after import after_mark  # noqa: E402
from keeper.actions.courses.around import around_mark  # noqa: E402
from keeper.actions.courses.changes import changes_of  # noqa: E402
from keeper.store import open_store  # noqa: E402

WINTER = date(2024, 12, 1), date(2025, 3, 23)


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    folder = tmp_path_factory.mktemp("demo") / "keeper"
    shutil.copytree(HERE / "keeper", folder)
    with open_store(folder) as store:
        yield store


def key(store, name: str) -> str:
    there = asked.what_can_be_asked(store)
    return asked.named([*there.marks, *there.readings], name).key


def test_mood_is_higher_on_days_with_a_swim_and_on_no_other_night(demo):
    told = around_mark(demo, key(demo, "swam"), key(demo, "mood"), 7)
    assert told.sentences[0].startswith("On the night itself (96 nights with “swam”), mood was 7.1 on average;")
    assert not any(one.startswith("Outside") for one in told.sentences)


@pytest.mark.parametrize("reading", ["mood", "stress", "sleep", "coffee", "walked"])
def test_around_herring_nothing_stands_out(demo, reading):
    told = around_mark(demo, key(demo, "herring"), key(demo, reading), 7)
    assert told.sentences[0] == (
        f"Around the 260 nights with “herring”, {reading} is as around others: from 7 nights before to 7 nights after none stands out "
        "from chance."
    )


def test_the_back_aches_after_a_night_on_the_way_and_not_after_herring(demo):
    back = key(demo, "back ache")
    aboard, herring = (after_mark(demo, key(demo, name), back, 1) for name in ("night on the way", "herring"))
    assert aboard.found.p < 0.01 and aboard.found.measure.low > 1 and aboard.sentences[-1].startswith("Chance alone gives as uneven numbers")
    assert herring.found.p > 0.05 and herring.sentences[-1].startswith("It does not stand out from chance")


def test_the_bad_winter_is_a_level_of_mood_and_stress_and_sleep_has_one_level(demo):
    for reading, lower in (("mood", True), ("stress", False)):
        told = changes_of(demo, key(demo, reading))
        before, winter, after = told.levels
        assert (winter.mean < min(before.mean, after.mean)) == lower
        first, last = told.night(winter.first), told.night(winter.last)
        assert min(last, WINTER[1]) - max(first, WINTER[0]) > 0.9 * (WINTER[1] - WINTER[0])
    assert len(changes_of(demo, key(demo, "sleep")).levels) == 1
