"""Photos: what is known of them, which nights they belong to, and their files."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

from keeper.days import first_of_month, last_of_month
from keeper.errors import NotAKeeper, UnknownThing
from keeper.model import Photo
from keeper.store.file.opening import Store
from keeper.store.ids import new_id
from keeper.store.moments import day, local_time, number, utc_text, words
from keeper.store.photos import files

COLUMNS = (
    "photo.id, photo.sha256, photo.ending, photo.bytes, photo.width, photo.height, photo.orientation, "
    "photo.taken_local, photo.taken_offset_minutes, photo.latitude, photo.longitude, photo.name, photo.caption, "
    "EXISTS (SELECT 1 FROM resting WHERE what = 'photo' AND ref = photo.id), "
    "photo.turns, photo.dated_by, photo.day_only, photo.cut_off"
)

_TOLD = (
    "sha256", "ending", "bytes", "width", "height", "orientation", "taken_local", "taken_offset_minutes",
    "latitude", "longitude", "name", "caption", "dated_by", "day_only", "cut_off",
)  # fmt: skip


def photo_from(row: tuple) -> Photo:
    """A photo from the values of COLUMNS, as it is seen; what is damaged of when and where is taken as not known.

    Raises NotAKeeper when it can no longer be told which photo it is.
    """
    which = [words(value) for value in row[:3]]
    size, wide, high = (number(value, 0, _LARGEST) for value in row[3:6])
    turned, turns = int(number(row[6], 1, 8) or 1), int(number(row[14], 0, 3) or 0)
    wide, high = (high, wide) if turns % 2 else (wide, high)
    where = number(row[9], -90, 90), number(row[10], -180, 180)
    # Its offset is minutes, within a day.
    return Photo(*which, size, wide, high, turned, _taken(row[7]), number(row[8], -1439, 1439), *where, str(row[11]),
                 str(row[12]), bool(row[13]), turns, words(row[15]), bool(row[16]), bool(row[17]))  # fmt: skip


def _taken(text: str | None) -> datetime | None:
    try:
        return local_time(text) if text else None
    except NotAKeeper:
        return None


_LARGEST = 1 << 50


def add(store: Store, photo: Photo, came_at: datetime | None = None) -> Photo:
    """Keep what is known of a photo whose file is in its place; returns it as kept.

    An empty id is given one; nothing is turned yet. A photo with this SHA-256 that is there already
    is returned as it is. ``came_at`` (aware) is when it was taken in.
    """
    kept = replace(photo, id=photo.id or new_id())
    row = {name: getattr(kept, name) for name in _TOLD}
    if kept.taken_local:
        row["taken_local"] = kept.taken_local.isoformat(timespec="seconds")
    values = (kept.id, *row.values(), utc_text(came_at or datetime.now(UTC)))
    marks = ", ".join("?" * len(values))
    with store.writing() as connection:
        connection.execute(
            f"INSERT INTO photo (id, {', '.join(_TOLD)}, came_at) VALUES ({marks}) ON CONFLICT (sha256) DO NOTHING",
            values,
        )
    return by_sha256(store, kept.sha256)


def by_id(store: Store, photo_id: str) -> Photo | None:
    """The photo with this id."""
    return _one(store, "WHERE id = ?", photo_id)


def by_sha256(store: Store, sha256: str) -> Photo | None:
    """The photo with this SHA-256 (hexadecimal)."""
    return _one(store, "WHERE sha256 = ?", sha256)


def endings(store: Store) -> dict[str, str]:
    """The SHA-256 of each photo, with the ending of its file."""
    return dict(store.rows("SELECT sha256, ending FROM photo"))


def taken_back_before(store: Store) -> set[str]:
    """The SHA-256 of the photos that an earlier version took back as a lot, and that no night, month or year has."""
    rows = store.rows(
        "SELECT sha256 FROM photo JOIN lot_photo ON photo_id = photo.id JOIN lot ON number = lot "
        "WHERE taken_back_at IS NOT NULL "
        "AND NOT EXISTS (SELECT 1 FROM night_photo WHERE night_photo.photo_id = photo.id) "
        "AND NOT EXISTS (SELECT 1 FROM month_page WHERE month_page.photo_id = photo.id) "
        "AND NOT EXISTS (SELECT 1 FROM year_choice WHERE what = 'photo' AND ref = photo.id)"
    )
    return {sha256 for (sha256,) in rows}


def by_bytes(store: Store) -> dict[int, set[str]]:
    """The SHA-256 of the photos whose files have so many bytes."""
    found: dict[int, set[str]] = {}
    for size, sha256 in store.rows("SELECT bytes, sha256 FROM photo"):
        found.setdefault(size, set()).add(sha256)
    return found


def of_night(store: Store, night: date) -> tuple[Photo, ...]:
    """The night's photos, in the order in which they were put there."""
    return _some(
        store,
        "JOIN night_photo ON photo_id = photo.id WHERE night = ? ORDER BY position",
        night.isoformat(),
    )


def of_month(store: Store, month: date) -> tuple[Photo, ...]:
    """The photos of a month's nights, oldest night first; each once."""
    return _some(
        store,
        "JOIN (SELECT photo_id, min(night || printf('%09d', position)) AS place FROM night_photo "
        "WHERE night BETWEEN ? AND ? GROUP BY photo_id) ON photo_id = photo.id ORDER BY place",
        first_of_month(month).isoformat(),
        last_of_month(month).isoformat(),
    )


