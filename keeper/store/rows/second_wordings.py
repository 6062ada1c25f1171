"""Words from archives that differ from those here, where only one can stand: each told beside what stands here now."""

from keeper.store.file.opening import Store
from keeper.store.moments import day, told, words
from keeper.store.rows.meeting import Difference
from keeper.store.rows.shape import TableShape, tables
from keeper.store.rows.theirs import TheirIds


def every(store: Store) -> tuple[Difference, ...]:
    """All of them, those that came last first; those of what is no longer here are told too, what later words said before is not."""
    shapes, ids = {table.name: table for table in tables(store)}, TheirIds(store, False)
    rows = store.rows("SELECT what, ref, name, text FROM second_wording WHERE name <> 'earlier' ORDER BY came_at DESC, what, ref, name, text")
    return store.made(lambda row: _told(store, shapes, ids, row), [row for row in rows if row[0] in shapes])


def _told(store: Store, shapes: dict[str, TableShape], ids: TheirIds, row: tuple) -> Difference:
    what, ref, name, text = map(words, row)
    key = dict(zip(shapes[what].key, told(ref, list), strict=False))
    here = _here(store, shapes[what], key, name)
    told_as, seen, other = ids.told(what, name, key, here, text)
    night = key.get("night") or key.get("date")
    return Difference(day(night) if night else None, told_as, seen, other)


def _here(store: Store, shape: TableShape, key: dict, name: str) -> object:
    if name not in shape.names:
        return ""
    where = " AND ".join(f'"{column}" = ?' for column in key)
    row = store.row(f'SELECT "{name}" FROM "{shape.name}" WHERE {where}', list(key.values()))
    return row[0] if row and row[0] is not None else ""
