"""Mending from the command line: told first, done when it is said; what never was a keeper is left alone."""

import random
import shutil
from datetime import date, timedelta

import pytest

from keeper.actions import writing
from keeper.cli.command import DONE, WRONG, main
from keeper.store import create_store, lines, open_store
from keeper.store.file.folder import DAMAGE, FILE

NIGHT = date(2026, 11, 14)


pytestmark = pytest.mark.usefixtures("clock_stands")


@pytest.fixture
def filled(folder, clock):
    """A keeper with thirty lines, closed."""
    with create_store(folder) as store:
        for n in range(30):
            writing.write_line(store, NIGHT - timedelta(days=n), "memory", f"The kettle sang {n}.", clock)
    return folder


@pytest.fixture
def run(capsys):
    """Runs a verb; what it returned, told and said aside."""

    def ran(folder, *verb):
        status = main(["--in", str(folder), *verb], lambda *_, **__: DONE)
        out = capsys.readouterr()
        assert "Traceback" not in out.err and "unexpected" not in out.err
        return status, out.out, out.err

    return ran


def changed(folder, was: bytes, now: bytes) -> None:
    data = (folder / FILE).read_bytes()
    assert data.count(was) == 1 and len(was) == len(now)
    (folder / FILE).write_bytes(data.replace(was, now))


def test_nothing_is_wrong(filled, run):
    assert run(filled, "mend") == (DONE, f"Nothing is wrong with the keeper in {filled}.\n", "")
    assert not (filled / "broken").exists()


def test_nothing_is_kept_in_a_keeper_that_is_found_broken(filled, run, tmp_path):
    changed(filled, b"sang 3.", b"sank 3.")
    status, out, err = run(filled, "write", "Swam.", "--night", "2026-11-14", "--kind", "g")
    assert status == WRONG and out == ""
    assert "1 line is not as it was written" in err and "keeper mend" in err and "A copy of the words is in" in err
    assert (filled / DAMAGE).exists()
    # What is readable is shown.
    status, out, err = run(filled, "show", "2026-11-14")
    assert status == DONE and "The kettle sang 0." in out and "damaged" in err


def test_what_is_done_in_a_mended_keeper_can_be_undone_and_so_what_was_done_before(filled, run):
    changed(filled, b"sang 3.", b"sank 3.")
    run(filled, "mend", "--now", "--doubtful")
    assert run(filled, "write", "Swam.", "--night", "2026-11-14", "--kind", "g")[0] == DONE
    assert run(filled, "undo")[1] == "Took back: Gratitude for the night of 14 November 2026.\n"
    assert run(filled, "undo")[1] == "Took back: Memory for the night of 16 October 2026.\n"
    with open_store(filled) as store:
        assert lines.count(store) == 29 and store.row("SELECT count(*) FROM act")[0] == 31


def test_where_the_history_is_read_in_part_none_of_it_is_undone(filled, run):
    with open_store(filled) as store, store.unnoted() as connection:
        connection.execute("DROP TABLE act_more")
    changed(filled, b"sang 3.", b"sank 3.")
    run(filled, "mend", "--now", "--doubtful")
    with open_store(filled) as store:
        assert store.row("SELECT count(*) FROM act")[0] == 0 and store.row("SELECT count(*) FROM change")[0] == 0


def test_told_first_then_done(filled, run):
    changed(filled, b"sang 3.", b"sank 3.")
    before = (filled / FILE).read_bytes()
    status, out, _ = run(filled, "mend")
    assert status == DONE and "29 lines are as they were written." in out and "The kettle sank 3." in out
    assert "Nothing was changed." in out and (filled / FILE).read_bytes() == before and not (filled / "broken").exists()
    status, out, _ = run(filled, "mend", "--now", "--doubtful")
    assert status == DONE and "holds 30 lines" in out
    assert run(filled, "mend")[1].startswith("Nothing is wrong")
    assert run(filled, "write", "Swam.", "--night", "2026-11-14", "--kind", "g")[0] == DONE


@pytest.mark.parametrize("how", ["torn", "cut", "noise in front", "empty but for a backup"])
def test_what_sqlite_refuses_is_offered_mending(filled, run, how):
    data = bytearray((filled / FILE).read_bytes())
    if how == "torn":
        data[:100] = bytes(100)
    elif how == "cut":
        # Inside of a page, and the header's size is no longer so.
        del data[-7000:]
        data[20:40] = b"\xff" * 20
    elif how == "noise in front":
        data[:60] = random.Random(2).randbytes(60)
    else:
        (filled / "backups" / "2026-11-13").mkdir()
        shutil.copy(filled / FILE, filled / "backups" / "2026-11-13" / FILE)
        data = bytearray()
    (filled / FILE).write_bytes(data)
    status, _, err = run(filled, "show", "2026-11-14")
    assert status == WRONG and err.endswith("What can be saved of it is told by: keeper mend.\n")
    status, out, _ = run(filled, "mend", "--now")
    assert status == DONE and "holds 30 lines" in out
    with open_store(filled) as store:
        assert lines.count(store) == 30


@pytest.mark.parametrize("content", [b"", b"Dear sister, " * 400, b"SQLite format 3\0" + bytes(40), random.Random(3).randbytes(9000)])
def test_what_never_was_a_keeper_is_left_alone(folder, run, content):
    folder.mkdir()
    (folder / FILE).write_bytes(content)
    assert "keeper mend" not in run(folder, "show")[2]
    status, _, err = run(folder, "mend", "--now")
    assert status == WRONG and "was left as it is" in err
    assert {file.name: file.read_bytes() for file in folder.iterdir()} == {FILE: content}


def test_where_there_is_none_there_is_none_to_mend(tmp_path, run):
    status, _, err = run(tmp_path / "nowhere", "mend")
    assert status == WRONG and "There is no keeper" in err


def test_another_program_that_has_it_open_is_not_robbed_of_it(filled, run):
    import subprocess
    import sys

    changed(filled, b"sang 3.", b"sank 3.")
    script = "import sqlite3, sys; c = sqlite3.connect(sys.argv[1]); c.execute('SELECT count(*) FROM line').fetchone(); print('.', flush=True); input()"
    with subprocess.Popen([sys.executable, "-c", script, filled / FILE], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout.readline() == ".\n"
        status, _, err = run(filled, "mend", "--now")
        assert status == WRONG and "Another program has the keeper" in err
        other.communicate("\n")
    # It waited, and comes with the next opening.
    assert "The kettle sang 0." in run(filled, "show", "2026-11-14")[1]
    with open_store(filled) as store:
        assert not store.only_read and lines.count(store) == 29


