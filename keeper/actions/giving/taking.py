"""An archive taken in: looked at and checked first, then row by row, in one act that can be undone."""

from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from datetime import date
from itertools import islice
from pathlib import Path

from keeper.actions.giving.laid_open import laid_open
from keeper.actions.history import cut_off, undoing
from keeper.actions.themes.decided import decided_so_far
from keeper.clock import Clock
from keeper.dates.written import counted
from keeper.errors import BadArchive, CannotWrite, KeeperError, NotAKeeper, Stopped, UnreadablePhoto, shown_name
from keeper.exchange.archive import checking
from keeper.exchange.archive.checking import BagListed
from keeper.exchange.archive.rows_in import Row, RowsIn
from keeper.store import Store
from keeper.store.file.opening import SCHEMA
from keeper.store.moments import utc_text
from keeper.store.photos import files as photo_files
from keeper.store.photos import known as photos
from keeper.store.rows import files as page_files
from keeper.store.rows import second_wordings
from keeper.store.rows.meeting import Difference, Meeting
from keeper.store.rows.refusing import refusing
from keeper.store.themes.decisions import KeptDecision

__all__ = ["ArchiveSeen", "ArchiveTaken", "Difference", "kept_beside", "look", "take"]

_JSON = "data/json/keeper.json"
_AT_A_TIME = 2000
"""Rows kept in one transaction: whoever types meanwhile waits for no more."""

Progress = Callable[[float, str], None]
Chosen = Collection[tuple[date, str]]


@dataclass(frozen=True, slots=True)
class ArchiveSeen:
    """What would come of taking an archive in: what is new, what is there already, and what differs."""

    folder: Path
    nights: int
    lines: int
    photos: int
    other: int
    differences: tuple[Difference, ...]
    without_file: int
    whole: bool

    @property
    def sentence(self) -> str:
        """That in a sentence or two."""
        parts = [counted(many, one) for many, one in ((self.nights, "night"), (self.lines, "line"), (self.photos, "photo")) if many]
        if parts:
            told = f"It would bring {', '.join(parts)} that this keeper does not hold."
        elif self.other:
            told = "It would bring some details to what is here."
        else:
            told = "Nothing in it is new." if self.differences else "All that is in it is here already."
        if self.without_file:
            told += f" {counted(self.without_file, 'photo')} have no file in it, and would not come."
        return told


@dataclass(frozen=True, slots=True)
class ArchiveTaken:
    """What came of an archive; ``act`` is the number to undo it by, None where nothing was changed."""

    seen: ArchiveSeen
    act: int | None

    @property
    def sentence(self) -> str:
        """That in a sentence or two."""
        seen = self.seen
        if self.act is None:
            return "All that is in the archive is here already; nothing was changed."
        parts = [counted(many, one) for many, one in ((seen.nights, "night"), (seen.lines, "line"), (seen.photos, "photo")) if many]
        told = f"Taken in: {', '.join(parts)}." if parts else "Taken in."
        if seen.differences:
            many = len(seen.differences)
            told += f" Where {counted(many, 'thing')} {'differs' if many == 1 else 'differ'}, both are kept."
        if seen.without_file:
            told += f" {counted(seen.without_file, 'photo')} had no file in it, and did not come."
        return told


def look(
    store: Store, folder: Path, progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False
) -> ArchiveSeen:
    """Check an archive, a folder or one file, and find out what it would bring; nothing is changed. Raises BadArchive, CannotWrite, Stopped."""
    with laid_open(store, folder, progress, stopped) as (opened, rest):
        listed = _checked(opened, lambda share, words: rest(share / 2, words), stopped)
        return _looked_at(store, listed, lambda share, words: rest((1 + share) / 2, words), stopped)


def _checked(folder: Path, progress: Progress, stopped: Callable[[], bool]) -> BagListed:
    listed = checking.listed(folder)
    if _JSON not in listed.hashes:
        raise BadArchive("The archive has no keeper.json, from which it could be taken in without loss.")
    checking.check(listed, progress, stopped)
    return listed


def _looked_at(store: Store, listed: BagListed, progress: Progress, stopped: Callable[[], bool]) -> ArchiveSeen:
    there = frozenset(listed.hashes.values()) if listed.algorithm == "sha256" else frozenset()
    meeting = Meeting(store, "", there | _here(store), only_look=True)
    reading = _Reading(listed.folder, progress, stopped)
    for table, row in reading.rows():
        meeting.row(table, row)
    return _seen(listed.folder, meeting, reading)


def _here(store: Store) -> frozenset[str]:
    """The SHA-256 of all photos and pages that the keeper knows."""
    return frozenset(photos.endings(store)) | page_files.known(store)


def _seen(folder: Path, meeting: Meeting, reading: "_Reading") -> ArchiveSeen:
    new = meeting.new
    shown = new["night"], new["line"], new["photo"]
    return ArchiveSeen(folder, len(meeting.nights), *shown[1:], sum(new.values()) - sum(shown), _in_order(meeting.differences),
                meeting.without_file, bool(reading.document.head.get("whole")))  # fmt: skip


def _in_order(those: list[Difference]) -> tuple[Difference, ...]:
    """By night; what belongs to none is last."""
    return tuple(sorted(those, key=lambda one: one.night or date.max))


class _Reading:
    """The rows of an archive, one after another, with progress and stop."""

    def __init__(self, folder: Path, progress: Progress, stopped: Callable[[], bool]) -> None:
        self.document = RowsIn(folder / _JSON)
        self._progress, self._stopped = progress, stopped

    def rows(self) -> Iterator[tuple[str, Row]]:
        """Each row with the name of its table. Raises BadArchive, Stopped."""
        for table, rows in self.document.tables():
            if self.document.head["schema"] > SCHEMA:
                raise BadArchive("The archive was made by a newer version of the program. Please install that to take it in.")
            for place, row in enumerate(rows):
                if not place % 500:
                    self._hear()
                _check_decision(table, row)
                yield table, row

    def _hear(self) -> None:
        if self._stopped():
            raise Stopped
        self._progress(min(1.0, self.document.share), "Nights and lines")


