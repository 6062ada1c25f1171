"""Backups made by themselves: once a day when something changed, thinned out, and told of when they fail."""

import shutil
from dataclasses import replace
from datetime import timedelta

import pytest
from kept_things import NIGHT, fill

from keeper.actions import writing
from keeper.actions.backups import listed, making
from keeper.actions.backups.listing import is_good, named
from keeper.errors import Stopped, UnknownThing
from keeper.store.backups.place import alone
from keeper.store.photos import known


@pytest.fixture
def filled(store, clock, tmp_path):
    return fill(store, clock, tmp_path)


def later(clock, days: int):
    return replace(clock, at=clock.at + timedelta(days=days))


def back_up(store, clock) -> making.BackedUp:
    return making.back_up_if_due(store, making.own_place(store), clock)


def names(folder) -> list[str]:
    return [one.name for one in listed(folder)]


def test_the_first_is_made_at_once_and_no_second_the_same_day(filled, clock, folder):
    assert back_up(filled, clock).made.path == folder / "backups" / "2026-11-14" / "keeper.db"
    writing.write_line(filled, NIGHT, "reflection", "More.", clock)
    assert back_up(filled, clock) == making.BackedUp(folder / "backups")
    assert names(folder) == ["2026-11-14"]


def test_the_next_day_only_when_something_changed(filled, clock, folder):
    back_up(filled, clock)
    assert back_up(filled, later(clock, 1)).made is None
    writing.write_line(filled, NIGHT, "reflection", "More.", clock)
    assert back_up(filled, later(clock, 2)).made
    assert names(folder) == ["2026-11-16", "2026-11-14"]
    assert [one.lines for one in listed(folder)] == [9, 8]
    assert all(is_good(one) for one in listed(folder))


def test_they_are_thinned_out(filled, clock, folder):
    # Those of the last ten days, the last of weeks and months, and some of those between them.
    for day in (0, 9, 16, 24, 40, 47, 48, 50, 54, 57, *range(60, 70)):
        writing.write_line(filled, NIGHT, "reflection", f"Day {day}.", clock)
        assert back_up(filled, later(clock, day)).made
    assert names(folder) == [
        "2027-01-22", "2027-01-21", "2027-01-20", "2027-01-19", "2027-01-18", "2027-01-17", "2027-01-16", "2027-01-10",
        "2027-01-03", "2026-12-31", "2026-11-30",
    ]  # fmt: skip


def test_of_one_day_the_newest_stays(filled, clock, folder):
    back_up(filled, clock)
    making.back_up_now(filled, making.own_place(filled), clock)
    making.back_up_now(filled, making.own_place(filled), replace(clock, at=clock.at + timedelta(minutes=5)))
    assert names(folder) == ["2026-11-14 22.35.00"]


def test_what_was_kept_aside_or_made_before_an_upgrade_is_not_thinned_out(filled, clock, folder):
    making.keep_aside(filled, clock)
    back_up(filled, clock)
    shutil.copy(folder / "backups" / "2026-11-14" / "keeper.db", folder / "backups" / "before-upgrade-from-1.db")
    for day in range(1, 40, 4):
        writing.write_line(filled, NIGHT, "reflection", f"Day {day}.", clock)
        back_up(filled, later(clock, day))
    kinds = {one.kind: one.name for one in listed(folder) if one.kind != "daily"}
    assert kinds == {"aside": "2026-11-14 22.30.00 aside", "upgrade": "before-upgrade-from-1"}


def test_one_that_fails_is_told_in_a_sentence(filled, clock, folder):
    shutil.rmtree(folder / "backups")
    (folder / "backups").write_text("a file, not a folder")
    outcome = back_up(filled, clock)
    assert outcome.made is None and outcome.told.endswith(".")
    assert "was not made" in outcome.told


def test_photos_that_are_lacking_are_told(filled, clock):
    known.file_of(filled, known.every(filled)[0]).unlink()
    assert "1 photo is not in it, since its file is gone or damaged." in back_up(filled, clock).told


def test_while_another_program_backs_up_nothing_is_told(filled, clock, folder):
    with alone(folder / "backups", folder):
        assert back_up(filled, clock) == making.BackedUp(folder / "backups")


def test_stopped_it_says_so(filled, clock):
    with pytest.raises(Stopped):
        making.back_up_if_due(filled, making.own_place(filled), clock, stopped=lambda: True)


def test_named_by_day_or_name_or_as_the_latest(filled, clock, folder):
    back_up(filled, clock)
    making.keep_aside(filled, later(clock, 3))
    those = listed(folder)
    assert named(those, "latest").name == "2026-11-17 22.30.00 aside"
    assert named(those, "2026-11-14").name == "2026-11-14"
    with pytest.raises(UnknownThing, match="no backup"):
        named(those, "yesterday")
