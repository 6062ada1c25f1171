"""Pages of a notebook in an archive: each file once, as it is, or without what it says of where it was taken."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from keeper.actions.giving.limits import Limits
from keeper.actions.giving.pictures import FileGiven
from keeper.errors import Stopped, UnreadablePhoto
from keeper.exchange.archive.bag import Bag
from keeper.exchange.picture import look_at
from keeper.exchange.picture_file import media_type
from keeper.exchange.unplaced import unplaced
from keeper.store.photos.files import sha256_of
from keeper.store.rows.files import PageFile, every

FOLDER = "notebook"


@dataclass
class NotebookGiven:
    """Puts the pages into a bag: ``given`` by the SHA-256 that the keeper knows; ``lacking`` have no file that can be given."""

    limits: Limits
    folder: Path
    bag: Bag
    given: dict[str, FileGiven] = field(default_factory=dict)
    lacking: list[str] = field(default_factory=list)

    def bring(self, stopped: Callable[[], bool]) -> None:
        """Bring all of them. Raises OSError where they cannot be written, Stopped."""
        for page in every(self.limits.copy):
            if stopped():
                raise Stopped
            if not self._is_wanted(page):
                continue
            source = page.below(self.folder)
            if not _is_whole(source, page.sha256):
                self.lacking.append(page.sha256)
            elif self.limits.wanted.positions:
                path = self._path(page)
                self.bag.file(source, path, page.sha256)
                self.given[page.sha256] = FileGiven(path, page.sha256, page.ending, page.bytes, 1)
            else:
                self._bring_without_position(page, source)

    def _is_wanted(self, page: PageFile) -> bool:
        wanted = self.limits.wanted
        # Nobody can tell what of a page of handwriting rests.
        within = page.first is not None and page.last is not None and wanted.within(page.first) and wanted.within(page.last)
        return wanted.all_nights or (wanted.resting and within)

    def _path(self, page: PageFile) -> str:
        night = f"{page.first.isoformat()} " if page.first else ""
        return f"{FOLDER}/{night}{page.sha256[:16]}.{page.ending}"

    def _bring_without_position(self, page: PageFile, source: Path) -> None:
        try:
            plain = unplaced(source.read_bytes(), media_type(source), look_at(source).orientation)
        except UnreadablePhoto:
            plain = None
        if plain is None:
            self.lacking.append(page.sha256)
            return
        path = self._path(page)
        self.given[page.sha256] = FileGiven(path, self.bag.bytes(plain, path), page.ending, len(plain), 1)


def _is_whole(file: Path, sha256: str) -> bool:
    try:
        return sha256_of(file) == sha256
    except OSError:
        return False
