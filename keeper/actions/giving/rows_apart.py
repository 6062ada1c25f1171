"""The rows of a whole keeper as JSON, and its stays and journeys, written in a process of their own while its nights are gone through.

Threads of one process take turns at Python; this way both cores have their part.
"""

import threading
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from itertools import chain
from pathlib import Path

from keeper import private
from keeper.actions.apart import apart
from keeper.actions.giving.limits import Limits
from keeper.actions.giving.wanted import ToGive
from keeper.actions.giving.whereabouts import FORMS, write_globe
from keeper.errors import KeeperError, Stopped
from keeper.exchange.archive.bag import Written
from keeper.exchange.out.rows import RowsOut
from keeper.store import Store
from keeper.store.backups.inside import opened
from keeper.store.file.opening import SCHEMA
from keeper.store.rows import given, shape

WORTH_A_PROCESS = 16 << 20
"""Bytes of a database; a smaller one is written sooner than a process comes up."""


def write_rows(_store: Store | None, file: Path, target: Path, globe: Mapping[str, Path]) -> list[str]:
    """Write every row of a copy of a keeper, and the ``globe``'s forms, to files that are not there yet; their SHA-256. Raises OSError."""
    with opened(file) as copy, ExitStack() as open_:
        written = [Written(open_.enter_context(open(one, "xb", opener=private.opener))) for one in (target, *globe.values())]
        rows = RowsOut(written[0], SCHEMA, True)
        for table in shape.tables(copy):
            rows.table(table.name, table.names, chain.from_iterable(given.rows(copy, table)))
        rows.end()
        if globe:
            write_globe([FORMS[path](out) for path, out in zip(globe, written[1:], strict=True)], Limits(copy, ToGive()))
        for one in written:
            one.flush()
        return [one.sha256 for one in written]


@contextmanager
def under_way(
    store: Store, file: Path, target: Path, globe: Mapping[str, Path], stopped: Callable[[], bool]
) -> Iterator[Future[list[str] | None]]:
    """Writes them while the block lasts; the outcome are the SHA-256, None where no process could do it: then no file is there."""
    over = threading.Event()

    def write() -> list[str] | None:
        try:
            return apart(store, write_rows, file, target, globe, stopped=lambda: over.is_set() or stopped())
        except Stopped:
            raise
        except KeeperError:
            # It could not open the keeper once more, say: whoever asked needs none.
            for one in (target, *globe.values()):
                one.unlink(missing_ok=True)
            return None

    with ThreadPoolExecutor(1, "rows") as pool:
        try:
            yield pool.submit(write)
        finally:
            over.set()
