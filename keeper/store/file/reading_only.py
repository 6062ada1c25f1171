"""A way into a keeper's file that writes nothing beside it, for disks that are full or can only be read.

SQLite reads a file with a log (WAL) only where it can lay an index of the log
beside it. Where it cannot, a file without a log is taken as it lies, and one
with a log, or of an older version, is read into memory. ("Write-Ahead
Logging", Read-Only Databases; "URI Filenames".)
"""

import shutil
import sqlite3
from pathlib import Path


def connected_to_read(file: Path, schema: int) -> sqlite3.Connection:
    """A connection that reads a keeper's file as it is now, in the shape of today's version.

    Raises sqlite3.DatabaseError or OSError.
    """
    connection = _as_it_lies(file)
    try:
        # A newer one is for the caller to refuse.
        if connection.execute("PRAGMA user_version").fetchone()[0] >= schema:
            return connection
        return _in_todays_shape(_in_memory(connection), schema)
    except BaseException:
        connection.close()
        raise


def _as_it_lies(file: Path) -> sqlite3.Connection:
    log = file.with_name(f"{file.name}-wal")
    if not log.exists():
        return _asked(file, "immutable=1")
    try:
        # Somebody has it open, or was stopped in it.
        return _asked(file, "mode=ro")
    except sqlite3.OperationalError:
        return _with_its_log(file, log) if log.stat().st_size else _asked(file, "immutable=1")


def _asked(file: Path, how: str) -> sqlite3.Connection:
    connection = sqlite3.connect(f"{file.absolute().as_uri()}?{how}", uri=True, isolation_level=None)
    try:
        connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    except BaseException:
        connection.close()
        raise
    return connection


def _with_its_log(file: Path, log: Path) -> sqlite3.Connection:
    import tempfile

    with tempfile.TemporaryDirectory(prefix="keeper-") as passing:
        for part in (file, log):
            shutil.copyfile(part, Path(passing, part.name))
        return _in_memory(sqlite3.connect(Path(passing, file.name)))


def _in_memory(connection: sqlite3.Connection) -> sqlite3.Connection:
    memory = sqlite3.connect(":memory:", isolation_level=None)
    connection.backup(memory)
    connection.close()
    return memory


def _in_todays_shape(memory: sqlite3.Connection, schema: int) -> sqlite3.Connection:
    from sqlite_utils import Database

    from keeper.store.file.migrations import migrations

    migrations.apply(Database(memory))
    memory.execute(f"PRAGMA user_version = {schema}")
    return memory
