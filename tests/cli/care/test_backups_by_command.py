"""Backups on the command line, and other keepers."""

import shutil
from datetime import date

import pytest
from kept_things import NIGHT, fill
from soundness import whole

from keeper.actions import opening
from keeper.actions.backups import listed
from keeper.actions.keepers import known
from keeper.actions.writing import write_line
from keeper.cli.command import DONE, MISUSED, WRONG, main
from keeper.dates.written import size
from keeper.store import lines, open_store


@pytest.fixture(autouse=True)
def _begun(clock_stands, store, clock, monkeypatch, tmp_path):
    monkeypatch.setenv("COLUMNS", "100")
    fill(store, clock, tmp_path)


@pytest.fixture
def run(capsys):
    def do(*args: str) -> tuple[int, str, str]:
        status = main(args, lambda *_, **__: DONE)
        told, complained = capsys.readouterr()
        return status, " ".join(told.split()), " ".join(complained.split())

    return do


def test_made_and_listed(run, folder, capsys):
    assert run("backups") == (WRONG, "", "There are no backups yet.")
    status, told, _ = run("backups", "--now")
    assert (status, told) == (DONE, f"Backed up: {folder / 'backups' / '2026-11-14 22.30.00'}.")
    assert main(["backups"], lambda *_, **__: DONE) == DONE
    (one,) = listed(folder)
    fields = ["2026-11-14 22.30.00", "7", "8", "2", "2026-11-14", str(one.bytes), "daily"]
    assert capsys.readouterr().out == "\t".join(fields) + "\n"


def test_laid_out_in_a_terminal(run, folder, monkeypatch, capsys):
    run("backups", "--now")
    (folder / "backups" / "2020-01-01").mkdir()
    (folder / "backups" / "2020-01-01" / "keeper.db").write_bytes(b"none")
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)
    _, told, _ = run("backups")
    assert "7 nights, 8 lines, 2 photos, to Sat 14 Nov 2026, " in told and told.endswith("2020-01-01 cannot be read")


def test_a_look_inside(run, store, clock):
    run("backups", "--now")
    assert "holds 7 nights, 8 lines, 2 photos. The keeper holds all of it." in run("backups", "latest")[1]
    write_line(store, NIGHT, "memory", "The kettle was silent.", clock)
    assert "The keeper holds less, or other words, of 1 night: 2026-11-14." in run("backups", "2026-11-14")[1]
    told = run("backups", "latest", "--night", "2026-11-14")[1]
    assert "Saturday 14 November 2026, Riga" in told and "The kettle sang." in told
    assert run("backups", "--night", "2026-11-14")[0] == MISUSED
    assert run("backups", "2020-01-01")[2].startswith("There is no backup \u201c2020-01-01\u201d.")


def test_brought_back_whole(run, store, clock, folder):
    run("backups", "--now")
    write_line(store, NIGHT, "memory", "The kettle was silent.", clock)
    status, told, _ = run("bring-back", "latest")
    aside = folder / "backups" / "2026-11-14 22.30.00 aside"
    assert (status, told) == (DONE, f"Brought back: the keeper as of Saturday 14 November 2026. What was there is kept in {aside}.")
    assert lines.one(store, NIGHT, "memory").text == "The kettle sang." and aside.is_dir()


def test_only_some_nights(run, store, clock):
    run("backups", "--now")
    for night in (NIGHT, NIGHT.replace(day=13)):
        write_line(store, night, "gratitude", "Other words.", clock)
    status, told, _ = run("bring-back", "latest", "--night", "2026-11-13")
    assert status == DONE and told.startswith("Brought back: Friday 13 November 2026, with 1 line.")
    assert lines.one(store, NIGHT, "gratitude").text == "Other words."
    assert lines.one(store, date(2026, 11, 13), "gratitude").text.startswith("Tuned")


def test_over_a_broken_keeper_and_where_it_is_gone(run, store, folder, tmp_path):
    run("backups", "--now")
    store.close()
    (folder / "keeper.db").write_bytes(b"broken" * 500)
    assert run("bring-back", "latest")[0] == DONE
    kept = folder / "backups" / "2026-11-14 22.30.01 unreadable" / "keeper.db"
    assert next(kept.parent.parent.glob("* unreadable/keeper.db")).read_bytes() == b"broken" * 500
    shutil.move(folder / "backups", tmp_path / "stick")
    shutil.rmtree(folder)
    assert run("bring-back", "latest")[0] == WRONG
    assert run("bring-back", "latest", "--from", str(tmp_path / "stick"))[0] == DONE
    with open_store(folder) as again:
        assert whole(again) and lines.count(again) == 8


def test_over_a_keeper_that_opens_but_is_damaged(run, store, folder):
    run("backups", "--now")
    store.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    page = store.row("SELECT rootpage FROM sqlite_master WHERE name = 'line'")[0]
    store.close()
    with open(folder / "keeper.db", "rb+") as file:
        file.seek((page - 1) * 4096)
        file.write(b"\xff" * 4096)
    assert run("bring-back", "latest")[0] == DONE
    with open_store(folder) as again:
        assert whole(again) and lines.count(again) == 8
    assert list((folder / "backups").glob("* unreadable"))


def test_a_stick_or_a_keepers_folder_may_be_named(run, store, folder, tmp_path):
    run("backups", "--now")
    shutil.copytree(folder / "backups", tmp_path / "stick" / "keeper-backups-0a1b2c3d")
    for named in (tmp_path / "stick", tmp_path / "stick" / "keeper-backups-0a1b2c3d", folder):
        assert run("backups", "--from", str(named))[0] == DONE
    assert run("backups", "--from", str(tmp_path)) == (WRONG, "", f"There are no backups in {tmp_path}.")


def test_keepers_listed_and_taken_off(run, folder, tmp_path):
    assert run("keepers") == (WRONG, "", "No keeper was opened in a window yet.")
    known.note(folder, NIGHT)
    known.note(tmp_path / "gone", NIGHT.replace(day=1))
    assert run("keepers")[1] == f"{folder} 2026-11-14 {tmp_path / 'gone'} 2026-11-01 gone"
    assert run("keepers", "--forget", str(tmp_path / "gone"))[0] == DONE
    assert run("keepers")[1] == f"{folder} 2026-11-14"
    assert run("keepers", "--forget", str(tmp_path / "gone"))[0] == WRONG


def test_moved(run, store, folder, tmp_path):
    assert run("move-keeper", str(tmp_path / "disk"))[2].startswith(f"The keeper in {folder} is open in another program")
    store.close()
    assert run("move-keeper", str(tmp_path / "disk")) == (DONE, f"The keeper lies in {tmp_path / 'disk'} now.", "")
    assert run("where")[1] == str(tmp_path / "disk") and opening.has_keeper(tmp_path / "disk") and not folder.exists()


def test_sizes_are_told_in_round_numbers():
    told = {1: "1 byte", 999: "999 bytes", 1000: "1 kB", 9_940: "9.9 kB", 9_960: "10 kB", 120_400: "120 kB", 999_499: "999 kB",
            999_500: "1 MB", 3_400_000: "3.4 MB", 25_000_000: "25 MB", 1_200_000_000: "1.2 GB"}  # fmt: skip
    assert {many: size(many) for many in told} == told
