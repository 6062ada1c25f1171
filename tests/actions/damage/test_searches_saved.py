"""Kept searches come out of a broken keeper, as far as they can be read."""

import sqlite3
from datetime import UTC, date, datetime

from keeper.actions import writing
from keeper.actions.damage import mending
from keeper.actions.finding import Sought, kept
from keeper.store import create_store, open_store
from keeper.store.file.folder import FILE

NOW = datetime(2026, 11, 14, 22, tzinfo=UTC)


def test_they_are_in_the_mended_keeper_and_find_the_same(folder, clock):
    with create_store(folder) as store:
        writing.write_line(store, date(2026, 11, 14), "memory", "The ferry was late.", clock)
        writing.write_line(store, date(2026, 11, 13), "memory", "The kettle sang.", clock)
        kept.keep(store, "Ferries in autumn", Sought("ferry", months=(9, 10, 11), best_first=True))
        kept.keep(store, "Kettles", Sought("kettle", weekdays=(4,)))
    broken = sqlite3.connect(folder / FILE)
    (page,) = broken.execute("SELECT rootpage FROM sqlite_master WHERE name = 'night'").fetchone()
    (size,) = broken.execute("PRAGMA page_size").fetchone()
    broken.close()
    with (folder / FILE).open("r+b") as file:
        file.seek((page - 1) * size)
        file.write(b"\x00" * size)
    mending.mend(mending.look(folder), (), NOW)
    mending.put_into_place(folder)
    with open_store(folder) as store:
        there = {one.name: one.sought for one in kept.every(store)}
    assert there == {"Ferries in autumn": Sought("ferry", months=(9, 10, 11), best_first=True), "Kettles": Sought("kettle", weekdays=(4,))}
