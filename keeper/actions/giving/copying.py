"""Photos on their way into an archive while its texts are written: copied as they are, and each copy read back.

Many go in a process of their own. Threads of one process take turns at Python,
and the texts need all of them. Once those are written, this one begins at the
other end and they meet: whoever makes a file first copies it.
"""

import os
import shutil
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from concurrent.futures import wait as wait_for
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from keeper import private
from keeper.actions.apart import apart
from keeper.errors import KeeperError, Stopped
from keeper.store import Store
from keeper.store.backups.disk import FULL_OR_CLOSED
from keeper.store.photos.files import sha256_of

Progress = Callable[[float, str], None]

WORTH_A_PROCESS = 64 << 20
"""Bytes; fewer are copied sooner than a process comes up."""

_LOOK_ROUND = 0.1  # seconds


@dataclass(frozen=True, slots=True)
class ToCopy:
    """A file, where its copy is to lie, the SHA-256 it is known by, and how many bytes it has."""

    source: Path
    target: Path
    sha256: str
    bytes: int


@dataclass(frozen=True, slots=True)
class Copied:
    """Those copied, those of them whose copies are not what they should be, and why the disk takes no more (None: it took all)."""

    done: frozenset[Path]
    bad: tuple[Path, ...]
    refused: OSError | None = None


def copy_all(store: Store | None, those: Sequence[ToCopy], progress: Progress, stopped: Callable[[], bool]) -> Copied:
    """Copy files that nobody else is at, and read every copy back. Raises Stopped."""
    whole, so_far, done, bad = sum(one.bytes for one in those) or 1, 0, set(), []
    for one in those:
        if stopped():
            raise Stopped
        try:
            if not _is_ours(one.target):
                continue
            done.add(one.target)
            # By the system itself, where it can.
            shutil.copyfile(one.source, one.target)
            if sha256_of(one.target) != one.sha256:
                bad.append(one.target)
        except OSError as error:
            if error.errno in FULL_OR_CLOSED:
                return Copied(frozenset(done), tuple(bad), error)
            done.add(one.target)
            bad.append(one.target)
        so_far += one.bytes
        progress(so_far / whole, "Photos")
    return Copied(frozenset(done), tuple(bad))


def _is_ours(target: Path) -> bool:
    """Make an empty file; False where another did."""
    try:
        os.close(private.opener(os.fspath(target), os.O_RDWR | os.O_CREAT | os.O_EXCL))
    except FileExistsError:
        return False
    return True


class Copying:
    """Copies under way; ``share`` is how far they are, 0 to 1."""

    def __init__(self, store: Store, those: Sequence[ToCopy], stopped: Callable[[], bool]) -> None:
        self._store, self._those, self._stopped = store, those, stopped
        self._halt = threading.Event()
        self._outcome: Future[Copied | None] | None = None
        self._here: Copied | None = None
        self.share = 0.0

    @contextmanager
    def under_way(self) -> Iterator["Copying"]:
        """Copies while the block lasts; when it is left, nothing is copied any more."""
        with ThreadPoolExecutor(1, "copies") as pool:
            self._outcome = pool.submit(self._all)
            try:
                yield self
            finally:
                self._halt.set()

    def help(self, progress: Progress) -> None:
        """Begin at the other end, until both meet. Raises Stopped."""
        self._here = copy_all(None, self._those[::-1], lambda share, words: progress(min(1.0, self.share + share), words), self._is_over)

    def bad(self, progress: Progress) -> tuple[Path, ...]:
        """The copies that are not what they should be, when all are there. Raises OSError for a disk that takes no more, Stopped."""
        if self._here is None:
            self.help(progress)
        here = self._here
        while not wait_for([self._outcome], _LOOK_ROUND).done:
            progress(1.0, "Photos")
        there = self._outcome.result() or self._anew([one for one in self._those if one.target not in here.done], progress)
        if refused := here.refused or there.refused:
            raise refused
        return here.bad + there.bad

    def _anew(self, those: Sequence[ToCopy], progress: Progress) -> Copied:
        # What lies there of a process that ended may be half a copy.
        for one in those:
            one.target.unlink(missing_ok=True)
        return copy_all(None, those, progress, self._is_over)

    def _all(self) -> Copied | None:
        if sum(one.bytes for one in self._those) >= WORTH_A_PROCESS:
            try:
                return apart(self._store, copy_all, self._those, progress=self._hear, stopped=self._is_over)
            except Stopped:
                raise
            except KeeperError:
                # It could not open the keeper once more, say: whoever asked needs none.
                return None
        return copy_all(None, self._those, self._hear, self._is_over)

    def _hear(self, share: float, _words: str) -> None:
        self.share = share

    def _is_over(self) -> bool:
        return self._halt.is_set() or self._stopped()
