"""Bringing thousands of photos: sorted to nights by their own dates, in the background."""

import os
from collections import Counter, deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from keeper import written
from keeper.actions.photo_bringing import Brought, bring, keep_brought
from keeper.actions.photo_offers import lies_ahead, own_night
from keeper.clock import Clock
from keeper.errors import CannotWrite, KeeperError, Stopped, UnreadablePhoto, shown_name
from keeper.exchange.picture import PictureFacts
from keeper.store import Store, photo_files, photos

if TYPE_CHECKING:
    from concurrent.futures import Future, ThreadPoolExecutor

_AT_ONCE = 32
"""Photos kept in one transaction."""

_TOLD = 5
"""Reasons that the sentence names; ``left_out`` has them all."""


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A file that was not taken in, and why: words that follow its name."""

    path: Path
    why: str


@dataclass(frozen=True, slots=True)
class Summary:
    """What became of many photos.

    ``taken`` and ``already`` count photos, ``nights`` those that got one.
    ``ended_early`` is a sentence saying why not all were looked at, or "".
    """

    taken: int
    nights: int
    already: int
    left_out: tuple[LeftOut, ...]
    ended_early: str = ""

    def reasons(self) -> tuple[tuple[str, int], ...]:
        """Why files were left out, and how many for each reason, the most first."""
        return tuple(Counter(left.why for left in self.left_out).most_common())

    @property
    def sentence(self) -> str:
        """All that in a few short sentences."""
        words = [f"{_photos(self.taken)} taken in, for {written.counted(self.nights, 'night')}."]
        if self.already:
            words.append(f"{written.number(self.already)} in the keeper already.")
        if self.left_out:
            reasons = [f"{why} ({written.number(many)})" for why, many in self.reasons()[:_TOLD]]
            words.append(f"{written.number(len(self.left_out))} left out: {'; '.join(reasons)}.")
        return " ".join([*words, self.ended_early]).strip()


def take_in_many(
    store: Store,
    sources: Path | Iterable[Path],
    clock: Clock,
    rollover: int = 4,
    progress: Callable[[float, str], None] = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False,
    workers: int | None = None,
) -> Summary:
    """Take in the photos of folders and files, each with the night of its own date.

    Folders are gone through to the bottom, hidden files aside. Photos without
    a date, or dated ahead, are left out, as is whatever is no sound picture.
    ``progress`` hears a share of 0 to 1; when it raises Stopped, or
    ``stopped`` says so, or the disk is full, what has come so far stays and
    the summary says why it ended. Memory does not grow with the number of
    photos but for the list of their names.
    """
    # Only now: it costs the start of the program more than this whole module.
    from concurrent.futures import ThreadPoolExecutor

    photo_files.sweep(store.folder)
    run = _Run(store, clock, rollover)
    files = list(run.found([sources] if isinstance(sources, Path) else sources))
    with ThreadPoolExecutor(workers or os.cpu_count() or 1, "photos") as pool:
        try:
            for done, outcome in enumerate(run.outcomes(pool, files), 1):
                run.take(outcome)
                progress(done / len(files), f"{written.number(done)} of {written.number(len(files))}")
                if stopped():
                    raise Stopped("Stopped.")
            run.keep()
        except (Stopped, CannotWrite) as error:
            return run.ended("Stopped before the end." if isinstance(error, Stopped) else str(error))
        finally:
            run.clear_up()
    return run.ended("")


@dataclass
class _Run:
    """One taking in of many, under way."""

    store: Store
    clock: Clock
    rollover: int
    known: dict[str, str] = field(default_factory=dict)
    waiting: list[Brought] = field(default_factory=list)
    under_way: deque["Future"] = field(default_factory=deque)
    nights: set[date] = field(default_factory=set)
    left_out: list[LeftOut] = field(default_factory=list)
    taken: int = 0
    already: int = 0

    def __post_init__(self) -> None:
        self.known = photos.endings(self.store)

    def found(self, sources: Iterable[Path]) -> Iterator[Path]:
        """The files to look at, folder by folder, in the order of their names."""
        for source in sources:
            # Unlike Path.is_dir, this does not raise for a folder that is closed.
            if not os.path.isdir(source):
                yield source
                continue
            for here, folders, names in os.walk(source, onerror=self._unread):
                folders[:] = sorted(name for name in folders if not self._passed_by(Path(here, name)))
                yield from (Path(here, name) for name in sorted(names) if not name.startswith("."))

    def _passed_by(self, folder: Path) -> bool:
        return folder.name.startswith(".") or folder == self.store.folder

    def _unread(self, error: OSError) -> None:
        self.left_out.append(LeftOut(Path(error.filename), f"cannot be read: {(error.strerror or '').lower()}"))

    def outcomes(self, pool: "ThreadPoolExecutor", files: list[Path]) -> Iterator[Brought | LeftOut]:
        """What became of each file, in order, with a few under way at a time."""
        for file in files:
            self.under_way.append(pool.submit(self.bring, file))
            if len(self.under_way) > 2 * pool._max_workers:
                yield self.under_way.popleft().result()
        while self.under_way:
            yield self.under_way.popleft().result()

    def bring(self, file: Path) -> Brought | LeftOut:
        """Bring one file; runs in the pool's threads."""
        try:
            return bring(self.store.folder, file, self.known.get, self._unwanted)
        except UnreadablePhoto as problem:
            return LeftOut(file, str(problem).removeprefix(f"{shown_name(file)} ").rstrip("."))

    def _unwanted(self, facts: PictureFacts) -> str:
        if facts.taken_local is None:
            return "has no date"
        return "is dated ahead of today" if lies_ahead(facts.taken_local, self.clock) else ""

    def take(self, outcome: Brought | LeftOut) -> None:
        """Note what became of a file; every so often, keep what has come."""
        if isinstance(outcome, LeftOut):
            self.left_out.append(outcome)
        elif outcome.facts is None or outcome.sha256 in self.known:
            self.already += 1
        else:
            self.known[outcome.sha256] = outcome.ending
            self.waiting.append(outcome)
            if len(self.waiting) >= _AT_ONCE:
                self.keep()

    def keep(self) -> None:
        """Write down what is known of those that have come. Raises CannotWrite, Stopped."""
        batch, self.waiting = self.waiting, []
        kept = keep_brought(self.store, [(one, None) for one in batch], self.clock, self.rollover) if batch else []
        self.taken += len(kept)
        self.nights.update(own_night(photo.taken_local, self.rollover, self.clock) for photo in kept)

    def clear_up(self) -> None:
        """Let those under way end; keep what came of them if that can be, else take it away."""
        left = [future for future in self.under_way if not future.cancel()]
        self.under_way.clear()
        for future in left:
            if future.exception() is None:
                self._take_quietly(future.result())
        self._take_quietly(None)

    def _take_quietly(self, outcome: Brought | LeftOut | None) -> None:
        # The first trouble has been told; a second one of the same must not hide it.
        with suppress(KeeperError):
            self.take(outcome) if outcome else self.keep()

    def ended(self, why: str) -> Summary:
        """The summary, once all is cleared up."""
        self.clear_up()
        return Summary(self.taken, len(self.nights), self.already, tuple(self.left_out), why)


def _photos(count: int) -> str:
    return written.counted(count, "photo")
