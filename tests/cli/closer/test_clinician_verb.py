"""The verb that makes a page for a clinician."""

import csv
from datetime import date, timedelta

import pytest

from keeper.actions import opening
from keeper.cli import named_keeper
from keeper.cli.command import DONE, MISUSED, WRONG, main
from keeper.model import Act, Reading, Tracker
from keeper.store import trackers


@pytest.fixture(autouse=True)
def _at_home(folder, store, clock, monkeypatch, tmp_path):
    monkeypatch.setenv(opening.WHERE, str(folder))
    monkeypatch.setenv("COLUMNS", "300")
    monkeypatch.setattr(named_keeper, "Clock", lambda: clock)
    monkeypatch.chdir(tmp_path)
    for name in ("mood", "stress"):
        trackers.add(store, Tracker(name, name, "scale", 0.0, 10.0, "", "neither", date(2026, 1, 1)), Act("Readings"))
        nights = [date(2026, 7, 1) + timedelta(n) for n in range(137)]
        trackers.note(store, [Reading(night, name, float(night.day % 7)) for night in nights], Act("Readings"))


@pytest.fixture
def run(capsys):
    def do(*args: str) -> tuple[int, str, str]:
        status = main(args, lambda *_, **__: DONE)
        return status, *capsys.readouterr()

    return do


def test_both_are_made_and_told(run, tmp_path):
    status, told, complained = run("clinician", "--from", "2026-09-01", "--until", "2026-10", "--reading", "moo", "--pdf", "a.pdf", "--csv", "a.csv")
    assert (status, complained) == (DONE, "")
    assert " ".join(told.split()) == f"1 page in {tmp_path / 'a.pdf'}. 61 nights in {tmp_path / 'a.csv'}."
    assert (tmp_path / "a.pdf").read_bytes().startswith(b"%PDF")
    with (tmp_path / "a.csv").open(encoding="utf-8", newline="") as file:
        heads, first, *_ = csv.reader(file)
    assert heads == ["row", "night", "mood"] and first == ["night", "2026-09-01", "1"]


def test_by_itself_it_is_the_last_three_months_of_all_readings(run, tmp_path):
    assert run("clinician", "--csv", "all.csv")[0] == DONE
    with (tmp_path / "all.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.reader(file))
    assert rows[0] == ["row", "night", "mood", "stress"] and rows[1][1] == "2026-08-16"


def test_one_that_was_taken_up_again_is_one_reading_with_both_its_parts(run, store, tmp_path):
    trackers.change(store, Tracker("mood", "mood", "scale", 0.0, 10.0, "", "neither", date(2026, 1, 1), date(2026, 10, 31)), Act("Mood"))
    trackers.add(store, Tracker("again", "mood", "scale", 0.0, 10.0, "", "neither", date(2026, 11, 1)), Act("Mood"))
    trackers.note(store, [Reading(date(2026, 11, 2), "again", 5.0)], Act("Mood"))
    assert run("clinician", "--reading", "mood", "--csv", "both.csv")[0] == DONE
    told = (tmp_path / "both.csv").read_bytes()
    assert told.startswith(b"row,night,mood\r\n") and b"\r\nnight,2026-08-17,3\r\n" in told and b"\r\nnight,2026-11-02,5\r\n" in told


def test_a_file_that_is_there_stays_unless_it_may_be_replaced(run, tmp_path):
    (tmp_path / "a.csv").write_text("mine")
    status, _, complained = run("clinician", "--csv", "a.csv")
    assert status == WRONG and complained == "There is a file a.csv already. To replace it, say --replace.\n"
    assert (tmp_path / "a.csv").read_text() == "mine"
    assert run("clinician", "--csv", "a.csv", "--replace")[0] == DONE


@pytest.mark.parametrize(("args", "status", "said"), [
    ((), MISUSED, "--pdf FILE, --csv FILE, or both"), (("--csv", "x", "--reading", "gone"), WRONG, "There is no reading \u201cgone\u201d"),
    (("--csv", "x", "--from", "2026-10-09", "--until", "2026-10-01"), WRONG, "comes before the first"),
    (("--csv", "x", "--from", "2020-01-01", "--until", "2020-02-01"), WRONG, "at least one reading"),
    (("--csv", "missing/x.csv"), WRONG, "cannot be put into"), (("--csv", "x", "--from", "soonish"), WRONG, "not a date"),
])  # fmt: skip
def test_what_cannot_be_is_told_in_a_sentence(run, args, status, said, tmp_path):
    found, told, complained = run("clinician", *args)
    assert (found, told) == (status, "") and said in complained and "Traceback" not in complained
    assert not (tmp_path / "x").exists()
