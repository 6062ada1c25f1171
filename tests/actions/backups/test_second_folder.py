"""A second folder for backups and a third: caught up when there, quiet when not, spoken of when old or failing."""

import shutil
from dataclasses import replace
from datetime import date, timedelta

import pytest
from kept_things import NIGHT, fill

from keeper.actions import writing
from keeper.actions.backups import listed
from keeper.actions.backups.folders import back_up_everywhere, choose, drop, every
from keeper.actions.backups.listing import listed_in
from keeper.errors import BadSetting, CannotWrite


@pytest.fixture
def filled(store, clock, tmp_path):
    return fill(store, clock, tmp_path)


@pytest.fixture
def stick(tmp_path):
    (tmp_path / "stick").mkdir()
    return tmp_path / "stick"


def later(clock, days: int):
    return replace(clock, at=clock.at + timedelta(days=days))


def names(place) -> list[str]:
    return [one.name for one in listed_in(place)]


def test_both_are_caught_up(filled, clock, stick, tmp_path, folder):
    (tmp_path / "disk").mkdir()
    second, third = choose(filled, "second", stick), choose(filled, "third", tmp_path / "disk")
    came = back_up_everywhere(filled, clock)
    assert came.said == "" and came.absent == () and not came.failed
    assert names(second) == names(third) == [one.name for one in listed(folder)] == ["2026-11-14"]
    assert [(one.which, one.there, one.last) for one in every(filled)] == [
        (which, True, date(2026, 11, 14)) for which in ("own", "second", "third")
    ]


def test_quiet_when_it_is_not_there_and_caught_up_when_it_is_again(filled, clock, stick, folder):
    place = choose(filled, "second", stick)
    back_up_everywhere(filled, clock)
    away = stick.rename(stick.with_name("away"))
    writing.write_line(filled, NIGHT, "reflection", "More.", clock)
    came = back_up_everywhere(filled, later(clock, 3))
    assert (came.said, [one.which for one in came.absent], came.failed) == ("", ["second"], False)
    away.rename(stick)
    back_up_everywhere(filled, later(clock, 4))
    assert names(place) == ["2026-11-18", "2026-11-14"]
    assert [one.name for one in listed(folder)] == ["2026-11-17", "2026-11-14"]


def test_where_a_disk_was_an_empty_folder_is_not_filled(filled, clock, stick):
    choose(filled, "second", stick)
    back_up_everywhere(filled, clock)
    shutil.rmtree(stick)
    stick.mkdir()
    assert [one.which for one in back_up_everywhere(filled, later(clock, 1)).absent] == ["second"]
    assert list(stick.iterdir()) == []


def test_it_is_spoken_of_after_thirty_days_and_then_once_a_week(filled, clock, stick):
    choose(filled, "second", stick)
    back_up_everywhere(filled, clock)
    shutil.rmtree(stick)
    told = {day: back_up_everywhere(filled, later(clock, day)).said for day in (30, 31, 32, 37, 38, 39)}
    assert [day for day, said in told.items() if said] == [31, 38]
    assert told[31].endswith("was last caught up on 14 November 2026.")


def test_one_that_was_never_there_since_it_was_chosen_is_not_spoken_of(filled, clock, stick):
    choose(filled, "second", stick)
    shutil.rmtree(stick)
    assert back_up_everywhere(filled, later(clock, 90)).said == ""


def test_a_full_stick_is_told_and_the_keepers_own_backup_made(filled, clock, small_disk, folder):
    choose(filled, "second", small_disk.path)
    small_disk.fill()
    came = back_up_everywhere(filled, clock)
    assert came.failed and "its disk is full. Free some space there." in came.said
    assert [one.name for one in listed(folder)] == ["2026-11-14"]
    small_disk.empty()
    assert back_up_everywhere(filled, clock).said == ""


def test_a_stick_closed_to_writing_is_told(filled, clock, small_disk):
    choose(filled, "second", small_disk.path)
    small_disk.close_to_writing()
    assert "closed to writing." in back_up_everywhere(filled, clock).said


def test_what_cannot_be_chosen_is_told(filled, stick, folder, small_disk):
    with pytest.raises(BadSetting, match="There is no folder"):
        choose(filled, "second", stick / "nowhere")
    for inside in (folder, folder / "photos"):
        with pytest.raises(BadSetting, match="in the keeper itself"):
            choose(filled, "second", inside)
    place = choose(filled, "second", stick)
    with pytest.raises(BadSetting, match="into that folder already"):
        choose(filled, "third", stick)
    assert choose(filled, "second", stick) == choose(filled, "second", place) == place
    small_disk.close_to_writing()
    with pytest.raises(CannotWrite, match="closed to writing"):
        choose(filled, "third", small_disk.path)


def test_dropped_it_is_left_alone(filled, clock, stick):
    place = choose(filled, "second", stick)
    back_up_everywhere(filled, clock)
    drop(filled, "second")
    writing.write_line(filled, NIGHT, "reflection", "More.", clock)
    back_up_everywhere(filled, later(clock, 1))
    assert names(place) == ["2026-11-14"] and [one.which for one in every(filled)] == ["own"]
