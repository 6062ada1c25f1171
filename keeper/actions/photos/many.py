"""Bringing thousands of photos: sorted to nights by their own dates, in the background."""

import os
from collections import Counter, deque
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from keeper.actions import told_as
from keeper.actions.photos.bringing import Brought, bring, keep_brought
from keeper.actions.photos.finding import files_of
from keeper.actions.photos.offers import lies_ahead, own_night
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import CannotWrite, CutOffPhoto, KeeperError, Stopped, UnreadablePhoto, shown_name
from keeper.exchange.picture import PictureFacts
from keeper.model import Act, Photo
from keeper.store import Store
from keeper.store.photos import files as photo_files
from keeper.store.photos import known as photos

if TYPE_CHECKING:
    from concurrent.futures import Future, ThreadPoolExecutor

_AT_ONCE = 32
"""Photos kept in one transaction."""

_TOLD = 5
"""Reasons that the sentence names; ``left_out`` has them all."""


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A file that was not taken in, and why: words that follow its name.

    One that is ``cut_off`` would be taken in as far as it goes.
    """

    path: Path
    why: str
    cut_off: bool = False


@dataclass(frozen=True, slots=True)
class Summary:
    """What became of many photos.

    ``taken`` and ``already`` count photos, ``nights`` those that got one.
    ``ended_early`` is a sentence saying why not all were looked at, or "".
    ``act`` is the number by which all can be taken back, None when none came.
    """

    taken: int
    nights: int
    already: int
    left_out: tuple[LeftOut, ...]
    ended_early: str = ""
    act: int | None = None

    def reasons(self) -> tuple[tuple[str, int], ...]:
        """Why files were left out, and how many for each reason, the most first."""
        return tuple(Counter(left.why for left in self.left_out).most_common())

    def cut_off(self) -> list[Path]:
        """The files whose end is missing."""
        return [left.path for left in self.left_out if left.cut_off]

    @property
    def sentence(self) -> str:
        """All that in a few short sentences."""
        words = [f"{counted(self.taken)} taken in, for {written.counted(self.nights, 'night')}."]
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
    cut_off: bool = False,
    goes_on: int | None = None,
) -> Summary:
    """Take in the photos of folders and files, each with the night of its own date.

    Folders are gone through to the bottom, hidden files aside. Photos without
    a date, or dated ahead, are left out, as is whatever is no sound picture;
    with ``cut_off`` one whose end is missing is taken as far as it goes.
    ``progress`` hears a share of 0 to 1; when it raises Stopped, or
    ``stopped`` says so, or the disk is full, what has come so far stays and
    the summary says why it ended. All are one act; with ``goes_on`` they are
    part of that one, to be taken back with it. Memory does not grow with the number of
    photos but for the list of their names.
    """
    # Only now: it costs the start of the program more than this whole module.
    from concurrent.futures import ThreadPoolExecutor

    photo_files.sweep(store.folder)
    told = [sources] if isinstance(sources, Path) else list(sources)
    run = _Run(store, clock, rollover, told_as.of_photos(told), cut_off, goes_on)
    files = list(run.found(told))
    unread = len(run.left_out)
    with ThreadPoolExecutor(workers or os.cpu_count() or 1, "photos") as pool:
        try:
            for done, outcome in enumerate(run.outcomes(pool, files), 1):
                run.take(outcome)
                progress(done / len(files), f"{written.number(done)} of {written.number(len(files))}")
                if stopped():
                    raise Stopped
            run.keep()
        except (Stopped, CannotWrite) as error:
            return run.ended(error, len(files) + unread)
        finally:
            run.clear_up()
    return run.ended()


@dataclass
class _Run:
    """One taking in of many, under way."""

    store: Store
    clock: Clock
    rollover: int
    act: Act
    cut_off: bool = False
    number: int | None = None
    known: dict[str, str] = field(default_factory=dict)
    waiting: list[Brought] = field(default_factory=list)
    under_way: deque["Future"] = field(default_factory=deque)
    nights: set[date] = field(default_factory=set)
    left_out: list[LeftOut] = field(default_factory=list)
    taken: int = 0
    already: int = 0

    def __post_init__(self) -> None:
        self.known = photos.endings(self.store)
        # They may be brought again, though they are here.
        self.taken_back = photos.taken_back_before(self.store)

    def found(self, sources: Iterable[Path]) -> Iterator[Path]:
        """The files to look at; folders that cannot be read are left out."""
        return files_of(sources, self.store.folder, lambda path, why: self.left_out.append(LeftOut(path, why)))

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
            return bring(self.store.folder, file, self.known.get, self._unwanted, self.cut_off)
        except UnreadablePhoto as problem:
            return LeftOut(file, why_not(file, problem), isinstance(problem, CutOffPhoto))

    def _unwanted(self, facts: PictureFacts) -> str:
        return why_unwanted(facts, self.clock)

    def take(self, outcome: Brought | LeftOut) -> None:
        """Note what became of a file; every so often, keep what has come."""
        if isinstance(outcome, LeftOut):
            self.left_out.append(outcome)
        elif outcome.sha256 in self.taken_back:
            self.taken_back.discard(outcome.sha256)
            self._wait(outcome)
        elif outcome.facts is None or outcome.sha256 in self.known:
            self.already += 1
        else:
            self._wait(outcome)

    def _wait(self, outcome: Brought) -> None:
        self.known[outcome.sha256] = outcome.ending
        self.waiting.append(outcome)
        if len(self.waiting) >= _AT_ONCE:
            self.keep()

    def keep(self) -> None:
        """Write down what is known of those that have come. Raises CannotWrite, Stopped."""
        batch, self.waiting = self.waiting, []
        if not batch:
            return
        with self.store.going_on(self.act, self.number) as one:
            kept = keep_brought(self.store, [(come, None) for come in batch], self.clock, self.rollover, self.act)
            # Only now: until it is on the disk, there is no act.
            self.number = one.number
        self.taken += len(kept)
        self.nights.update(self._night(photo) for photo in kept)

    def _night(self, photo: Photo) -> date:
        return own_night(photo, self.rollover, self.clock)

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

    def ended(self, why: KeeperError | None = None, count: int = 0) -> Summary:
        """The summary, once all is cleared up; ``why`` it ended before so many were looked at."""
        self.clear_up()
        told = "" if why is None else "Stopped before the end." if isinstance(why, Stopped) else str(why)
        rest = count - self.taken - self.already - len(self.left_out)
        if told and rest > 0:
            which = "None" if rest == count else f"The other {written.number(rest)}"
            was = "were" if 1 < rest < count else "was"
            told = f"{told} {which} of {written.number(count)} {was} {'taken' if rest == count else 'not taken'} in."
        return Summary(self.taken, len(self.nights), self.already, tuple(self.left_out), told, self.number)


def why_not(file: Path, problem: UnreadablePhoto) -> str:
    """What is wrong with a file, as words that follow its name."""
    return str(problem).removeprefix(f"{shown_name(file)} ").rstrip(".")


def why_unwanted(facts: PictureFacts, clock: Clock) -> str:
    """Why a sound picture goes to no night by itself, or ""."""
    if facts.taken_local is None:
        return "has no date"
    return "is dated ahead of today" if lies_ahead(facts.taken_local, clock) else ""


def counted(photos: int) -> str:
    """So many photos, in words."""
    return written.counted(photos, "photo")
