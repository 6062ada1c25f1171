"""Places the person has named."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime

from keeper.model import Line, Place
from keeper.store import lines
from keeper.store.file.opening import Store
from keeper.store.folding import bare
from keeper.store.ids import new_id
from keeper.store.moments import day, number, utc_text, words

COLUMNS = (
    "place.id, place.name, place.region, place.country, place.latitude, place.longitude, place.zone, "
    "place.geoname_id, EXISTS (SELECT 1 FROM resting WHERE what = 'place' AND ref = place.id), "
    "place.mark, place.on_the_way"
)


def place_from(row: tuple) -> Place:
    """A place from the values of COLUMNS; a damaged position is taken as not known. Raises NotAKeeper for other damage."""
    where = number(row[4], -90, 90), number(row[5], -180, 180)
    at = where if None not in where else (None, None)
    mark = row[9] if isinstance(row[9], int) else None
    return Place(*(words(value) for value in row[:4]), *at, words(row[6]), row[7], bool(row[8]), mark, bool(row[10]))


def by_id(store: Store, place_id: str) -> Place | None:
    """The place with this id."""
    row = store.row(f"SELECT {COLUMNS} FROM place WHERE id = ?", (place_id,))
    return next(iter(store.made(place_from, [row] if row else [])), None)


def every(store: Store) -> tuple[Place, ...]:
    """All places, the one with the latest night first."""
    rows = store.rows(
        f"SELECT {COLUMNS} FROM place ORDER BY "
        "(SELECT max(date) FROM night WHERE night.place_id = place.id) DESC NULLS LAST, name"
    )
    return store.made(place_from, rows)


def names(store: Store) -> tuple[tuple[str, str], ...]:
    """The name and id of every place: a list of them needs no more, and after fifty years there may be thousands."""
    rows = store.rows("SELECT name, id FROM place")
    return store.made(lambda row: (words(row[0]), words(row[1])), rows)


def named(store: Store, name: str) -> Place | None:
    """The place of this name, capitals and accents left aside; latest first."""
    wanted = bare(name)
    return next((place for place in every(store) if bare(place.name) == wanted), None)


def all_named(store: Store, name: str) -> tuple[Place, ...]:
    """The places of this name, capitals and accents left aside; latest first."""
    wanted = bare(name)
    return tuple(place for place in every(store) if bare(place.name) == wanted)


def by_geoname(store: Store, geoname_id: int) -> Place | None:
    """The place that is this town of the gazetteer."""
    row = store.row(f"SELECT {COLUMNS} FROM place WHERE geoname_id = ? ORDER BY begun_at", (geoname_id,))
    return next(iter(store.made(place_from, [row] if row else [])), None)


def add(store: Store, place: Place) -> Place:
    """Keep a new place; an empty id is given one. Returns it as kept: its mark comes with its first night."""
    kept = replace(place, id=place.id or new_id(), resting=False, mark=None)
    row = {name: getattr(kept, name) for name in ("id", *_TOLD)}
    with store.writing():
        store.db["place"].insert({**row, "begun_at": utc_text(datetime.now(UTC))})
    return kept


_TOLD = ("name", "region", "country", "latitude", "longitude", "zone", "geoname_id", "on_the_way")


def change(store: Store, place: Place) -> None:
    """Write a place's name, coordinates and the rest anew."""
    with store.writing():
        store.db["place"].update(place.id, {name: getattr(place, name) for name in _TOLD})


def remove_unused(store: Store, place_id: str) -> None:
    """Forget a place at which there is no night, and that no other became part of."""
    with store.writing() as connection:
        connection.execute(
            "DELETE FROM place WHERE id = :id AND NOT EXISTS (SELECT 1 FROM night WHERE place_id = :id) "
            "AND NOT EXISTS (SELECT 1 FROM place_merge WHERE into_id = :id)",
            {"id": place_id},
        )


def marks(store: Store) -> dict[str, int]:
    """The marks of all places that have one, by id."""
    return dict(store.rows("SELECT id, mark FROM place WHERE mark IS NOT NULL"))


def photo_nights(store: Store, place_id: str, limit: int) -> tuple[tuple[str, date], ...]:
    """The ids of the photos of a place's nights, each with its latest night there, newest first."""
    rows = store.rows(
        "SELECT night_photo.photo_id, max(date) FROM night_photo JOIN night ON night.date = night_photo.night WHERE place_id = ? "
        "GROUP BY night_photo.photo_id ORDER BY max(date) DESC, min(position) LIMIT ?",
        (place_id, limit),
    )
    return store.made(lambda row: (row[0], day(row[1])), rows)


def photo_count(store: Store, place_id: str) -> int:
    """How many photos a place's nights have."""
    return store.row(
        "SELECT count(DISTINCT night_photo.photo_id) FROM night_photo JOIN night ON night.date = night_photo.night "
        "WHERE place_id = ?",
        (place_id,),
    )[0]


def lines_of(store: Store, place_id: str) -> tuple[Line, ...]:
    """All lines of a place's nights, oldest first."""
    rows = store.rows(
        f"SELECT {lines.COLUMNS} FROM line JOIN night ON night.date = line.night "
        f"WHERE night.place_id = ? ORDER BY {lines.IN_ORDER}",
        (place_id,),
    )
    return lines.lines_from(store, rows)


def known_before(store: Store, place_ids: Iterable[str], night: date) -> frozenset[str]:
    """Those of the places that have a night before this one."""
    limit = night.isoformat()
    return frozenset(one for one in place_ids if store.row(
        "SELECT 1 FROM night WHERE place_id = ? AND date < ? LIMIT 1", (one, limit)))  # fmt: skip
