"""Trackers and their readings."""

from collections.abc import Iterable, Sequence
from datetime import UTC, date, datetime

from keeper.errors import UnknownThing
from keeper.model import FORMS, Act, Reading, Tracker
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import damaged, day, number, utc_text, words

_COLUMNS = "id, name, form, low, high, unit, better, began, ended, step, key, body"

_LARGEST = 1e15


def every(store: Store) -> tuple[Tracker, ...]:
    """All trackers, ended ones too, in the person's order."""
    return store.made(_tracker, store.rows(f"SELECT {_COLUMNS}, axis FROM tracker ORDER BY position, name"))


def by_id(store: Store, tracker_id: str) -> Tracker | None:
    """The tracker with this id."""
    row = store.row(f"SELECT {_COLUMNS}, axis FROM tracker WHERE id = ?", (tracker_id,))
    return next(iter(store.made(_tracker, [row] if row else [])), None)


def _tracker(row: tuple) -> Tracker:
    ends = [number(value, -_LARGEST, _LARGEST) for value in row[3:5]]
    told = [words(value) for value in row[:3]]
    if told[2] not in FORMS:
        raise damaged(told[2], "a form of reading")
    return Tracker(
        *told, *ends, words(row[5]), words(row[6]), day(row[7]), day(row[8]) if row[8] else None,
        number(row[9], 1e-6, _LARGEST) or 1.0, words(row[10]), bool(row[11]), words(row[12]),
    )  # fmt: skip


def add(store: Store, tracker: Tracker, act: Act | None = None) -> str:
    """Begin a tracker at the end of the row; an empty id is given one."""
    tracker_id = tracker.id or new_id()
    with store.writing(act) as connection:
        connection.execute(
            f"INSERT INTO tracker ({_COLUMNS}, position) "
            "SELECT ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, coalesce(max(position), -1) + 1 FROM tracker",
            (tracker_id, *_values(tracker)),
        )
    return tracker_id


def _values(tracker: Tracker) -> tuple:
    return (
        tracker.name, tracker.form, tracker.low, tracker.high, tracker.unit, tracker.better, tracker.began.isoformat(),
        tracker.ended.isoformat() if tracker.ended else None, tracker.step, tracker.key, int(tracker.body),
    )  # fmt: skip


def change(store: Store, tracker: Tracker, act: Act | None = None) -> None:
    """Keep a tracker as it is now; what was noted keeps the scale and the unit it had."""
    now = (tracker.id, tracker.low, tracker.high, tracker.unit)
    with store.writing(act) as connection:
        connection.execute(
            "INSERT INTO tracker_scale (tracker_id, number, low, high, unit) "
            "SELECT id, scale, low, high, unit FROM tracker WHERE id = ? AND (low IS NOT ? OR high IS NOT ? OR unit <> ?) "
            "AND EXISTS (SELECT 1 FROM reading WHERE tracker_id = tracker.id AND reading.scale = tracker.scale)",
            now,
        )
        # One that nothing was noted on leaves no trace, and its number to the next.
        connection.execute(
            "UPDATE tracker SET name = ?, form = ?, low = ?, high = ?, unit = ?, better = ?, began = ?, ended = ?, "
            "step = ?, key = ?, body = ?, "
            "scale = coalesce((SELECT max(number) + 1 FROM tracker_scale WHERE tracker_id = tracker.id), 0) WHERE id = ?",
            (*_values(tracker), tracker.id),
        )


def remove(store: Store, tracker_id: str, act: Act | None = None) -> None:
    """Take out a tracker of which nothing was noted; another one stays as it is."""
    with store.writing(act) as connection:
        connection.execute(
            "DELETE FROM tracker WHERE id = ? AND NOT EXISTS (SELECT 1 FROM reading WHERE tracker_id = tracker.id)",
            (tracker_id,),
        )


