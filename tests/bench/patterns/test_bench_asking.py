"""Asking of twenty trackers over ten years, all of it: read from the file, asked in a process of its own, and kept.

The bare loop only sums over arrays that are there already. Target: under 3 s, at most twice the bare loop.
"""

from datetime import date, timedelta

import numpy as np
import pytest
from ten_years import MARKS, bare_loop, ten_years

from keeper.actions.opening import open_or_begin
from keeper.actions.patterns import asking
from keeper.clock import Clock
from keeper.model import Act, Reading, Tracker
from keeper.store import trackers

FIRST, ACT = date(2016, 1, 1), Act("Readings", "night")


@pytest.fixture(scope="module")
def noted(tmp_path_factory):
    """A keeper with these readings."""
    with open_or_begin(tmp_path_factory.mktemp("ten years") / "keeper") as store:
        with store.writing(ACT):
            for name, column in ten_years().items():
                trackers.add(store, Tracker(name, name, "mark" if name in MARKS else "amount", None, None, "", "neither", FIRST))
                its = ((FIRST + timedelta(days=day), value) for day, value in enumerate(column) if value is not None)
                trackers.note(store, (Reading(night, name, value) for night, value in its))
        yield store


def ask(store) -> None:
    """Ask in a process of its own."""
    asking.ask_apart(store, Clock(), lambda *_: None, lambda: False)


def test_bench_asking_all(noted, compared):
    values = {name: np.array(column, float) for name, column in ten_years().items()}

    def anew(_: int) -> None:
        with noted.writing() as connection:
            connection.execute("DELETE FROM pattern_found_told")
        ask(noted)

    compared("asking twenty trackers over ten years, kept", anew, lambda _: bare_loop(values, MARKS), rounds=3, target=2)


def test_bench_asking_again_where_one_night_changed(noted, compared):
    values = {name: np.array(column, float) for name, column in ten_years().items()}

    def one_more(number: int) -> None:
        trackers.note(noted, [Reading(FIRST, "first 0", 20.0 + number)], ACT)
        ask(noted)

    compared("the same, one reading changed", one_more, lambda _: bare_loop(values, MARKS), rounds=3, target=2)
