"""Giving and receiving on the command line."""

import csv

import pytest
from kept_things import NIGHT, fill

from keeper.actions.opening import open_or_begin
from keeper.actions.writing import set_place, write_line
from keeper.cli import named_keeper
from keeper.cli.command import DONE, WRONG, main
from keeper.store import lines


@pytest.fixture(autouse=True)
def _at_home(folder, store, clock, monkeypatch, tmp_path):
    monkeypatch.setenv("COLUMNS", "100")
    monkeypatch.setattr(named_keeper, "Clock", lambda: clock)
    fill(store, clock, tmp_path)


@pytest.fixture
def run(capsys):
    def do(*args: object) -> tuple[int, str, str]:
        status = main([str(one) for one in args], lambda *_, **__: DONE)
        told, complained = capsys.readouterr()
        return status, " ".join(told.split()), " ".join(complained.split())

    return do


def test_given_once_and_replaced_when_that_is_said(run, tmp_path):
    out = tmp_path / "out"
    status, told, aside = run("give", out)
    assert status == DONE and told.startswith("Given: 7 nights, 8 lines, 2 photos, in ") and aside == ""
    status, _, aside = run("give", out)
    assert status == WRONG and aside.endswith("already. It was left as it is.")
    assert run("give", out, "--replace", "--only", "text")[0] == DONE
    assert sorted(path.name for path in out.iterdir() if path.is_dir()) == ["data"]
    assert [path.name for path in (out / "data").iterdir()] == ["text"]


def test_a_name_that_ends_in_zip_makes_one_file_which_is_received(run, tmp_path):
    status, told, _ = run("give", tmp_path / "all.zip")
    assert status == DONE and told.startswith("Given: 7 nights") and (tmp_path / "all.zip").is_file()
    assert run("receive", tmp_path / "all.zip")[1] == "All that is in the archive is here already; nothing was changed."
    (tmp_path / "all.zip").write_bytes(b"PK")
    status, _, aside = run("receive", tmp_path / "all.zip")
    assert status == WRONG and "not a whole ZIP file" in aside


def test_what_is_no_archive_is_never_replaced(run, tmp_path):
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "dear.txt").write_text("x")
    status, _, aside = run("give", tmp_path / "letters", "--replace")
    assert status == WRONG and "is not an archive, so it was left as it is" in aside
    assert (tmp_path / "letters" / "dear.txt").read_text() == "x"


def test_a_span_without_positions_is_told_to_be_without_its_database(run, tmp_path):
    status, told, aside = run("give", tmp_path / "out", "--from", "2026-11-13", "--without-positions")
    assert status == DONE and told.startswith("Given: 2 nights, 3 lines, 2 photos")
    assert "The database is left out" in aside and "Stays and journeys are left out" in aside


def test_nothing_left_to_give_is_told(run, tmp_path):
    assert run("give", tmp_path / "out", "--only", "globe", "--without-positions")[2].startswith("Nothing is left to give.")
    assert not (tmp_path / "out").exists()


def test_received_by_another_keeper_with_what_differs_told(run, tmp_path, clock):
    run("give", tmp_path / "out")
    with open_or_begin(tmp_path / "other") as other:
        write_line(other, NIGHT, "memory", "The kettle was silent.", clock)
    other = ("--in", tmp_path / "other")
    status, told, aside = run(*other, "receive", tmp_path / "out", "--look")
    assert status == DONE and told.startswith("It would bring 6 nights, 7 lines, 2 photos")
    assert "2026-11-14, Memory. Here: The kettle was silent. In the archive: The kettle sang." in aside
    status, told, _ = run(*other, "receive", tmp_path / "out")
    assert (status, told) == (DONE, "Taken in: 6 nights, 7 lines, 2 photos. Where 1 thing differs, both are kept.")
    assert run(*other, "receive", tmp_path / "out")[1] == "All that is in the archive is here already; nothing was changed."
    run(*other, "receive", tmp_path / "out", "--theirs")
    with open_or_begin(tmp_path / "other") as store:
        assert lines.one(store, NIGHT, "memory").text == "The kettle sang."


def test_a_place_that_differs_is_told_by_its_name_before_anything_is_taken_in(run, store, tmp_path, clock):
    set_place(store, NIGHT, "Nidingen", clock)
    run("give", tmp_path / "out")
    with open_or_begin(tmp_path / "other") as other:
        set_place(other, NIGHT, "Hirtshals", clock)
    _, _, aside = run("--in", tmp_path / "other", "receive", tmp_path / "out", "--look")
    assert "2026-11-14, Place. Here: Hirtshals In the archive: Nidingen" in aside


def test_a_keeper_that_is_begun_with_it_receives_it(run, tmp_path):
    run("give", tmp_path / "out")
    assert run("--in", tmp_path / "other", "receive", tmp_path / "out")[2].endswith("say --begin before the command.")
    status, told, _ = run("--in", tmp_path / "other", "--begin", "receive", tmp_path / "out")
    assert (status, told) == (DONE, "Taken in: 7 nights, 8 lines, 2 photos.")


def test_a_folder_that_is_no_archive_is_told(run, tmp_path):
    status, _, aside = run("receive", tmp_path)
    assert status == WRONG and aside.startswith("This folder is not a whole archive")


def test_a_span_ends_with_the_last_night_of_the_month_that_is_said(run, tmp_path):
    month = f"{NIGHT:%Y-%m}"
    run("give", tmp_path / "month", "--from", month, "--to", month)
    run("give", tmp_path / "nights", "--from", f"{month}-01", "--to", f"{month}-30")
    texts = [(tmp_path / name / "data" / "text" / f"{NIGHT.year}.md").read_bytes() for name in ("month", "nights")]
    assert texts[0] == texts[1] and f"### {NIGHT:%A} {NIGHT.day} ".encode() in texts[0]


@pytest.mark.parametrize(("part", "told"), [
    ("photos", "2 photos. It was"), ("globe", "where each night was spent. It was"),
    ("calendar", "8 short texts and where each night was spent. It was"),
    ("text", "8 short texts, where each night was spent, and what was noted of it. It was"),
])  # fmt: skip
def test_a_part_alone_says_only_what_is_in_it(run, tmp_path, part, told):
    said = run("give", tmp_path / part, "--only", part)[1]
    assert ("photo" in said) == (part == "photos") and (" lines" in said) == (part in ("calendar", "text"))
    readme = (tmp_path / part / "README.md").read_text("utf-8")
    assert told in readme and "captions are in the texts" not in readme
    assert ("The captions are in data/tables/photos.csv." in readme) == (part == "photos")
    assert (tmp_path / part / "data" / "tables").exists() == (part == "photos")
    if part == "photos":
        with (tmp_path / part / "data" / "tables" / "photos.csv").open(encoding="utf-8", newline="") as file:
            photos = list(csv.DictReader(file))
        assert all((tmp_path / part / photo["file"]).is_file() for photo in photos) and "caption" in photos[0]
