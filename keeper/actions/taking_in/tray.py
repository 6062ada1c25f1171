"""The in-tray: a folder of the person's choosing, whose texts and photos are offered, taken in and moved aside."""

import os
import re
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from pathlib import Path

from keeper import settings
from keeper.actions import told_as, writing
from keeper.actions.photos import kept as photos
from keeper.actions.taking_in import looking
from keeper.clock import Clock
from keeper.dates.spelling import ENGLISH, Spelling
from keeper.dates.written import counted
from keeper.days import night_of
from keeper.errors import BadSetting, CannotWrite, KeeperError, UnreadableText, shown_name
from keeper.exchange.picture_kinds import ENDINGS
from keeper.exchange.tables.shape import How
from keeper.exchange.texts import folder as texts
from keeper.model import Act
from keeper.review.night import kinds_asked
from keeper.store import Store, kinds, lines
from keeper.store import settings as kept_settings

SETTING, ASIDE = "in_tray", "taken in"
"""The setting that names the folder, and the folder within it into which is moved what was taken in."""

STILL_WRITTEN = 10.0
"""Seconds for which a file must have stayed as it is: what comes from a telephone comes in pieces."""

_MOST = 2000
_COPIES = re.compile(r"conflict|konflikt|conflit|conflito", re.IGNORECASE)
_UNFINISHED = re.compile(r"^[.~]|[.~](part|partial|tmp|temp|crdownload|download|filepart|sync|!\w+)$|~$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class LeftAlone:
    """A file that was not taken in, and why: words that follow its name."""

    path: Path
    why: str


@dataclass(frozen=True)
class Waiting:
    """What waits in the in-tray: texts, photos, and what is left alone for now."""

    folder: Path
    texts: tuple[Path, ...] = ()
    photos: tuple[Path, ...] = ()
    left: tuple[LeftAlone, ...] = ()

    @property
    def told(self) -> str:
        """Such as "2 texts and 1 photo"; "" for nothing."""
        parts = [counted(len(many), what) for many, what in ((self.texts, "text"), (self.photos, "photo")) if many]
        return " and ".join(parts)


@dataclass
class TakenFromTray:
    """What was taken in. ``left`` is what stays in the in-tray; ``act`` the number of the act, None for nothing written."""

    texts: int = 0
    photos: int = 0
    left: list[LeftAlone] = field(default_factory=list)
    nights: set[date] = field(default_factory=set)
    act: int | None = None

    @property
    def sentence(self) -> str:
        """What became of it all."""
        parts = [counted(many, what) for many, what in ((self.texts, "text"), (self.photos, "photo")) if many]
        told = f"Taken in: {' and '.join(parts)}. The files are in \u201c{ASIDE}\u201d." if parts else "Nothing was taken in."
        named = "; ".join(f"{shown_name(one.path)} {one.why}" for one in self.left[:3])
        more = f"; and {counted(len(self.left) - 3, 'other')}" if len(self.left) > 3 else ""
        return f"{told} {named}{more}." if named else told


def folder_of(store: Store) -> Path | None:
    """The in-tray that was chosen."""
    named = settings.read(kept_settings.read(store), SETTING)
    return Path(named) if named else None


def choose(store: Store, folder: Path | None) -> None:
    """Choose the in-tray; None for none. Raises BadSetting for what is no folder, or lies in the keeper."""
    folder = folder.expanduser().absolute() if folder else None
    if folder and not folder.is_dir():
        raise BadSetting(f"{shown_name(folder)} is not a folder.")
    if folder and (folder == store.folder or store.folder in folder.parents or folder in store.folder.parents):
        raise BadSetting("The in-tray cannot hold the keeper, or lie within it. Choose a folder of its own.")
    with store.writing(Act("The in-tray" if folder else "No in-tray", "taking in")):
        kept_settings.write(store, {SETTING: str(folder or "")})


def waiting(store: Store, now: float | None = None) -> Waiting | None:
    """What waits in the in-tray; None where none was chosen or it cannot be reached. Looks at a disk, so for the background."""
    folder = folder_of(store)
    if folder is None:
        return None
    try:
        names = sorted(entry.name for entry in os.scandir(folder) if not entry.is_dir(follow_symlinks=False))[:_MOST]
    except OSError:
        return None
    found: dict[str, list] = {"text": [], "photo": [], "left": []}
    for path in (folder / name for name in names):
        if form := _form(path):
            why = _why_not(path, time.time() if now is None else now)
            found["left" if why else form].append(LeftAlone(path, why) if why else path)
    return Waiting(folder, *(tuple(found[what]) for what in ("text", "photo", "left")))


def _form(path: Path) -> str:
    # What a name is for is told by its end; an unfinished file's own end may stand before another.
    bare = re.sub(r"\.(part|partial|tmp|temp|crdownload|download|filepart)$", "", path.name, flags=re.IGNORECASE).lower()
    if path.name.startswith("."):
        return ""
    return "text" if bare.endswith(texts.ENDINGS) else "photo" if bare.endswith(ENDINGS) else ""


def _why_not(path: Path, now: float) -> str:
    try:
        seen = path.lstat()
    except OSError:
        return "is gone again"
    if path.is_symlink() or not path.is_file():
        return "is a link, or no file; it was left alone"
    if _UNFINISHED.search(path.name) or seen.st_size == 0 or abs(now - seen.st_mtime) < STILL_WRITTEN:
        return "is still being written; it was left for the next time"
    if _COPIES.search(path.name):
        return "looks like the copy of a conflict; it was left for you to look at"
    return ""


def take_in(
    store: Store, clock: Clock, spelling: Spelling = ENGLISH, nearest_town: photos.NearestTown | None = None,
    progress: Callable[[float, str], None] = lambda *_: None, stopped: Callable[[], bool] = lambda: False, now: float | None = None,
) -> TakenFromTray:  # fmt: skip
    """Take in what waits, as one act, and move each file aside once it is kept; no file is deleted or written over.

    A text belongs to the date in its name or at its beginning, else to the
    night on which it was last changed; its words are added to what is there.
    """
    taken, there = TakenFromTray(), waiting(store, now)
    if there is None:
        return taken
    taken.left += there.left
    files = [*((path, _take_text) for path in there.texts), *((path, _take_photo) for path in there.photos)]
    with store.going_on(told_as.of_in_tray(there.told)) as one_act:
        for at, (path, take) in enumerate(files):
            if stopped():
                break
            progress(at / len(files), f"{at + 1} of {len(files)}")
            try:
                taken.nights |= take(store, path, clock, spelling)
                _move_aside(path)
            except KeeperError as error:
                taken.left.append(LeftAlone(path, f"stays where it is: {error}".rstrip(".")))
                continue
            taken.texts, taken.photos = taken.texts + (take is _take_text), taken.photos + (take is _take_photo)
        taken.act = one_act.number
    return taken


def _take_text(store: Store, path: Path, clock: Clock, spelling: Spelling) -> set[date]:
    rollover = settings.number(kept_settings.read(store), "rollover")
    how = How("text", headed=False, order=spelling.order)
    dates = looking.dates_of(store, how, clock, spelling)
    reader = texts.by_name(path.name, dates)
    reader.first = reader.first or _changed(path, clock, rollover)
    rows = list(texts.rows_with(path, reader))
    if trouble := next((row.trouble for row in rows if row.trouble), ""):
        raise UnreadableText(f"it {trouble}.")
    if not rows:
        raise UnreadableText("there are no words in it.")
    nights = set()
    with store.writing():
        for row in rows:
            night = min(date.fromisoformat(row.cells[0]), dates.tonight)
            _add(store, night, row.cells[1], clock)
            nights.add(night)
    return nights


def _add(store: Store, night: date, text: str, clock: Clock) -> None:
    kind = kinds_asked(kinds.every(store), night)[0].key
    there = lines.one(store, night, kind)
    # What was taken in before, from whichever file, is not added a second time.
    if there is None or text.strip() not in there.text:
        writing.write_once(store, night, kind, text, clock, "add")


def _take_photo(store: Store, path: Path, clock: Clock, spelling: Spelling) -> set[date]:
    rollover = settings.number(kept_settings.read(store), "rollover")
    changed = _changed(path, clock, rollover)
    taken = photos.take_in(store, path, clock, None, rollover)
    if taken.night is None and taken.new:
        # One that carries no date came when it was put there.
        photos.put_with(store, changed, taken.photo.id, clock)
    return {taken.night or changed}


def _changed(path: Path, clock: Clock, rollover: int) -> date:
    """The night on which a file was last changed. Raises UnreadableText where it is gone."""
    try:
        changed = datetime.fromtimestamp(path.stat().st_mtime, UTC).astimezone(clock.now().tzinfo)
    except (OSError, OverflowError, ValueError) as error:
        raise UnreadableText("it cannot be read any more.") from error
    return min(night_of(changed, rollover), clock.tonight(rollover))


def _move_aside(path: Path) -> None:
    """Move a file into the folder for what was taken in, under a name that is free. Raises CannotWrite."""
    aside = path.parent / ASIDE
    try:
        aside.mkdir(exist_ok=True)
        for number in range(1, _MOST):
            name = path.name if number == 1 else f"{path.stem} {number}{path.suffix}"
            try:
                # Taken first, so that no file of this name is ever written over.
                os.close(os.open(aside / name, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
            except FileExistsError:
                continue
            os.replace(path, aside / name)
            return
    except OSError as error:
        raise CannotWrite(f"it was taken in, but could not be moved aside ({(error.strerror or str(error)).lower()}).") from error
