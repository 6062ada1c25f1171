"""Damaged copies of a keeper: no line is altered, none is lost in silence, and what stands whole in the bytes comes back."""

import shutil
from pathlib import Path

import broken_keepers as broken
import pytest
from soundness import whole

from keeper.actions.damage import checking, mending
from keeper.store import open_store
from keeper.store.damage import building
from keeper.store.file.folder import FILE

COPIES, LINES = 12, 240
"""Each of the six damages twice, to each of two keepers; ``tests/bench`` has a thousand."""


@pytest.fixture(scope="module", params=["closed", "killed"])
def sound(request, tmp_path_factory) -> Path:
    """A keeper that was closed, and one that was left by a kill with a log."""
    room = tmp_path_factory.mktemp("sound")
    broken.make(room / "keeper", LINES)
    if request.param == "killed":
        broken.leave_a_log(room / "keeper", room / "killed")
        return room / "killed"
    return room / "keeper"


@pytest.fixture(scope="module")
def rows(sound, tmp_path_factory) -> dict:
    return broken.rows_of(shutil.copytree(sound, tmp_path_factory.mktemp("rows") / "keeper"))


@pytest.fixture(scope="module")
def empty(tmp_path_factory) -> Path:
    """What a mended keeper is begun with where there is no backup: the same each time."""
    made = tmp_path_factory.mktemp("empty") / FILE
    building.begin(made, None)
    return made


@pytest.fixture(autouse=True)
def begun_once(empty, monkeypatch):
    """To make it anew for each of a hundred copies takes longer than the mending."""
    begin = building.begin

    def begun(target: Path, backup: Path | None) -> None:
        if backup:
            begin(target, backup)
        else:
            shutil.copyfile(empty, target)

    monkeypatch.setattr(building, "begin", begun)


def check(sound: Path, folder: Path, rows: dict, number: int, with_backup: bool) -> tuple[int, int]:
    """Break a copy, look at it, mend it; how many lines stood whole in its bytes, and how many of them came back."""
    broken.break_a_copy(sound, folder, number, with_backup)
    if not mending.can_be_mended(folder):
        # Nothing is left by which it could be known.
        assert not broken.whole_in(folder, rows.payloads)
        return 0, 0
    stood = broken.whole_in(folder, rows.payloads)
    before = {file.name: file.read_bytes() for file in folder.iterdir() if file.is_file()}
    survey, made = broken.mended(folder)
    kept = {name: (next((folder / "broken").glob("*")) / name).read_bytes() for name in before if name != FILE + "-shm"}
    assert kept == {name: before[name] for name in kept}
    shown = broken.rows_of(folder)
    assert {key: row for key, row in shown.items() if rows.get(key) != row} == {}
    told = {one.key for one in survey.choice.doubtful} | {one.key for one in survey.choice.left_over} | set(survey.choice.missing)
    assert survey.may_lack_more or rows.keys() <= shown.keys() | told
    with open_store(folder) as store:
        assert whole(store) and not checking.look_over(store, broken.NIGHT) and not store.only_read
    assert made.lines == len(shown)
    return len(stood), len(stood & shown.keys())


@pytest.mark.parametrize("part", range(2))
def test_mended_copies_hold_what_stands_whole_in_their_bytes_and_nothing_else(sound, rows, folder, part):
    for number in range(part, COPIES, 2):
        stood, back = check(sound, folder, rows, number, with_backup=False)
        assert back >= 0.99 * stood, number


def test_with_a_backup_of_the_day_before_all_its_lines_come_back(sound, rows, folder):
    for number in range(0, COPIES, 5):
        check(sound, folder, rows, number, with_backup=True)
        old = {key for key, row in rows.items() if not row[3].startswith(("Of today", "In the log"))}
        assert old <= broken.rows_of(folder).keys(), number


def test_no_line_is_lost_in_silence_by_an_ordinary_opening(sound, rows, folder):
    found = {}
    for number in range(100, 100 + COPIES):
        broken.break_a_copy(sound, folder, number, with_backup=False)
        found[number] = broken.silently_lost(folder, rows)
    assert {number: lost for number, lost in found.items() if lost} == {}
