"""Chosen nights brought back from a backup: what the keeper lacks of them, and nothing of it lost."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date

from keeper.model import Act, Line, Night
from keeper.store import lines, nights
from keeper.store.backups import photos
from keeper.store.backups.bringing_back import bring_photos
from keeper.store.backups.listing import Backup
from keeper.store.backups.making import Progress
from keeper.store.file.opening import Store
from keeper.store.moments import day
from keeper.store.photos import known

_TOLD = {
    "lines": "SELECT night, kind, text FROM line",
    "photos": "SELECT night, sha256 FROM night_photo JOIN photo ON photo.id = photo_id",
    "readings": "SELECT night, tracker_id FROM reading",
    "places": "SELECT date FROM night WHERE place_id IS NOT NULL",
}  # fmt: skip


def every(copy: Store) -> tuple[date, ...]:
    """The nights a backup holds something of, oldest first."""
    return copy.made(lambda row: day(row[0]), copy.rows("SELECT date FROM night ORDER BY date"))


def lacking(store: Store, copy: Store) -> frozenset[date]:
    """The nights of which a backup holds something that the keeper does not: words, a photo, a reading, a place."""
    found = {row[0] for question in _TOLD.values() for row in set(copy.rows(question)) - set(store.rows(question))}
    return frozenset(copy.made(lambda text: day(text), found))


@dataclass(slots=True)
class NightsBrought:
    """What came back: ``lines`` with other words than the keeper had, or none; ``worded`` of them had others.

    ``staying`` are places and readings that the keeper has others of, and
    has still; ``lost`` photos whose files are nowhere whole.
    """

    nights: int = 0
    lines: int = 0
    worded: int = 0
    photos: int = 0
    staying: int = 0
    lost: set[str] = field(default_factory=set)


def bring(
    store: Store, copy: Store, backup: Backup, wanted: Iterable[date], act: Act, progress: Progress = lambda *_: None,
    stopped: Callable[[], bool] = lambda: False,
) -> NightsBrought:  # fmt: skip
    """Bring nights back, in one act: their lines, places, photos and readings, and the pages of the notebook they stand on.

    A line takes the words of the backup, and those it has now become an
    earlier wording; the backup's own earlier wordings come too. A place or a
    reading that is there stays. Raises CannotWrite, Stopped, OSError.
    """
    came = NightsBrought()
    chosen = sorted(set(wanted))
    pictures = _pictures(copy, chosen)
    came.lost |= set(bring_photos(store.folder, backup, pictures, progress, stopped))
    with store.writing(act):
        for night in nights.some(copy, chosen):
            came.nights += 1
            for line in night.lines:
                _bring_line(store, copy, line, came)
            _bring_wordings(store, copy, night.date)
            _bring_place(store, copy, night, came)
            _bring_readings(store, copy, night.date, came)
            _bring_pictures(store, copy, night.date, came)
            for page in _rows(copy, "scan", "? BETWEEN first AND last", night.date.isoformat()):
                _add(store, "scan", page)
    return came


def _pictures(copy: Store, chosen: Iterable[date]) -> list[photos.Wanted]:
    question = (
        "SELECT sha256, ending, bytes FROM photo JOIN night_photo ON photo_id = photo.id WHERE night = :night "
        "UNION SELECT sha256, ending, bytes FROM scan WHERE :night BETWEEN first AND last"
    )
    return list({row: None for night in chosen for row in copy.rows(question, {"night": night.isoformat()})})


def _bring_line(store: Store, copy: Store, line: Line, came: NightsBrought) -> None:
    now = lines.one(store, line.night, line.kind)
    if now is not None and now.text == line.text:
        _bring_later_words(store, copy, line.id, now.id)
        return
    _must_have_kind(store, copy, line.kind)
    lines.keep(store, line.night, line.kind, line.text, line.written)
    came.lines += 1
    came.worded += now is not None
    line_id = line.id if now is None and _is_again(store, line) else lines.one(store, line.night, line.kind).id
    for row in _rows(copy, "resting", "what = 'line' AND ref = ?", line.id):
        _add(store, "resting", {**row, "ref": line_id})
    for row in _rows(copy, "from_paper", "line_id = ?", line.id):
        _add(store, "from_paper", {**row, "line_id": line_id})
    _bring_later_words(store, copy, line.id, line_id)


def _bring_later_words(store: Store, copy: Store, theirs: str, ours: str) -> None:
    for row in _rows(copy, "later_word", "line_id = ?", theirs):
        _add(store, "later_word", {**row, "line_id": ours})


def _is_again(store: Store, line: Line) -> bool:
    """Let a line that came back be the one it was: what was chosen of it, or rests, goes by its id."""
    if lines.by_id(store, line.id) is not None:
        return False
    lines.call(store, line)
    return True


def _must_have_kind(store: Store, copy: Store, key: str) -> None:
    # Another keeper may have given its number to another kind.
    if store.row("SELECT 1 FROM kind WHERE key = ?", (key,)):
        return
    for row in _rows(copy, "kind", "key = ?", key):
        last, position = store.row("SELECT max(number), max(position) FROM kind")
        _add(store, "kind", {**row, "number": last + 1, "position": position + 1})


def _bring_wordings(store: Store, copy: Store, night: date) -> None:
    for row in _rows(copy, "wording", "night = ?", night.isoformat()):
        said = (row["night"], row["kind"], row["text"], row["written_at"])
        known_already = "SELECT 1 FROM wording WHERE night = ? AND kind = ? AND text = ? AND written_at = ?"
        if store.row(known_already, said) is None:
            _add(store, "wording", row)


def _bring_place(store: Store, copy: Store, night: Night, came: NightsBrought) -> None:
    if night.place is None:
        return
    now = nights.one(store, night.date)
    if now.place is not None:
        came.staying += now.place.id != night.place.id
        return
    # Its mark is given with its first night here: another place may have that one by now.
    for row in _rows(copy, "place", "id = ?", night.place.id):
        _add(store, "place", {**row, "mark": None})
    nights.set_place(store, night.date, night.place.id, night.place_source, _begun(copy, night.date))


def _begun(copy: Store, night: date) -> str:
    return copy.row("SELECT begun_at FROM night WHERE date = ?", (night.isoformat(),))[0]


def _bring_readings(store: Store, copy: Store, night: date, came: NightsBrought) -> None:
    for row in _rows(copy, "reading", "night = ?", night.isoformat()):
        there = store.row("SELECT value FROM reading WHERE night = ? AND tracker_id = ?", (row["night"], row["tracker_id"]))
        if there is not None:
            came.staying += there[0] != row["value"]
            continue
        _must_have_night(store, copy, night)
        for table, which in (("tracker", "id"), ("tracker_scale", "tracker_id")):
            for found in _rows(copy, table, f"{which} = ?", row["tracker_id"]):
                _add(store, table, found)
        _add(store, "reading", row)


def _must_have_night(store: Store, copy: Store, night: date) -> None:
    row = (night.isoformat(), _begun(copy, night))
    store.connection.execute("INSERT INTO night (date, begun_at) VALUES (?, ?) ON CONFLICT DO NOTHING", row)


def _bring_pictures(store: Store, copy: Store, night: date, came: NightsBrought) -> None:
    chosen = copy.row("SELECT photo_id FROM night WHERE date = ?", (night.isoformat(),))[0]
    there = {photo.sha256 for photo in known.of_night(store, night)}
    for photo in known.of_night(copy, night):
        if photo.sha256 in there or photo.sha256 in came.lost:
            continue
        for row in _rows(copy, "photo", "sha256 = ?", photo.sha256):
            _add(store, "photo", row)
        here = known.by_sha256(store, photo.sha256)
        known.attach(store, night, here.id, _begun(copy, night))
        came.photos += 1
        if chosen == photo.id and store.row("SELECT photo_id FROM night WHERE date = ?", (night.isoformat(),))[0] is None:
            known.set_photo_of_night(store, night, here.id)


def _rows(copy: Store, table: str, only: str, *values: str) -> list[dict[str, object]]:
    # Those that are reckoned from others are not among them.
    names = [row[1] for row in copy.rows(f"PRAGMA table_info({table})")]
    rows = copy.rows(f"SELECT {', '.join(names)} FROM {table} WHERE {only}", values)
    return [dict(zip(names, row, strict=True)) for row in rows]


def _add(store: Store, table: str, row: dict[str, object]) -> None:
    marks = ", ".join("?" * len(row))
    store.connection.execute(
        f"INSERT INTO {table} ({', '.join(row)}) VALUES ({marks}) ON CONFLICT DO NOTHING", tuple(row.values())
    )