def every(store: Store) -> tuple[Photo, ...]:
    """All photos, the latest taken first, those without a date last."""
    return _some(store, "ORDER BY taken_local DESC NULLS LAST, came_at DESC, id")


def count(store: Store) -> int:
    """How many photos the keeper holds."""
    return store.row("SELECT count(*) FROM photo")[0]


def nights_of(store: Store, photo_id: str) -> tuple[date, ...]:
    """The nights a photo belongs to, oldest first."""
    rows = store.rows("SELECT night FROM night_photo WHERE photo_id = ? ORDER BY night", (photo_id,))
    return store.made(lambda row: day(row[0]), rows)


def attach(store: Store, night: date, photo_id: str, begun_at: str = "") -> None:
    """Put a photo with a night, after those that are there.

    ``begun_at`` is for a night of which nothing was kept yet (as ``utc_text``
    spells it); "" is now. Raises UnknownThing when there is no such photo.
    """
    with store.writing() as connection:
        _must_be_there(store, photo_id)
        connection.execute(
            "INSERT OR IGNORE INTO night (date, begun_at) VALUES (?, ?)",
            (night.isoformat(), begun_at or utc_text(datetime.now(UTC))),
        )
        connection.execute(
            "INSERT OR IGNORE INTO night_photo (night, photo_id, position) SELECT ?, ?, "
            "coalesce((SELECT max(position) + 1 FROM night_photo WHERE night = ?), 0)",
            (night.isoformat(), photo_id, night.isoformat()),
        )


def detach(store: Store, night: date, photo_id: str) -> None:
    """Take a photo from a night; it stays in the keeper."""
    values = (night.isoformat(), photo_id)
    with store.writing() as connection:
        connection.execute("DELETE FROM night_photo WHERE night = ? AND photo_id = ?", values)
        connection.execute("UPDATE night SET photo_id = NULL WHERE date = ? AND photo_id = ?", values)


def set_photo_of_night(store: Store, night: date, photo_id: str | None, begun_at: str = "") -> None:
    """Choose the one photo of a night; None takes the choice back.

    A photo that is not with the night is put there. Raises UnknownThing.
    """
    with store.writing() as connection:
        if photo_id:
            attach(store, night, photo_id, begun_at)
        connection.execute("UPDATE night SET photo_id = ? WHERE date = ?", (photo_id, night.isoformat()))


def photo_of_night(store: Store, night: date) -> Photo | None:
    """The photo chosen for a night, else its first one, or None."""
    chosen = _one(store, "JOIN night ON night.photo_id = photo.id WHERE date = ?", night.isoformat())
    return chosen or next(iter(of_night(store, night)), None)


def caption(store: Store, photo_id: str, words: str) -> None:
    """Write a photo's caption anew; "" takes it out. Raises UnknownThing."""
    with store.writing() as connection:
        _must_be_there(store, photo_id)
        connection.execute("UPDATE photo SET caption = ? WHERE id = ?", (words, photo_id))


def turn(store: Store, photo_id: str, quarters: int) -> Photo:
    """Turn a photo by so many quarters to the right (negative: left); its file stays as it is.

    Returns it as it is now. Raises UnknownThing.
    """
    with store.writing() as connection:
        photo = _must_be_there(store, photo_id)
        turns = (photo.turns + quarters) % 4
        connection.execute("UPDATE photo SET turns = ? WHERE id = ?", (turns, photo_id))
        return by_id(store, photo_id)


def drop(store: Store, photo_id: str) -> None:
    """Take a photo out of the keeper, from nights and months too. Its file goes when no act can bring it back.

    Raises UnknownThing when there is no such photo.
    """
    with store.writing() as connection:
        _must_be_there(store, photo_id)
        connection.execute("DELETE FROM night_photo WHERE photo_id = ?", (photo_id,))
        for table in ("night", "month_page"):
            connection.execute(f"UPDATE {table} SET photo_id = NULL WHERE photo_id = ?", (photo_id,))
        connection.execute("DELETE FROM resting WHERE what = 'photo' AND ref = ?", (photo_id,))
        connection.execute("DELETE FROM photo WHERE id = ?", (photo_id,))


def file_of(store: Store, photo: Photo) -> Path:
    """Where the photo's file lies, be it there or not."""
    return store.folder / files.PHOTOS / files.relative_file(photo.sha256, photo.ending)


def check(store: Store, photo: Photo) -> None:
    """Raise DamagedPhoto when the file is gone, or no longer has its SHA-256."""
    files.check_file(file_of(store, photo), photo)


def _must_be_there(store: Store, photo_id: str) -> Photo:
    photo = by_id(store, photo_id)
    if photo is None:
        raise UnknownThing("That photo is no longer in the keeper.")
    return photo


def _one(store: Store, rest: str, *values: str) -> Photo | None:
    return next(iter(_some(store, rest, *values)), None)


def _some(store: Store, rest: str, *values: str) -> tuple[Photo, ...]:
    rows: Iterable[tuple] = store.rows(f"SELECT {COLUMNS} FROM photo {rest}", values)
    return store.made(photo_from, rows)


def nights_between(store: Store, first: date, last: date) -> tuple[tuple[str, date], ...]:
    """The photos of a span of nights, by id, each with its night, oldest first."""
    rows = store.rows(
        "SELECT photo_id, night FROM night_photo WHERE night BETWEEN ? AND ? ORDER BY night, position",
        (first.isoformat(), last.isoformat()),
    )
    return store.made(lambda row: (row[0], day(row[1])), rows)
