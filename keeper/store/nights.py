"""Nights: where they were spent and how much each holds."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING, NamedTuple

from keeper.days import FIRST_NIGHT, LAST_NIGHT
from keeper.model import Night
from keeper.store import lines
from keeper.store.file.opening import Store
from keeper.store.moments import day, words
from keeper.store.places import named as places
from keeper.store.resting import LINE_AWAKE

if TYPE_CHECKING:
    from keeper.model import Tick

_PHOTOS = "(SELECT count(*) FROM night_photo WHERE night_photo.night = night.date)"


def one(store: Store, night: date) -> Night:
    """All that is kept of a night; an empty Night when that is nothing."""
    return some(store, [night])[0]


def some(store: Store, nights: Iterable[date]) -> tuple[Night, ...]:
    """Several nights, in the order asked for."""
    wanted = list(nights)
    marks = ", ".join("?" * len(wanted))
    rows = store.rows(
        f"SELECT date, place_source, {_PHOTOS}, {places.COLUMNS} "
        f"FROM night LEFT JOIN place ON place.id = night.place_id WHERE date IN ({marks})",
        [night.isoformat() for night in wanted],
    )
    known = {row[0]: row for row in rows}
    of_night: dict[date, list] = {}
    for line in lines.of_nights(store, wanted):
        of_night.setdefault(line.night, []).append(line)
    return tuple(_night(store, night, known.get(night.isoformat()), of_night.get(night, ())) for night in wanted)


def _night(store: Store, night: date, row: tuple | None, its_lines: Iterable) -> Night:
    if row is None:
        return Night(night, tuple(its_lines))
    place = next(iter(store.made(places.place_from, [row[3:]])), None) if row[3] else None
    return Night(night, tuple(its_lines), place, row[1], row[2])


def ticks(store: Store, first: date, last: date) -> "tuple[Tick, ...]":
    """How much each kept night of a span holds, oldest first."""
    from keeper.model import Tick

    rows = store.rows(
        f"SELECT date, (SELECT count(*) FROM line WHERE line.night = night.date), {_PHOTOS}, "
        "place_id, coalesce(place.name, '') FROM night LEFT JOIN place ON place.id = place_id "
        "WHERE date BETWEEN ? AND ? ORDER BY date",
        (first.isoformat(), last.isoformat()),
    )
    return store.made(lambda r: Tick(day(r[0]), *r[1:4], words(r[4])), rows)


def on_days(store: Store, month_days: Sequence[str], before: date) -> tuple[date, ...]:
    """Nights with lines before a date that fall on any of these days.

    ``month_days`` are spelt ``MM-DD``; newest first. Nights whose every line
    rests, and nights within a resting span or at a resting place, are left out.
    """
    ends = lines.span(store)
    years = range(ends[0].year, before.year + 1) if ends else ()
    spelt = [night for year in years for one in month_days if (night := f"{year:04}-{one}") < before.isoformat()]
    # Each is looked for by itself: with every line kept, no index of such days need be kept too.
    rows = store.rows(
        "SELECT DISTINCT line.night FROM line JOIN night ON night.date = line.night "
        f"WHERE line.night IN ({', '.join('?' * len(spelt))}) AND {LINE_AWAKE} ORDER BY line.night DESC",
        spelt,
    )
    return store.made(lambda row: day(row[0]), rows)


def at_place(store: Store, place_id: str, before: date, limit: int = 400) -> tuple[date, ...]:
    """Nights at a place before a date that have a line awake, newest first."""
    rows = store.rows(
        "SELECT date FROM night WHERE place_id = ? AND date < ? AND EXISTS "
        f"(SELECT 1 FROM line WHERE line.night = night.date AND {LINE_AWAKE}) ORDER BY date DESC LIMIT ?",
        (place_id, before.isoformat(), limit),
    )
    return store.made(lambda row: day(row[0]), rows)


def with_lines(store: Store, first: date, last: date) -> frozenset[date]:
    """The nights of a span that have at least one line."""
    rows = store.rows(
        "SELECT DISTINCT night FROM line WHERE night BETWEEN ? AND ?", (first.isoformat(), last.isoformat())
    )
    return frozenset(store.made(lambda row: day(row[0]), rows))


def set_place(store: Store, night: date, place_id: str | None, source: str, begun_at: str) -> None:
    """Say where a night was spent; None takes it back."""
    with store.writing() as connection:
        # No place that comes back may claim a night that was said to be elsewhere since it went.
        connection.execute(
            "DELETE FROM place_merge_night WHERE night = :night "
            "AND EXISTS (SELECT 1 FROM night WHERE date = :night AND place_id IS NOT :place_id)",
            {"night": night.isoformat(), "place_id": place_id},
        )
        connection.execute(
            "INSERT INTO night (date, place_id, place_source, begun_at) VALUES (?, ?, ?, ?) "
            "ON CONFLICT DO UPDATE SET place_id = excluded.place_id, place_source = excluded.place_source",
            (night.isoformat(), place_id, source if place_id else "", begun_at),
        )


def carry_place(store: Store, night: date, place_id: str, begun_at: str) -> None:
    """Give a night without a place this one, which was carried on to it."""
    # Not from a SELECT on the same table: SQLite would lay its rows aside first, which takes longer than all the rest.
    with store.writing() as connection:
        connection.execute(
            "INSERT INTO night (date, place_id, place_source, begun_at) VALUES (?, ?, 'carried', ?) "
            "ON CONFLICT (date) DO UPDATE SET place_id = excluded.place_id, place_source = 'carried' WHERE place_id IS NULL",
            (night.isoformat(), place_id, begun_at),
        )


_LAST_BEFORE = (
    "SELECT date, place_id FROM night WHERE date < :night AND date >= :earliest AND place_id IS NOT NULL "
    "ORDER BY date DESC LIMIT 1"
)
_ZONE = "CASE WHEN on_the_way THEN '' ELSE place.zone END"


def _before(night: date, within: timedelta) -> dict[str, str]:
    return {"night": night.isoformat(), "earliest": (night - within).isoformat()}


class Last(NamedTuple):
    """The last night before another whose place is known; ``zone`` is the place's, "" if not known or on the way."""

    date: date
    place_id: str
    zone: str