def put_in_order(store: Store, ids: Sequence[str], act: Act | None = None) -> None:
    """Let trackers stand in this order; those not named come after, in theirs."""
    rest = [one.id for one in every(store) if one.id not in ids]
    with store.writing(act) as connection:
        connection.executemany(
            "UPDATE tracker SET position = ?1 WHERE id = ?2 AND position <> ?1", list(enumerate([*ids, *rest]))
        )


def put_on_one_axis(store: Store, ids: Sequence[str], act: Act | None = None) -> None:
    """Draw these on one axis from now on, whatever they shared before; a single one stands alone."""
    axis = ids[0] if len(ids) > 1 else ""
    with store.writing(act) as connection:
        # An axis goes by its first reading: those that stood with it until now are let go.
        connection.execute("UPDATE tracker SET axis = '' WHERE axis = ? AND axis <> ''", (axis,))
        connection.executemany("UPDATE tracker SET axis = ? WHERE id = ?", [(axis, one) for one in ids])


def note(store: Store, readings: Iterable[Reading], act: Act | None = None, at: datetime | None = None) -> None:
    """Keep readings, in their trackers' scales and units of now; one already noted for the night is replaced.

    The same again changes nothing. A reading's own ``unit`` is kept where it is another. Raises UnknownThing
    where there is no such tracker; then nothing is kept.
    """
    now = utc_text(at or datetime.now(UTC))
    with store.writing(act) as connection:
        for one in readings:
            night = one.night.isoformat()
            connection.execute(
                "INSERT INTO night (date, begun_at) VALUES (?, ?) ON CONFLICT (date) DO NOTHING", (night, now)
            )
            kept = connection.execute(_NOTED, (night, one.value, now, one.first, one.until, one.unit, one.tracker_id))
            if not kept.rowcount and by_id(store, one.tracker_id) is None:
                raise UnknownThing("What is to be noted is no longer among the readings.")


_NOTED = """
    INSERT INTO reading (night, tracker_id, value, noted_at, first, until, unit, scale)
    SELECT ?1, id, ?2, ?3, ?4, ?5, CASE WHEN unit = ?6 THEN '' ELSE ?6 END, scale FROM tracker WHERE id = ?7
    ON CONFLICT (tracker_id, night) DO UPDATE SET value = excluded.value, noted_at = excluded.noted_at,
    first = excluded.first, until = excluded.until, unit = excluded.unit, scale = excluded.scale
    WHERE (value, first, until, unit, scale)
    IS NOT (excluded.value, excluded.first, excluded.until, excluded.unit, excluded.scale)"""


def take_back(store: Store, tracker_id: str, night: date, act: Act | None = None) -> None:
    """Let a reading be not noted."""
    with store.writing(act) as connection:
        connection.execute(
            "DELETE FROM reading WHERE tracker_id = ? AND night = ?", (tracker_id, night.isoformat())
        )


READING = """
    SELECT night, reading.tracker_id, value, first, until,
    CASE reading.unit WHEN '' THEN coalesce(former.unit, '') ELSE reading.unit END, former.low, former.high
    FROM reading LEFT JOIN tracker_scale AS former
    ON former.tracker_id = reading.tracker_id AND former.number = reading.scale"""
"""Rows from which ``reading_from`` makes readings."""


def readings(store: Store, first: date, last: date) -> tuple[Reading, ...]:
    """All readings of a span of nights, oldest first."""
    rows = store.rows(
        f"{READING} WHERE night BETWEEN ? AND ? ORDER BY night", (first.isoformat(), last.isoformat())
    )
    return store.made(reading_from, rows)


def readings_of(store: Store, tracker_id: str, first: date, last: date) -> tuple[Reading, ...]:
    """The readings of one tracker in a span of nights, oldest first."""
    rows = store.rows(
        f"{READING} WHERE reading.tracker_id = ? AND night BETWEEN ? AND ? ORDER BY night",
        (tracker_id, first.isoformat(), last.isoformat()),
    )
    return store.made(reading_from, rows)


