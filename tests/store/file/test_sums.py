"""The sum that stands with each line: whoever writes one gives it, and the older ones got theirs."""

import ast
import re
import sqlite3
import zlib
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlite_utils import Database

from keeper.actions import writing
from keeper.store import lines, open_store
from keeper.store.file import folder as names
from keeper.store.file.migrations import migrations
from keeper.store.file.opening import MARK, SCHEMA
from keeper.store.file.sums import line_sum

NIGHT = date(2026, 11, 14)
ROOT = Path(__file__).resolve().parents[3] / "keeper"
WRITES = re.compile(r"\b(INSERT(?: OR \w+)? INTO|UPDATE(?: OR \w+)?|REPLACE INTO) (line|wording)\b")
BEFORE_SUMS = ("migrations.py", "kinds.py", "sums.py")
"""The modules of the migrations up to the one that gave the sums."""

AS_NOTED = ("letting_go.py",)
"""Where the columns are those that the history noted, the sum among them."""


def wrong_sums(store) -> list[tuple]:
    """The lines and wordings whose sum is not that of what they hold."""
    rows = store.rows(
        "SELECT id, night, kind, text, written_at, offset_minutes, zone, sum FROM line UNION ALL "
        "SELECT line_id, night, kind, text, written_at, offset_minutes, zone, sum FROM wording"
    )
    assert rows
    return [row for row in rows if line_sum(*row[:7]) != row[7]]


def statements_on_lines() -> list[tuple[str, str]]:
    """Every text of the program that writes lines or wordings, with its module."""
    found = []
    for path in sorted((ROOT / "store").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and WRITES.search(node.value):
                found.append((path.name, node.value))
    return found


def test_whoever_writes_a_line_writes_its_sum():
    found = [(module, sql) for module, sql in statements_on_lines() if module not in BEFORE_SUMS + AS_NOTED]
    assert len(found) >= 2
    assert [sql for _, sql in found if not re.search(r"\bsum\b", sql)] == []


def test_every_way_a_line_comes_changes_and_goes_leaves_right_sums(store, clock):
    for text in ("The kettle sang.", "It sang \u00e6gain.", "", "\u8336 and back."):
        writing.write_line(store, NIGHT, "memory", text, clock)
        assert wrong_sums(store) == []
    writing.keep_draft(store, NIGHT, "memory", "Another window's words", clock)
    writing.keep_draft(store, NIGHT, "memory", "and these", clock)
    writing.write_once(store, NIGHT, "gratitude", "One.", clock)
    writing.write_once(store, NIGHT, "gratitude", "Two.", clock, "add")
    writing.set_draft_aside(store, NIGHT, "memory", "and these", clock)
    assert wrong_sums(store) == []
    assert len(lines.wordings(store, NIGHT, "memory")) >= 4


def test_a_line_taken_out_and_written_anew_is_the_same_line(store, clock):
    first = writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    writing.write_line(store, NIGHT, "memory", "", clock)
    assert writing.write_line(store, NIGHT, "memory", "Again.", clock).id == first.id


# Source: the CRC-32 of RFC 1952, 8, reckoned here bit by bit; zlib's is the same.
@given(st.lists(st.text(st.characters(exclude_categories=("Cs",))), min_size=6, max_size=6), st.integers(-900, 900))
def test_the_sum_is_the_crc_of_what_is_spelt(texts, offset):
    spelt = "\x1f".join((*texts[:5], str(offset), texts[5])).encode()
    crc = 0xFFFFFFFF
    for byte in spelt:
        crc ^= byte
        for _ in range(8):
            crc = crc >> 1 ^ (0xEDB88320 if crc & 1 else 0)
    assert line_sum(*texts[:5], offset, texts[5]) == crc ^ 0xFFFFFFFF == zlib.crc32(spelt)


@pytest.fixture
def version_6(folder) -> Path:
    """A keeper before lines had sums, with a line that was changed, and one whose letters are damaged."""
    (folder / "backups").mkdir(parents=True)
    old = Database(sqlite3.connect(folder / names.FILE, isolation_level=None))
    after = [one.name for one in migrations.pending(old) if one.name > "m006_places_keep_their_mark"]
    migrations.apply(old, stop_before=min(after))
    old.execute("INSERT INTO night (date, begun_at) VALUES (?, '2026-11-14T20:00:00.000000Z')", [str(NIGHT)])
    number = NIGHT.toordinal() * 4
    for kind, text in ((1, "'Before.'"), (0, "CAST(x'41ffe042' AS TEXT)")):
        old.execute(
            "INSERT INTO line (number, id, night, kind, text, written_at, offset_minutes, zone) VALUES "
            f"(?, ?, ?, ?, {text}, '2026-11-14T20:00:00.000000Z', 120, 'Europe/Riga')",
            [number + kind, f"l{kind}", str(NIGHT), ("gratitude", "memory")[kind]],
        )
    old.execute("UPDATE line SET text = 'After.' WHERE id = 'l1'")
    old.execute(f"PRAGMA application_id = {MARK}")
    old.execute("PRAGMA user_version = 6")
    old.conn.close()
    return folder


def test_an_older_keeper_gets_its_sums(version_6, clock):
    with open_store(version_6) as store:
        assert store.row("PRAGMA user_version")[0] == SCHEMA
        # What is no text has none, and is told apart by that.
        assert store.rows("SELECT id, sum IS NULL FROM line ORDER BY id") == [("l0", 1), ("l1", 0)]
        writing.write_line(store, NIGHT, "gratitude", "Whole again.", clock)
        store.connection.execute("DELETE FROM wording WHERE sum IS NULL")
        writing.write_line(store, NIGHT, "memory", "Changed once more.", clock)
        assert wrong_sums(store) == []
        assert {wording.text for wording in lines.wordings(store, NIGHT, "memory")} == {"Before.", "After."}


def test_what_was_taken_out_is_nowhere_in_the_file(folder, clock):
    from keeper.store import create_store

    with create_store(folder) as store:
        assert store.row("PRAGMA secure_delete") == (1,)
        for day in range(1, 29):
            writing.keep_draft(store, NIGHT.replace(day=day), "memory", f"Takenout {day} " * 40, clock)
        store.connection.execute("DELETE FROM draft")
        store.connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    assert b"Takenout" not in (folder / names.FILE).read_bytes()
