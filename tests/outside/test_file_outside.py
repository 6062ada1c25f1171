"""The file, as SQLite itself and its documentation see it (sqlite.org).

Looked at through a connection of its own, not through the program.
"""

import re
import shutil
import sqlite3
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from keeper.actions import opening, writing
from keeper.clock import StoppedClock
from keeper.model import KINDS
from keeper.store import open_store
from keeper.store.file.opening import back_up

NIGHT = date(2026, 11, 14)


@pytest.fixture(scope="module")
def made(tmp_path_factory) -> Path:
    """A keeper in which lines came, changed and went, closed."""
    folder, clock = tmp_path_factory.mktemp("made") / "keeper", StoppedClock(datetime(2026, 11, 14, 22, tzinfo=UTC))
    with opening.open_or_begin(folder) as store, store.writing():
        for n in range(120):
            night = NIGHT - timedelta(days=n)
            writing.set_place(store, night, f"Town {n % 7}", clock)
            for kind in KINDS[: n % 4]:
                writing.write_line(store, night, kind, f"The ferry of day {n}, \u00e6r\u00f8 \u65e5.", clock)
        writing.write_line(store, NIGHT - timedelta(days=3), "memory", "Changed.", clock)
        writing.write_line(store, NIGHT - timedelta(days=5), "gratitude", "", clock)
        writing.keep_draft(store, NIGHT, "memory", "On its w", clock)
    return folder


@pytest.fixture
def file(made, folder):
    """A plain connection to a copy of it."""
    shutil.copytree(made, folder)
    connection = sqlite3.connect(folder / "keeper.db")
    yield connection
    connection.close()


# Source: "PRAGMA Statements", integrity_check: a single row "ok" (it also
# checks NOT NULL, CHECK and STRICT types).
def test_integrity_check(file):
    assert file.execute("PRAGMA integrity_check").fetchall() == [("ok",)]


# Source: "PRAGMA Statements", foreign_key_check: one row for each that points nowhere.
def test_foreign_key_check(file):
    assert file.execute("PRAGMA foreign_key_check").fetchall() == []


# Source: "STRICT Tables": PRAGMA table_list has a column strict. What FTS5
# and the migrations' library make for themselves is theirs.
def test_every_table_of_ours_is_strict(file):
    tables = file.execute("SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND type = 'table'").fetchall()
    ours = {name: strict for name, strict in tables if not name.startswith(("sqlite_", "_", "line_words"))}
    assert len(ours) > 15
    assert {name for name, strict in ours.items() if not strict} == set()


# Source: "STRICT Tables", 2: a value that cannot become the column's type is refused.
def test_a_word_is_no_number(file):
    with pytest.raises(sqlite3.IntegrityError, match="cannot store TEXT value in INTEGER column"):
        file.execute("UPDATE line SET offset_minutes = 'late'")


# Source: "SQLite Foreign Key Support", 2: enforced when switched on for the connection.
def test_a_line_without_its_night_is_refused(file):
    file.execute("PRAGMA foreign_keys = ON")
    with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
        file.execute("DELETE FROM night")


# Source: "Write-Ahead Logging", 3.3: persistent; "Database File Format", 1.3.5:
# read and write version 2 in the header.
def test_the_file_is_in_wal_mode(file, folder):
    assert file.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    assert (folder / "keeper.db").read_bytes()[18:20] == b"\x02\x02"


# Source: "PRAGMA Statements", application_id: tells other programs, such as
# file(1), what kind of file it is; "Database File Format", 1.3: offset 68.
def test_the_file_says_whose_it_is(file, folder):
    assert file.execute("PRAGMA application_id").fetchone() == (int.from_bytes(b"Keep", "big"),)
    assert (folder / "keeper.db").read_bytes()[68:72] == b"Keep"


# Source: "SQLite FTS5 Extension", 6.4, the integrity-check command: with a rank
# of 1 it also compares the index with the content table.
def test_the_index_of_words_agrees_with_the_lines(file):
    file.execute("INSERT INTO line_words (line_words, rank) VALUES ('integrity-check', 1)")
    file.execute("UPDATE line SET folded = 'tampered' WHERE number = (SELECT min(number) FROM line)")
    file.execute("INSERT INTO line_words (line_words, rank) VALUES ('integrity-check', 1)")
    file.execute("DROP TRIGGER line_words_anew")
    file.execute("UPDATE line SET folded = 'behind its back' WHERE number = (SELECT min(number) FROM line)")
    with pytest.raises(sqlite3.DatabaseError):
        file.execute("INSERT INTO line_words (line_words, rank) VALUES ('integrity-check', 1)")


# Source: the same, 4.3.1, unicode61 with remove_diacritics 2: "diacritics are
# correctly removed from all Latin characters".
@pytest.mark.parametrize(("written", "sought"), [("caf\u00e9", "cafe"), ("Vi\u1ec7t", "viet"), ("\u00c5ngstr\u00f6m", "angstrom")])
def test_the_tokenizer_takes_diacritics_off(file, written, sought):
    settings = file.execute("SELECT sql FROM sqlite_master WHERE name = 'line_words'").fetchone()[0]
    tokenize = re.search(r"tokenize\s*=\s*'[^']*'", settings)[0]
    file.execute(f"CREATE VIRTUAL TABLE temp.tried USING fts5 (words, {tokenize})")
    file.execute("INSERT INTO tried VALUES (?)", (written,))
    assert file.execute("SELECT count(*) FROM tried WHERE tried MATCH ?", (sought,)).fetchone() == (1,)


# Source: "SQLite Backup API": a copy of a keeper is the keeper, also of what is still in its write-ahead log.
def test_a_backup_made_while_lines_are_written_is_the_same(made, folder, tmp_path):
    shutil.copytree(made, folder)
    with open_store(folder) as store:
        writing.write_line(store, NIGHT, "memory", "Still in the log.", StoppedClock(datetime(2026, 11, 14, 23, tzinfo=UTC)))
        back_up(store, tmp_path / "copy.db")
        beside = sqlite3.connect(folder / "keeper.db")
        copy = sqlite3.connect(tmp_path / "copy.db")
        assert copy.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert list(copy.iterdump()) == list(beside.iterdump())
        assert "Still in the log." in "".join(copy.iterdump())
        copy.close()
        beside.close()
