"""Pages of a notebook: what is known of them. Their files lie with the photos, each by its SHA-256."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

from keeper.errors import NotAKeeper, UnknownThing
from keeper.model.scans import WHOLE, Scan
from keeper.store.file.folder import PHOTOS
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import day, number, utc_text, words
from keeper.store.photos.files import relative_file

_COLUMNS = "id, sha256, ending, bytes, page, name, first, last, turns, angle, cut_left, cut_top, cut_right, cut_bottom"
_LARGEST = 1 << 50


def add(store: Store, scans: Iterable[Scan], came_at: datetime) -> tuple[Scan, ...]:
    """Keep what is known of pages whose files are in their place; those that are there already are left out."""
    kept = []
    with store.writing() as connection:
        for one in scans:
            made = replace(one, id=new_id())
            done = connection.execute(
                f"INSERT INTO scan ({_COLUMNS}, came_at) VALUES ({', '.join('?' * 15)}) ON CONFLICT DO NOTHING",
                (*_values(made), utc_text(came_at)),
            )
            kept += [made] if done.rowcount else []
    return tuple(kept)


def of_span(store: Store, first: date, last: date) -> tuple[Scan, ...]:
    """The pages that belong to any night of a span, in the order of their nights."""
    rows = store.rows(
        f"SELECT {_COLUMNS} FROM scan WHERE first <= ? AND last >= ? ORDER BY first, came_at, name, page, id",
        (last.isoformat(), first.isoformat()),
    )
    return store.made(_scan, rows)


def any_of(store: Store, first: date, last: date) -> int:
    """How many pages belong to nights of a span."""
    row = store.row("SELECT count(*) FROM scan WHERE first <= ? AND last >= ?", (last.isoformat(), first.isoformat()))
    return row[0]


def by_id(store: Store, scan_id: str) -> Scan:
    """The page with this id. Raises UnknownThing."""
    found = store.made(_scan, store.rows(f"SELECT {_COLUMNS} FROM scan WHERE id = ?", (scan_id,)))
    if not found:
        raise UnknownThing("That page is no longer in the keeper.")
    return found[0]


def there(store: Store, sha256: str) -> tuple[Scan, ...]:
    """The pages of a file, known by its SHA-256."""
    return store.made(_scan, store.rows(f"SELECT {_COLUMNS} FROM scan WHERE sha256 = ? ORDER BY page", (sha256,)))


def change(store: Store, scan: Scan) -> None:
    """Keep how a page is seen, and to which nights it belongs."""
    with store.writing() as connection:
        connection.execute(
            "UPDATE scan SET first = ?, last = ?, turns = ?, angle = ?, cut_left = ?, cut_top = ?, cut_right = ?, "
            "cut_bottom = ? WHERE id = ?",
            (*_values(scan)[6:], scan.id),
        )


def drop(store: Store, scan_id: str) -> None:
    """Take a page out. Its file goes when no act can bring it back."""
    with store.writing() as connection:
        connection.execute("DELETE FROM scan WHERE id = ?", (scan_id,))


def file_of(folder: Path, scan: Scan) -> Path:
    """Where the page's file lies, be it there or not."""
    return folder / PHOTOS / relative_file(scan.sha256, scan.ending)


def _values(one: Scan) -> tuple:
    return (one.id, one.sha256, one.ending, one.bytes, one.page, one.name, one.first.isoformat(), one.last.isoformat(),
            one.turns, one.angle, *one.cut)  # fmt: skip


def _scan(row: tuple) -> Scan:
    """A page; what is damaged of how it is seen is as if it were not changed. Raises NotAKeeper where it cannot be told which it is."""
    first, last = day(row[6]), day(row[7])
    if first > last:
        raise NotAKeeper(f"A page of the notebook, {first.isoformat()}, is damaged.")
    turns, angle = int(number(row[8], 0, 3) or 0), float(number(row[9], -45, 45) or 0)
    size, page = int(number(row[3], 0, _LARGEST) or 0), int(number(row[4], 0, 1 << 30) or 0)
    return Scan(words(row[0]), words(row[1]), words(row[2]), size, page, str(row[5]), first, last, turns, angle, _cut(row[10:14]))


def _cut(values: tuple) -> tuple[float, float, float, float]:
    left, top, right, bottom = (number(value, 0, 1) for value in values)
    if None in (left, top, right, bottom) or left >= right or top >= bottom:
        return WHOLE
    return left, top, right, bottom
