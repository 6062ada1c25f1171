"""Lots: many photos that came at once, so that all of them can be taken back."""

import os
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path

from keeper.store import nights
from keeper.store.file.opening import Store
from keeper.store.moments import day, utc_instant, utc_text
from keeper.store.photos import known

_HELD = (
    "EXISTS (SELECT 1 FROM night_photo WHERE night_photo.photo_id = lot_photo.photo_id) "
    "OR EXISTS (SELECT 1 FROM month_page WHERE month_page.photo_id = lot_photo.photo_id) "
    "OR EXISTS (SELECT 1 FROM year_choice WHERE what = 'photo' AND ref = lot_photo.photo_id)"
)


@dataclass(frozen=True, slots=True)
class Lot:
    """A lot by its number: when it came (aware, UTC), how many photos, for how many nights.

    ``taken_back`` says that its photos are with their nights no more.
    """

    number: int
    came_at: datetime
    photos: int
    nights: int
    taken_back: bool


def begin(store: Store, came_at: datetime) -> int:
    """Begin a lot; its number."""
    with store.writing() as connection:
        return connection.execute("INSERT INTO lot (came_at) VALUES (?)", (utc_text(came_at),)).lastrowid


def note_photos(store: Store, lot: int, came: Iterable[tuple[str, date, Path]]) -> None:
    """Note which photos (ids) came with a lot, the night each was put with, and where its file came from."""
    rows = [(lot, photo_id, night.isoformat(), os.fsencode(path).hex()) for photo_id, night, path in came]
    with store.writing() as connection:
        connection.executemany("INSERT OR IGNORE INTO lot_photo VALUES (?, ?, ?, ?)", rows)


def say_place(store: Store, lot: int, night: date, place_id: str, begun_at: str) -> None:
    """Say where a night of a lot was spent, by its photos, and note what was said before."""
    with store.writing() as connection:
        connection.execute(
            "INSERT OR IGNORE INTO lot_place SELECT ?, date, ?, place_id, place_source FROM night WHERE date = ?",
            (lot, place_id, night.isoformat()),
        )
        nights.set_place(store, night, place_id, "photo", begun_at)


def one(store: Store, number: int) -> Lot | None:
    """A lot by its number."""
    return _lot(store, "WHERE number = ?", number)


def latest(store: Store) -> Lot | None:
    """The lot that came last."""
    return _lot(store, "ORDER BY number DESC LIMIT 1")


def _lot(store: Store, rest: str, *values: int) -> Lot | None:
    row = store.row(
        "SELECT number, came_at, (SELECT count(*) FROM lot_photo WHERE lot = number), "
        f"(SELECT count(DISTINCT night) FROM lot_photo WHERE lot = number), taken_back_at IS NOT NULL FROM lot {rest}",
        values,
    )
    return Lot(row[0], utc_instant(row[1]), row[2], row[3], bool(row[4])) if row else None


def nights_of(store: Store, number: int) -> set[date]:
    """The nights to which photos of a lot came."""
    return {night for night, _ in _photos(store, number)}


def take_back(store: Store, number: int, at: datetime) -> None:
    """Take a lot's photos from the nights they came to, and the places it said of them.

    The photos stay in the keeper, so that ``put_back`` can undo it. A place
    that was said otherwise since stays as it is.
    """
    with store.writing() as connection:
        for night, photo_id in _photos(store, number):
            known.detach(store, night, photo_id)
        connection.execute(
            "UPDATE night SET place_id = was_id, place_source = was_source FROM lot_place WHERE lot = ? "
            "AND lot_place.night = date AND night.place_id = lot_place.place_id AND place_source = 'photo'",
            (number,),
        )
        connection.execute("UPDATE lot SET taken_back_at = ? WHERE number = ?", (utc_text(at), number))


def put_back(store: Store, number: int, begun_at: str) -> None:
    """Put the photos of a lot that was taken back with their nights again, and its places."""
    with store.writing() as connection:
        for night, photo_id in _photos(store, number):
            known.attach(store, night, photo_id, begun_at)
        connection.execute(
            "UPDATE night SET place_id = lot_place.place_id, place_source = 'photo' FROM lot_place "
            "WHERE lot = ? AND lot_place.night = date AND night.place_id IS was_id AND place_source = was_source",
            (number,),
        )
        connection.execute("UPDATE lot SET taken_back_at = NULL WHERE number = ?", (number,))


def _photos(store: Store, number: int) -> list[tuple[date, str]]:
    rows = store.rows(
        "SELECT lot_photo.night, photo_id FROM lot_photo JOIN photo ON photo.id = photo_id WHERE lot = ? "
        "ORDER BY lot_photo.night, taken_local, photo.name",
        (number,),
    )
    return [(day(night), photo_id) for night, photo_id in rows]


def without_night(store: Store) -> dict[str, tuple[str, tuple[Path, ...]]]:
    """Photos of lots that were taken back, which nothing in the keeper has: id to SHA-256 and where they came from."""
    rows = store.rows(
        "SELECT photo.id, sha256, path FROM lot_photo JOIN photo ON photo.id = photo_id "
        f"JOIN lot ON lot.number = lot_photo.lot WHERE taken_back_at IS NOT NULL AND NOT ({_HELD})"
    )
    found: dict[str, tuple[str, tuple[Path, ...]]] = {}
    for photo_id, sha256, path in rows:
        before = found.get(photo_id, (sha256, ()))[1]
        found[photo_id] = (sha256, (*before, Path(os.fsdecode(bytes.fromhex(path)))))
    return found
