"""Beginning a keeper: what another program began stays, and what is in the way is told of."""

import os
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from keeper.actions import opening
from keeper.errors import CannotWrite, KeeperError, NotAKeeper
from keeper.store import create_store, lines, open_store
from keeper.store.file.opening import FILE

NIGHT = date(2026, 11, 14)

SLOW = """
import os, sys, time
from pathlib import Path

def late(act):
    # Between the look whether the name is taken and the taking of it, in whatever way.
    def wait_and_act(*given, **told):
        if FILE in str(given[1]):
            print("about to", flush=True)
            sys.stdin.readline()
        return act(*given, **told)
    return wait_and_act

FILE = "keeper.db"
os.link = late(os.link) if {links} else late(lambda *_: (_ for _ in ()).throw(PermissionError(1, "no links here")))
Path.replace = late(Path.replace)
from keeper.actions.opening import open_or_begin
store = open_or_begin(Path(sys.argv[1]))
print(store.rows("SELECT text FROM line"), flush=True)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="names are given differently there")
@pytest.mark.parametrize("links", [True, False])
def test_a_line_kept_in_a_keeper_begun_meanwhile_stays(folder, clock, links):
    slow = subprocess.Popen([sys.executable, "-c", SLOW.format(links=links), folder], stdin=subprocess.PIPE,
                            stdout=subprocess.PIPE, text=True)  # fmt: skip
    assert slow.stdout.readline() == "about to\n"
    with opening.open_or_begin(folder) as store:
        store.connection.execute("BEGIN IMMEDIATE")
        store.connection.execute("INSERT INTO night (date, begun_at) VALUES ('2026-11-14', '2026-11-14T20:00:00Z')")
        store.connection.execute(
            "INSERT INTO line (number, id, night, kind, text, folded, written_at, offset_minutes, zone) VALUES (1, 'l', '2026-11-14', 'memory', 'Acknowledged.', NULL, '2026-11-14T20:00:00Z', 0, '')"
        )
        store.connection.execute("COMMIT")
    told, _ = slow.communicate("go\n", timeout=200)
    assert told == "[('Acknowledged.',)]\n"
    with open_store(folder) as store:
        assert [line.text for line in lines.of_night(store, NIGHT)] == ["Acknowledged."]
    assert not list(folder.glob("*.new*"))


def no_links(*_: object) -> None:
    raise PermissionError(1, "Operation not permitted")


def test_a_disk_without_links_takes_a_keeper_too(folder, monkeypatch):
    monkeypatch.setattr(os, "link", no_links)
    create_store(folder).close()
    with pytest.raises(NotAKeeper, match="already"):
        create_store(folder)
    with open_store(folder) as store:
        assert store.row("PRAGMA journal_mode") == ("wal",)


def pipe(path: Path) -> None:
    os.mkfifo(path)


def link_to_nothing(path: Path) -> None:
    path.symlink_to(path.parent / "a disk that is not there" / FILE)


IN_THE_WAY = {"it is a folder, not a keeper": Path.mkdir, "it is a pipe, not a keeper": pipe,
              r"it is a link to .*, which is not there\. That disk may not be connected": link_to_nothing}  # fmt: skip


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has neither")
@pytest.mark.parametrize("act", [opening.open_or_begin, opening.open_kept, opening.has_keeper])
@pytest.mark.parametrize("told", IN_THE_WAY)
def test_what_has_the_files_name_and_is_none_is_called_what_it_is_and_left(folder, act, told):
    folder.mkdir()
    IN_THE_WAY[told](folder / FILE)
    before = (folder / FILE).lstat().st_ino
    with pytest.raises(NotAKeeper, match=f"is in the way: {told}. It was left as it is"):
        act(folder)
    assert (folder / FILE).lstat().st_ino == before
    assert os.listdir(folder) == [FILE]


NO_FOLDER = {"it is a file, not a folder": Path.touch, "it is a pipe, not a folder": pipe,
             "it is a link to .*, which is not there": link_to_nothing}  # fmt: skip


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has neither")
@pytest.mark.parametrize("told", NO_FOLDER)
def test_what_has_the_folders_name_and_is_none_is_called_what_it_is(folder, told):
    NO_FOLDER[told](folder)
    with pytest.raises(CannotWrite, match=f"A keeper cannot be made in .*: {told}"):
        opening.open_or_begin(folder)
    with pytest.raises(NotAKeeper, match=f"There is no keeper in .*: {told}"):
        opening.open_kept(folder)


def test_earlier_copies_are_spoken_of_only_where_there_are_any(folder):
    folder.mkdir()
    (folder / FILE).write_text("a note " * 100)
    for backup in (False, True):
        if backup:
            (folder / "backups").mkdir()
            (folder / "backups" / "one.db").write_bytes(b"a copy")
        with pytest.raises(KeeperError) as refused:
            opening.open_kept(folder)
        assert ("arlier copies" in str(refused.value)) == backup


def test_a_keeper_is_begun_unasked_only_in_the_usual_folder_and_only_the_first_time(folder, tmp_path, clock):
    assert opening.begins_unasked(folder)
    assert not opening.begins_unasked(tmp_path / "another")
    create_store(folder).close()
    (folder / FILE).unlink()
    assert opening.begins_unasked(folder)
    (folder / "photos" / "ab").mkdir()
    assert not opening.begins_unasked(folder)
    assert opening.none_yet(folder) == f"There is no keeper in {folder}, though something lies in its photos."
