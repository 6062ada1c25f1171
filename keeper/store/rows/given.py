"""Rows given out of a keeper that nobody writes meanwhile, one after another: memory does not grow with them."""

import sqlite3
from collections.abc import Iterator
from itertools import chain, islice

from keeper.store.file.opening import Store
from keeper.store.file.sentences import told
from keeper.store.rows.shape import TableShape

_AT_A_TIME = 500


def rows(store: Store, table: TableShape) -> Iterator[list[tuple]]:
    """The rows of a table in its order, some at a time. Letters that can no longer be read have a mark in their place; that is noted."""
    sql = f'SELECT {", ".join(f"{chr(34)}{name}{chr(34)}" for name in table.names)} FROM "{table.name}" ORDER BY {table.order}'
    with told(store.folder):
        yield from _each(store, sql)


def _each(store: Store, sql: str) -> Iterator[list[tuple]]:
    given = 0
    try:
        for some in _fetched(store, sql):
            yield some
            given += len(some)
    except sqlite3.OperationalError as error:
        if "Could not decode" not in str(error):
            raise
        store.note_damage(f"The keeper in {store.folder} is damaged: a mark stands for letters that can no longer be read.")
        store.connection.text_factory = lambda text: text.decode("utf-8", "replace")
        try:
            rest = islice(fetched(store, sql), given, None)
            while some := list(islice(rest, _AT_A_TIME)):
                yield some
        finally:
            store.connection.text_factory = str


def fetched(store: Store, sql: str) -> Iterator[tuple]:
    """The rows of a question, a few hundred at a time."""
    return chain.from_iterable(_fetched(store, sql))


def _fetched(store: Store, sql: str) -> Iterator[list[tuple]]:
    cursor = store.connection.execute(sql)
    while some := cursor.fetchmany(_AT_A_TIME):
        yield some


def keeper_id(store: Store) -> str:
    """The keeper's own id; "" where it has none."""
    row = store.row("SELECT value FROM about WHERE name = 'id'")
    return row[0] if row else ""
