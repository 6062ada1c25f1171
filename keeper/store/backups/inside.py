"""A backup opened to be read, in the shape of today's version; nothing is written beside it."""

from pathlib import Path

from keeper.errors import NewerKeeper, NotAKeeper
from keeper.store.file.opening import MARK, SCHEMA, Store
from keeper.store.file.reading_only import connected_to_read

_WHY = "it is a backup"


def opened(file: Path) -> Store:
    """The backup whose database this is, to be read only.

    Raises sqlite3.Error, OSError, NotAKeeper, NewerKeeper.
    """
    if not file.is_file():
        raise NotAKeeper("it is not there")
    store = Store(file.parent, connected_to_read(file, SCHEMA), _WHY)
    try:
        mark, version = (store.connection.execute(f"PRAGMA {name}").fetchone()[0] for name in ("application_id", "user_version"))
        if mark != MARK:
            raise NotAKeeper("it is a database, but not a keeper")
        if version > SCHEMA:
            raise NewerKeeper("This backup was made by a newer version of the program. Please install that to open it.")
    except BaseException:
        store.close()
        raise
    return store
