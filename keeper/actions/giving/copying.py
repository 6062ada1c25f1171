"""Photos on their way into an archive while its texts are written: copied as they are, and each copy read back.

Many go in a process of their own. Threads of one process take turns at Python,
and the texts need all of them.
"""

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
    """Those whose copies are not what they should be, and why the disk takes no more (None: it took all)."""

    bad: tuple[Path, ...]
    refused: OSError | None = None


def copy_all(store: Store | None, those: Sequence[ToCopy], progress: Progress, stopped: Callable[[], bool]) -> Copied:
    """Copy files and read every copy back. Raises Stopped."""
    whole, so_far, bad = sum(one.bytes for one in those) or 1, 0, []
    for one in those:
        if stopped():
            raise Stopped
        try:
            if not _copied(one):
                bad.append(one.target)
        except OSError as error:
            if error.errno in FULL_OR_CLOSED:
                return Copied(tuple(bad), error)
            bad.append(one.target)
        so_far += one.bytes
        progress(so_far / whole, "Photos")
    return Copied(tuple(bad))


def _copied(one: ToCopy) -> bool:
    private.make_file(one.target)
    # By the system itself, where it can.
    shutil.copyfile(one.source, one.target)
    return sha256_of(one.target) == one.sha256


class Copying:
    """Copies under way; ``share`` is how far they are, 0 to 1."""

    def __init__(self, store: Store, those: Sequence[ToCopy], stopped: Callable[[], bool]) -> None:
        self._store, self._those, self._stopped = store, those, stopped
        self._halt = threading.Event()
        self._outcome: Future[Copied] | None = None
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

    def bad(self, progress: Progress) -> tuple[Path, ...]:
        """Wait for all of it. The copies that are not what they should be. Raises OSError for a disk that takes no more, Stopped."""
        while not wait_for([self._outcome], _LOOK_ROUND).done:
            progress(self.share, "Photos")
        outcome = self._outcome.result()
        if outcome.refused:
            raise outcome.refused
        return outcome.bad

    def _all(self) -> Copied:
        if sum(one.bytes for one in self._those) >= WORTH_A_PROCESS:
            try:
                return apart(self._store, copy_all, self._those, progress=self._hear, stopped=self._is_over)
            except Stopped:
                raise
            except KeeperError:
                # It could not open the keeper once more, say: this one needs none.
                self.share = 0.0
        return copy_all(None, self._those, self._hear, self._is_over)

    def _hear(self, share: float, _words: str) -> None:
        self.share = share

    def _is_over(self) -> bool:
        return self._halt.is_set() or self._stopped()
