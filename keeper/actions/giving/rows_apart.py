"""The rows of a whole keeper as JSON, written in a process of their own while its nights are gone through.

Threads of one process take turns at Python; this way both cores have their part.
"""

import threading
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager
from itertools import chain
from pathlib import Path

from keeper import private
from keeper.actions.apart import apart
from keeper.errors import KeeperError, Stopped
from keeper.exchange.archive.bag import Written
from keeper.exchange.out.rows import RowsOut
from keeper.store import Store
from keeper.store.backups.inside import opened
from keeper.store.file.opening import SCHEMA
from keeper.store.rows import given, shape

WORTH_A_PROCESS = 16 << 20
"""Bytes of a database; a smaller one is written sooner than a process comes up."""


def write_rows(_store: Store | None, file: Path, target: Path) -> str:
    """Write every row of a copy of a keeper to a file that is not there yet; its SHA-256. Raises OSError."""
    with opened(file) as copy, open(target, "xb", opener=private.opener) as out:
        written = Written(out)
        rows = RowsOut(written, SCHEMA, True)
        for table in shape.tables(copy):
            rows.table(table.name, table.names, chain.from_iterable(given.rows(copy, table)))
        rows.end()
        written.flush()
        return written.sha256


@contextmanager
def under_way(store: Store, file: Path, target: Path, stopped: Callable[[], bool]) -> Iterator[Future[str | None]]:
    """Writes the rows while the block lasts; the outcome is their SHA-256, None where no process could do it: then no file is there."""
    over = threading.Event()

    def write() -> str | None:
        try:
            return apart(store, write_rows, file, target, stopped=lambda: over.is_set() or stopped())
        except Stopped:
            raise
        except KeeperError:
            # It could not open the keeper once more, say: whoever asked needs none.
            target.unlink(missing_ok=True)
            return None

    with ThreadPoolExecutor(1, "rows") as pool:
        try:
            yield pool.submit(write)
        finally:
            over.set()
