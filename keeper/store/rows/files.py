"""Files besides photos that tables know by their SHA-256: pages of a notebook. They lie with the photos."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from keeper.errors import NotAKeeper
from keeper.store.file.folder import PHOTOS
from keeper.store.file.opening import Store
from keeper.store.moments import day
from keeper.store.photos.files import relative_file
from keeper.store.rows.shape import TableShape, tables

_WHICH = ("sha256", "ending", "bytes")
_SPAN = ("first", "last")


@dataclass(frozen=True, slots=True)
class PageFile:
    """A file, the table that knows it, and the first and last night that it shows; None where that is not known."""

    table: str
    sha256: str
    ending: str
    bytes: int
    first: date | None = None
    last: date | None = None

    def below(self, folder: Path) -> Path:
        """Where it lies in a keeper's folder."""
        return folder / PHOTOS / relative_file(self.sha256, self.ending)


def names(store: Store) -> frozenset[str]:
    """The tables, besides that of photos, whose rows are of files."""
    return frozenset(table.name for table in _of_files(store))


def _of_files(store: Store) -> list[TableShape]:
    return [table for table in tables(store) if table.name != "photo" and set(_WHICH) <= set(table.names)]


def every(store: Store) -> tuple[PageFile, ...]:
    """All those files, each once."""
    found: dict[str, PageFile] = {}
    for table in _of_files(store):
        spans = set(_SPAN) <= set(table.names)
        columns = ", ".join((*_WHICH, *(("min(first)", "max(last)") if spans else ())))
        for row in store.rows(f"SELECT {columns} FROM {table.name} GROUP BY sha256 ORDER BY sha256"):
            found.setdefault(row[0], PageFile(table.name, *row[:3], *(_night(text) for text in row[3:])))
    return tuple(found.values())


def known(store: Store) -> frozenset[str]:
    """Their SHA-256."""
    return frozenset(one.sha256 for one in every(store))


def _night(text: object) -> date | None:
    try:
        return day(text)
    except NotAKeeper:
        return None
