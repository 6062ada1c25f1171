"""Searches that the person keeps under a name; what is sought stands as an object of JSON."""

import json
from datetime import UTC, datetime

from keeper.model import Act
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import told, utc_text, words


def every(store: Store) -> tuple[tuple[str, str, dict], ...]:
    """Id, name and what is sought of each, in the order in which they were kept."""
    rows = store.rows("SELECT id, name, sought FROM kept_search ORDER BY kept_at, id")
    return store.made(lambda row: (words(row[0]), words(row[1]), told(row[2], dict)), rows)


def add(store: Store, name: str, sought: dict, act: Act) -> str:
    """Keep one; its id."""
    kept = new_id()
    with store.writing(act) as connection:
        connection.execute("INSERT INTO kept_search (id, name, sought, kept_at) VALUES (?, ?, ?, ?)",
                           (kept, name, _spelt(sought), utc_text(datetime.now(UTC))))  # fmt: skip
    return kept


def change(store: Store, kept: str, name: str, sought: dict, act: Act) -> bool:
    """Let one have another name, or look for something else; whether it is there."""
    with store.writing(act) as connection:
        done = connection.execute("UPDATE kept_search SET name = ?, sought = ? WHERE id = ?", (name, _spelt(sought), kept))
        return bool(done.rowcount)


def forget(store: Store, kept: str, act: Act) -> bool:
    """Take one out; whether it was there."""
    with store.writing(act) as connection:
        return bool(connection.execute("DELETE FROM kept_search WHERE id = ?", (kept,)).rowcount)


def _spelt(sought: dict) -> str:
    return json.dumps(sought, ensure_ascii=False, sort_keys=True)
