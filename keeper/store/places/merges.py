"""Places that became part of others, and what is needed to take them apart again."""

import json
from collections.abc import Mapping
from dataclasses import asdict, replace
from datetime import date

from keeper.model import PlaceMerge, PlacePage
from keeper.model.places import ROOFS
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import day, told
from keeper.store.places import pages

_ROW = (
    "id", "name", "region", "country", "latitude", "longitude", "zone", "geoname_id", "begun_at", "mark", "on_the_way",
)  # fmt: skip
_SINCE = {"mark": None, "on_the_way": 0}
"""What a place merged before it could have one was like."""

_COLUMNS = "id, into_id, gone, gave, merged_on"


def merge(store: Store, gone_id: str, into_id: str, on: date, gave: Mapping[str, object]) -> PlaceMerge:
    """Make one place of two that are the same: the nights of the one move to the other.

    That the one rests is left standing, for when it comes back.
    """
    with store.writing() as connection:
        row = store.row(f"SELECT {', '.join(_ROW)} FROM place WHERE id = ?", (gone_id,))
        said = asdict(pages.one(store, gone_id))
        made = PlaceMerge(new_id(), into_id, {**dict(zip(_ROW, row, strict=True)), "page": said}, dict(gave), on)
        pages.keep(store, gone_id, PlacePage())
        connection.execute(
            f"INSERT INTO place_merge (position, {_COLUMNS}) "
            "SELECT coalesce(max(position), 0) + 1, ?, ?, ?, ?, ? FROM place_merge",
            (made.id, into_id, json.dumps(made.gone), json.dumps(made.gave), on.isoformat()),
        )
        connection.execute(
            "INSERT INTO place_merge_night (merge_id, night) SELECT ?, date FROM night WHERE place_id = ?", (made.id, gone_id)
        )
        connection.execute("UPDATE night SET place_id = ? WHERE place_id = ?", (into_id, gone_id))
        connection.execute("DELETE FROM place WHERE id = ?", (gone_id,))
    return made


def take_apart(store: Store, merge_: PlaceMerge) -> None:
    """Bring the other place back, with those of its nights that were not said to be elsewhere since."""
    with store.writing() as connection:
        gone = {**_SINCE, **merge_.gone}
        values = [gone[name] for name in _ROW]
        connection.execute(f"INSERT INTO place ({', '.join(_ROW)}) VALUES ({', '.join('?' * len(_ROW))})", values)
        pages.keep(store, merge_.gone["id"], said_of(store, merge_))
        connection.execute(
            "UPDATE night SET place_id = ? WHERE place_id = ? "
            "AND date IN (SELECT night FROM place_merge_night WHERE merge_id = ?)",
            (merge_.gone["id"], merge_.into_id, merge_.id),
        )
        connection.execute("DELETE FROM place_merge WHERE id = ?", (merge_.id,))


def said_of(store: Store, merge_: PlaceMerge) -> PlacePage:
    """What was said of the place that went; a photo that is no longer kept stands for nothing."""
    said = merge_.gone.get("page") or {}
    photo = said.get("photo_id")
    there = photo and store.row("SELECT 1 FROM photo WHERE id = ?", (photo,))
    return PlacePage(str(said.get("note") or ""), said.get("roof") if said.get("roof") in ROOFS else "", photo if there else None)


def by_id(store: Store, merge_id: str) -> PlaceMerge | None:
    """The merge with this id, unless it was taken apart."""
    row = store.row(f"SELECT {_COLUMNS} FROM place_merge WHERE id = ?", (merge_id,))
    return _merge(row) if row else None


def into(store: Store, place_id: str) -> tuple[PlaceMerge, ...]:
    """What was merged into a place, earliest first."""
    rows = store.rows(f"SELECT {_COLUMNS} FROM place_merge WHERE into_id = ? ORDER BY position", (place_id,))
    return store.made(_merge, rows)


def of(store: Store, gone_id: str) -> PlaceMerge | None:
    """The merge by which a place went, if it did."""
    row = store.row(f"SELECT {_COLUMNS} FROM place_merge WHERE json_extract(gone, '$.id') = ?", (gone_id,))
    return _merge(row) if row else None


def set_gave(store: Store, merge_: PlaceMerge, gave: Mapping[str, object]) -> PlaceMerge:
    """Say anew what the remaining place has of the other."""
    with store.writing() as connection:
        connection.execute("UPDATE place_merge SET gave = ? WHERE id = ?", (json.dumps(dict(gave)), merge_.id))
    return replace(merge_, gave=dict(gave))


def _merge(row: tuple) -> PlaceMerge:
    return PlaceMerge(row[0], row[1], told(row[2], dict), told(row[3], dict), day(row[4]))