class Clocked(NamedTuple):
    """The clock of a line written during its own night, and whether the night's place was said, not carried on."""

    zone: str
    offset_minutes: int
    said: bool


def last_before(store: Store, night: date, within: timedelta) -> Last | None:
    """The last night before a night without a place, if near enough; None too where the night has one."""
    row = store.row(
        f"SELECT date, place_id, {_ZONE} FROM ({_LAST_BEFORE}) JOIN place ON place.id = place_id "
        "WHERE NOT EXISTS (SELECT 1 FROM night WHERE date = :night AND place_id IS NOT NULL)",
        _before(night, within),
    )
    return Last(day(row[0]), *row[1:]) if row else None


def clocks_at(store: Store, place_id: str, night: date, within: timedelta) -> tuple[Clocked, ...]:
    """The clocks of the lines written during nights at a place, those just before a night."""
    rows = store.rows(
        "SELECT DISTINCT line.zone, line.offset_minutes, place_source = 'said' FROM night JOIN line ON line.night = date "
        "WHERE place_id = :place AND date < :night AND date >= :earliest "
        "AND julianday(line.written_at, line.offset_minutes || ' minutes') - julianday(date) BETWEEN 0 AND 1.5",
        {**_before(night, within), "place": place_id},
    )
    return tuple(Clocked(zone, minutes, bool(said)) for zone, minutes, said in rows)


def place_before(store: Store, night: date, within: timedelta) -> str | None:
    """The id of the place of the last night before this one, if near enough."""
    row = store.row(
        "SELECT place_id FROM night WHERE date < ? AND date >= ? AND place_id IS NOT NULL ORDER BY date DESC LIMIT 1",
        (night.isoformat(), (night - within).isoformat()),
    )
    return row[0] if row else None


def where_between(store: Store, first: date, last: date) -> tuple[tuple[date, str | None, str], ...]:
    """The nights of a span of which anything is kept: each with its place's id, or None, and how that came."""
    rows = store.rows(
        "SELECT date, place_id, place_source FROM night WHERE date BETWEEN ? AND ? ORDER BY date",
        (first.isoformat(), last.isoformat()),
    )
    return tuple((day(row[0]), row[1], row[2]) for row in rows)


def night_before(store: Store, night: date, within: timedelta) -> date | None:
    """The last night before this one whose place is known, if near enough."""
    row = store.row(_LAST_BEFORE, _before(night, within))
    return day(row[0]) if row else None


def spent(store: Store) -> tuple[tuple[date, str], ...]:
    """Every night whose place is known, with the id of that place, oldest first."""
    rows = store.rows("SELECT date, place_id FROM night WHERE place_id IS NOT NULL ORDER BY date")
    try:
        # Not day() for each: there may be twenty thousand.
        found = tuple((date.fromisoformat(text), place_id) for text, place_id in rows)
    except (ValueError, TypeError):
        found = ()
    # They stand in order, so the ends tell of all.
    if found and found[0][0].year >= FIRST_NIGHT.year and found[-1][0].year <= LAST_NIGHT.year:
        return found
    return store.made(lambda row: (day(row[0]), row[1]), rows)


def all_at(store: Store, place_id: str) -> tuple[date, ...]:
    """Every night at a place, with lines or without, oldest first."""
    rows = store.rows("SELECT date FROM night WHERE place_id = ? ORDER BY date", (place_id,))
    return store.made(lambda row: day(row[0]), rows)