def _check_decision(table: str, row: Row) -> None:
    if table != "theme_decision":
        return
    try:
        import json

        decided_so_far([KeptDecision("", str(row["what"]), json.loads(str(row["detail"])), None)])
    except (TypeError, KeyError, ValueError, AttributeError, RecursionError):
        raise BadArchive("The archive cannot be taken in: a decision on themes in it cannot be read. Nothing was changed.") from None


def take(
    store: Store, folder: Path, clock: Clock, chosen: Chosen = (), progress: Progress = lambda *_: None,
    stopped: Callable[[], bool] = lambda: False,
) -> ArchiveTaken:  # fmt: skip
    """Take an archive in, a folder or one file, in one act.

    What stands here stays, and what differs is kept beside it; of the lines
    ``chosen``, by night and kind, the archive's words stand, and those that
    stood here are the earlier wording. The same archive adds nothing the
    second time. Raises BadArchive, CannotWrite, Stopped; then the keeper holds
    what it held.
    """
    with laid_open(store, folder, progress, stopped) as (opened, rest):
        listed = _checked(opened, lambda share, words: rest(0.3 * share, words), stopped)
        run = _Taking(store, listed, folder, clock, frozenset(chosen), lambda share, words: rest(0.3 + 0.7 * share, words), stopped)
        try:
            with _told(store):
                return run.go()
        except BaseException:
            run.go_back()
            raise


@contextmanager
def _told(store: Store) -> Iterator[None]:
    with refusing():
        try:
            yield
        except NotAKeeper as error:
            raise BadArchive(f"The archive cannot be taken in: {error} Nothing was changed.") from error
        except UnreadablePhoto as error:
            raise BadArchive(f"The archive cannot be taken in: {error} Nothing was changed.") from error


class _Taking:
    def __init__(
        self, store: Store, listed: BagListed, called: Path, clock: Clock, chosen: frozenset, progress: Progress, stopped: Callable[[], bool],
    ) -> None:  # fmt: skip
        self._store, self._listed, self._progress, self._stopped = store, listed, progress, stopped
        self._archive = f"The archive {shown_name(called)}"
        self._act = cut_off.under_way(store, self._archive)
        self._number: int | None = None
        self._settled: list[tuple[str, str]] = []
        have = _here(store) | frozenset(listed.hashes.values() if listed.algorithm == "sha256" else ())
        self._meeting = Meeting(store, utc_text(clock.moment().utc), have, chosen)

    def go(self) -> ArchiveTaken:
        """Bring the photos, then take in the rows, some thousands at a time."""
        self._bring_photos()
        reading = _Reading(self._listed.folder, lambda share, words: self._progress(0.4 + 0.6 * share, words), self._stopped)
        rows = reading.rows()
        while some := list(islice(rows, _AT_A_TIME)):
            self._keep(some)
        cut_off.whole(self._store, self._number, self._archive)
        return ArchiveTaken(_seen(self._listed.folder, self._meeting, reading), self._number)

    def _keep(self, some: list[tuple[str, Row]]) -> None:
        with self._store.going_on(self._act, self._number) as one:
            with self._store.writing(self._act):
                for table, row in some:
                    self._meeting.row(table, row)
            self._number = one.number

    def _bring_photos(self) -> None:
        wanted = dict(self._wanted())
        paths = {sha256: path for path, sha256 in self._listed.hashes.items() if sha256 in wanted}
        for place, (sha256, path) in enumerate(paths.items()):
            if self._stopped():
                raise Stopped
            self._progress(0.4 * place / len(paths), "Photos")
            self._bring(self._listed.folder / path, sha256, wanted[sha256])
        photo_files.make_names_last(self._store.folder, [sha256 for sha256, _ in self._settled])

    def _wanted(self) -> Iterator[tuple[str, str]]:
        """The photos and pages of its list that are not here, by their SHA-256, with the endings of their files."""
        here, of_files = _here(self._store), page_files.names(self._store) | {"photo"}
        looking = Meeting(self._store, "", only_look=True)
        for table, row in _Reading(self._listed.folder, lambda *_: None, self._stopped).rows():
            if table in of_files:
                looking.row(table, dict(row))
                if row["sha256"] not in here:
                    yield str(row["sha256"]), str(row["ending"])

    def _bring(self, file: Path, sha256: str, ending: str) -> None:
        coming = photo_files.receive(self._store.folder, file)
        if coming.sha256 != sha256:
            photo_files.discard(coming)
            raise BadArchive(f"{shown_name(file)} in the archive changed while it was taken in. Nothing was changed.")
        if photo_files.settle(self._store.folder, coming, ending):
            self._settled.append((sha256, ending))

    def go_back(self) -> None:
        """Let the keeper hold what it held before."""
        with suppress(KeeperError):
            if self._number is not None:
                undoing.turn(self._store, self._number)
        kept = self._known()
        for sha256, ending in self._settled:
            # What was undone can be done again, and needs its photos.
            if self._number is None and sha256 not in kept:
                with suppress(CannotWrite):
                    photo_files.take_away(self._store.folder, sha256, ending)

    def _known(self) -> Collection[str]:
        try:
            return _here(self._store)
        except KeeperError:
            return {sha256 for sha256, _ in self._settled}


def kept_beside(store: Store) -> tuple[Difference, ...]:
    """What came with archives and differs from what stands here, other than lines: their earlier wordings have those."""
    return second_wordings.every(store)
