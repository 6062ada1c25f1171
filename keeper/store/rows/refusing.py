"""What SQLite says of rows that no keeper has written, as a sentence."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from keeper.errors import BadArchive


@contextmanager
def refusing() -> Iterator[None]:
    """Turn the constraints that a row from elsewhere breaks into BadArchive."""
    try:
        yield
    except (sqlite3.IntegrityError, sqlite3.InterfaceError, OverflowError, UnicodeEncodeError) as error:
        raise BadArchive(f"The archive cannot be taken in: a row in it is none that a keeper has written ({error}). Nothing was changed.") from error