_AS_NOW = "reading.unit = '' AND reading.scale = (SELECT scale FROM tracker WHERE id = ?1)"


def values_as_now(store: Store, tracker_id: str, first: date, last: date) -> dict[date, float]:
    """By night what was noted in the unit and on the scale that a tracker has now: of many years far quicker than readings."""
    rows = store.rows(
        f"SELECT night, value FROM reading WHERE tracker_id = ?1 AND night BETWEEN ?2 AND ?3 AND {_AS_NOW}",
        (tracker_id, first.isoformat(), last.isoformat()),
    )
    return dict(store.made(_value, rows))


def _value(row: tuple) -> tuple[date, float]:
    if number(row[1], -_LARGEST, _LARGEST) is None:
        raise damaged(row[1], "a reading")
    return day(row[0]), row[1]


def readings_as_then(store: Store, tracker_id: str, first: date, last: date) -> tuple[Reading, ...]:
    """The other readings of a tracker: noted in another unit, or on another scale."""
    rows = store.rows(
        f"{READING} WHERE reading.tracker_id = ?1 AND night BETWEEN ?2 AND ?3 AND NOT ({_AS_NOW})",
        (tracker_id, first.isoformat(), last.isoformat()),
    )
    return store.made(reading_from, rows)


def noted_between(store: Store, first: date, last: date) -> frozenset[str]:
    """The ids of the trackers of which anything was noted in a span of nights."""
    rows = store.rows(
        "SELECT id FROM tracker WHERE EXISTS (SELECT 1 FROM reading WHERE tracker_id = tracker.id AND night BETWEEN ? AND ?)",
        (first.isoformat(), last.isoformat()),
    )
    return frozenset(row[0] for row in rows)


def nights_noted(store: Store, first: date, last: date) -> tuple[date, ...]:
    """The nights of a span on which anything was noted, oldest first."""
    rows = store.rows(
        "SELECT DISTINCT night FROM reading WHERE night BETWEEN ? AND ? ORDER BY night", (first.isoformat(), last.isoformat())
    )
    return store.made(lambda row: day(row[0]), rows)


def reading_from(row: tuple) -> Reading:
    """A reading from a row of READING. Raises NotAKeeper for a damaged one."""
    night, tracker_id, value, first, until, unit, low, high = row
    if number(value, -_LARGEST, _LARGEST) is None:
        raise damaged(value, "a reading")
    return Reading(day(night), tracker_id, value, words(first), words(until), words(unit), low, high)


def highest(store: Store, tracker_id: str) -> tuple[Reading, ...]:
    """The highest reading ever noted in each unit and on each scale that a tracker had."""
    scales = store.rows(
        "SELECT scale FROM tracker WHERE id = ?1 UNION SELECT number FROM tracker_scale WHERE tracker_id = ?1", (tracker_id,)
    )
    rows = []
    for (scale,) in scales:
        # Each is the last of its kind in the index: what lies before it is not read.
        others = "SELECT DISTINCT unit FROM reading WHERE tracker_id = ? AND scale = ? AND unit > ''"
        for unit in ("", *(row[0] for row in store.rows(others, (tracker_id, scale)))):
            rows += store.rows(_HIGHEST, (tracker_id, scale, unit))
    return store.made(reading_from, rows)


_HIGHEST = f"""{READING}
    WHERE reading.tracker_id = ? AND reading.scale = ? AND reading.unit = ? ORDER BY reading.value DESC LIMIT 1"""


def noted(store: Store, tracker_id: str) -> tuple[int, date | None, date | None]:
    """On how many nights a tracker was noted, first and last."""
    many, first, last = store.row(
        "SELECT count(*), min(night), max(night) FROM reading WHERE tracker_id = ?", (tracker_id,)
    )
    return many, day(first) if many else None, day(last) if many else None
