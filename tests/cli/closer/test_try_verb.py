"""Finding out by trying, on the command line."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from keeper.actions import opening
from keeper.actions.trying import beginning
from keeper.actions.trying.beginning import WantedPlan
from keeper.cli import named_keeper
from keeper.cli.command import DONE, MISUSED, WRONG, main
from keeper.clock import StoppedClock
from keeper.model import Act, Reading, Tracker
from keeper.store import trackers
from keeper.store.trying import plans

TONIGHT = date(2026, 11, 14)


@pytest.fixture(autouse=True)
def _at_home(folder, store, clock, monkeypatch):
    monkeypatch.setenv(opening.WHERE, str(folder))
    monkeypatch.setenv("COLUMNS", "1000")
    monkeypatch.setattr(named_keeper, "Clock", lambda: clock)
    for name, form, ends in (("tea", "mark", (None, None)), ("mood", "scale", (0.0, 10.0))):
        trackers.add(store, Tracker(name, name, form, *ends, "", "neither", date(2025, 1, 1)), Act("Readings"))
    nights = [TONIGHT - timedelta(n) for n in range(1, 200)]
    trackers.note(store, [Reading(night, "mood", float(night.day % 7)) for night in nights], Act("Readings"))


@pytest.fixture
def run(capsys):
    def do(*args: str) -> tuple[int, str, str]:
        status = main(args, lambda *_, **__: DONE)
        return status, *capsys.readouterr()

    return do


def in_one_row(told: str) -> str:
    return " ".join(told.split())


def test_nothing_begins_until_it_is_confirmed(run, store):
    status, told, _ = run("try", "--begin", "tea", "--see", "mood")
    assert status == DONE and "such tryings would tell it from chance" in told
    assert "Never try a medicine" in told and "Nothing has begun" in told and not plans.every(store)


def test_begun_shown_and_stopped(run, store):
    status, told, _ = run("try", "--begin", "tea", "--see", "moo", "--blocks", "10", "--nights", "3", "--night-after", "--from", "tonight", "--no-treatment")
    (one,) = plans.every(store)
    told = in_one_row(told)
    assert status == DONE and (len(one.withs), one.length, one.later, one.first) == (10, 3, 1, TONIGHT)
    how = "with" if one.withs[0] else "without"
    assert f"The lot is drawn. “tea”, and mood the night after: 10 blocks of 3 nights, 14 Nov 2026 to 13 Dec 2026. Tonight: {how} “tea”, " in told
    status, told, aside = run("try")
    assert (status, told) == (DONE, "tea\tmood\t2026-11-14\t2026-12-13\t10\t3\t\t\t\t\t\n")
    assert aside.startswith("A record, not a diagnosis")
    assert run("try", "--stop")[1] == "“tea” is not tried; no night of it was lived yet.\n"
    assert run("try", "--stop") == (WRONG, "", "Nothing is tried now.\n")
    assert run("try") == (WRONG, "", "Nothing was tried yet.\n")


def test_by_itself_it_begins_tomorrow(run, store):
    told = in_one_row(run("try", "--begin", "tea", "--see", "mood", "--no-treatment")[1])
    assert plans.every(store)[0].first == TONIGHT + timedelta(1) and "It begins on 15 November 2026." in told


def test_what_came_of_it_is_a_row_in_a_pipe(run, store, monkeypatch):
    first = TONIGHT - timedelta(60)
    one = beginning.begin(store, WantedPlan("tea", "mood", first, 8, 7), 3, first, agreed=True)
    withs = [side for side in one.withs for _ in range(7)]
    trackers.note(store, [Reading(first + timedelta(n), "mood", 7.0 if side else 4.0) for n, side in enumerate(withs)], Act("Mood"))
    cells = run("try")[1].rstrip("\n").split("\t")
    # All draws but the one there was and its opposite are less far apart: 2 of 70.
    assert cells[6:] == ["over", "3", "3", "3", "0.0285714"]
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)
    told = in_one_row(run("try")[1])
    assert "Mood was on average 3 higher on 28 nights drawn to be with “tea” than on 28 without (between 3 and 3)." in told
    assert "3 % of all 70 ways" in told and "p = 0.029" in told and "That stands out from chance." in told


def test_another_clock_tells_the_night_of_the_plan(run, store, monkeypatch):
    beginning.begin(store, WantedPlan("tea", "mood", TONIGHT, 8, 7), 3, TONIGHT, agreed=True)
    later = StoppedClock(datetime(2026, 11, 23, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")
    monkeypatch.setattr(named_keeper, "Clock", lambda: later)
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)
    told = in_one_row(run("try")[1])
    assert "night 3 of 7 in block 2 of 8" in told and "at the end, or when it is stopped" in told


@pytest.mark.parametrize(("args", "status", "said"), [
    (("--begin", "tea"), MISUSED, "give both"), (("--begin", "tea", "--see", "mood", "--stop"), MISUSED, "not both"),
    (("--begin", "mood", "--see", "tea"), WRONG, "yes or no"), (("--begin", "tea", "--see", "gone"), WRONG, "There is no reading"),
    (("--begin", "tea", "--see", "mood", "--nights", "15"), WRONG, "1 to 14 nights"),
    (("--begin", "tea", "--see", "mood", "--from", "2026-01-01"), WRONG, "tonight or within a month"),
])  # fmt: skip
def test_what_cannot_be_is_told_in_a_sentence(run, store, args, status, said):
    found, told, complained = run("try", *args)
    assert (found, told) == (status, "") and said in complained and not plans.every(store)
