"""Looking whether a keeper is what was written: at each opening, all of it weekly, and a share of the photos each day."""

import json
from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from keeper import private
from keeper.dates import written
from keeper.days import FIRST_NIGHT, LAST_NIGHT
from keeper.errors import DamagedPhoto, Stopped
from keeper.model import Photo
from keeper.store import Store
from keeper.store.file import known_damage
from keeper.store.file.folder import CHECKS

if TYPE_CHECKING:
    from keeper.store.damage.checking import Trouble

FULL_EVERY = 7
"""Days between two looks at all of the file."""

ALL_PHOTOS_IN = 28
"""Days within which every photo is read once, on however few of them the keeper is opened."""

_Stopped = Callable[[], bool]


def look_over(store: Store, today: date, stopped: _Stopped = lambda: False, all_of_it: bool = False) -> str:
    """Why the keeper is damaged, as a sentence, "" if nothing is wrong; noted beside its file from then on.

    What was noted before is taken back when all of it is found sound. Raises Stopped.
    """
    # Only here: the command line asks at each command whether it is due.
    from keeper.store.damage import checking

    before, noted = _read(store), known_damage.noted(store.folder)
    is_full = all_of_it or bool(noted) or _days(before, "full", today) >= FULL_EVERY
    trouble = (checking.full if is_full else checking.quick)(store, stopped)
    if trouble:
        return _note(store, sentence(trouble))
    if noted:
        with suppress(OSError):
            known_damage.clear(store.folder)
    done = {"quick": today.isoformat()} | ({"full": today.isoformat()} if is_full else {})
    _write(store, before | done)
    return ""


def look_over_daily(store: Store, today: date) -> str:
    """The same at most once a day."""
    return look_over(store, today) if not store.only_read and _days(_read(store), "quick", today) >= 1 else ""


def sentence(trouble: "Trouble") -> str:
    """What is wrong, for the person."""
    if not trouble.changed:
        return f"Its file is not built as it should be (SQLite says: {trouble.built})."
    nights = [written.long_date(date.fromisoformat(night)) for night, _ in trouble.changed[:3] if _is_date(night)]
    many = len(trouble.changed)
    which = f": {'; '.join(nights)}{' and others' if many > len(nights) else ''}" if nights else ""
    return f"{_lines(many)} not as {'it was' if many == 1 else 'they were'} written{which}."


def _lines(many: int) -> str:
    return "1 line is" if many == 1 else f"{written.number(many)} lines are"


def _is_date(text: str) -> bool:
    try:
        return bool(date.fromisoformat(text))
    except ValueError:
        return False


@dataclass(frozen=True)
class PhotosRead:
    """How many photos were read, and a sentence for each that is gone or damaged."""

    read: int
    damaged: tuple[str, ...]


def read_some_photos(store: Store, today: date, stopped: _Stopped = lambda: False) -> PhotosRead:
    """Compare the share of the photos, and of the pages of notebooks, that is due with their SHA-256, going on where it was left. Raises Stopped."""
    from keeper.store.photos import known as photos

    before = _read(store)
    # The first share is that of one day, as is each day's.
    days = min(_days(before, "photos", today), ALL_PHOTOS_IN) if "photos" in before else 1
    every = sorted((*photos.every(store), *_pages(store)), key=lambda photo: photo.sha256) if days else []
    left = [photo for photo in every if photo.sha256 > str(before.get("photo", ""))] or every
    due = left[: -(-len(every) * days // ALL_PHOTOS_IN)]
    damaged, last = [], before.get("photo", "")
    for photo in due:
        if stopped():
            raise Stopped
        try:
            photos.check(store, photo)
        except DamagedPhoto as problem:
            damaged.append(str(problem))
        last = photo.sha256
    if days:
        _write(store, before | {"photos": today.isoformat(), "photo": last})
    return PhotosRead(len(due), tuple(damaged))


def _pages(store: Store) -> Iterable[Photo]:
    """The files with pages of a notebook, as photos are told of."""
    from keeper.store.scans import known as scans

    every = scans.of_span(store, FIRST_NIGHT, LAST_NIGHT)
    return {one.sha256: Photo("", one.sha256, one.ending, one.bytes, name=one.name) for one in every}.values()


def _note(store: Store, told: str) -> str:
    # A disk that takes no note is closed to writing, and then nothing is kept either.
    with suppress(OSError):
        known_damage.note(store.folder, told)
    store.only_read = store.only_read or known_damage.DAMAGED
    return told


def why_damaged(store: Store) -> str:
    """What was noted of the damage; "" for a keeper that is well."""
    return known_damage.noted(store.folder)


def _read(store: Store) -> dict[str, str]:
    try:
        told = json.loads((store.folder / CHECKS).read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return told if isinstance(told, dict) else {}


def _write(store: Store, done: dict[str, str]) -> None:
    with suppress(OSError), open(store.folder / CHECKS, "w", encoding="utf-8", opener=private.opener) as file:
        json.dump(done, file)


def _days(done: dict[str, str], what: str, today: date) -> int:
    """Days since it was done last; many where it never was, or lies ahead by a clock set back."""
    try:
        days = (today - date.fromisoformat(done[what])).days
    except (KeyError, TypeError, ValueError):
        return 10_000
    return days if days >= 0 else 10_000
