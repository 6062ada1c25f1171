"""A place's nights in their order, with what was written on each, and photos taken near a point."""

from datetime import UTC, date, datetime

from keeper.model import Found, Line, Moment
from keeper.store import lines
from keeper.store.file.opening import Store
from keeper.store.moments import day, number

NOTHING = "nothing written"

_NEVER = Moment(datetime(1, 1, 1, tzinfo=UTC), 0, "")


def nights_at(store: Store, place_id: str, latest_first: bool, limit: int, skip: int = 0) -> tuple[Found, ...]:
    """The lines of a place's nights in order of time; a night without one is an empty line that says so."""
    way = "DESC" if latest_first else ""
    rows = store.rows(
        f"SELECT {lines.COLUMNS}, night.date FROM night LEFT JOIN line ON line.night = night.date "
        f"WHERE night.place_id = ? ORDER BY night.date {way}, line.number LIMIT ? OFFSET ?",
        (place_id, limit, skip),
    )
    return tuple(found for row in rows for found in _found(store, row))


def _found(store: Store, row: tuple) -> list[Found]:
    if row[0] is None:
        return [Found(_empty(night), "") for night in store.made(lambda one: day(one[-1]), [row])]
    return [Found(line, "") for line in lines.lines_from(store, [row])]


def _empty(night: date) -> Line:
    return Line(f"night {night.isoformat()}", night, "", "", _NEVER, kind_name=NOTHING)


def photos_within(store: Store, south: float, north: float, west: float, east: float) -> tuple[tuple[str, float, float, date], ...]:
    """The photos taken within these degrees: id, latitude, longitude and latest night, newest first."""
    rows = store.rows(
        "SELECT photo.id, photo.latitude, photo.longitude, max(night_photo.night) FROM photo "
        "JOIN night_photo ON night_photo.photo_id = photo.id "
        "WHERE photo.latitude BETWEEN ? AND ? AND photo.longitude BETWEEN ? AND ? GROUP BY photo.id ORDER BY 4 DESC",
        (south, north, west, east),
    )
    return store.made(lambda row: (row[0], number(row[1], -90, 90), number(row[2], -180, 180), day(row[3])), rows)
