"""The photos of an archive: as they are, or without what they say of where they were taken."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from keeper.actions.giving.copying import ToCopy
from keeper.actions.giving.limits import Limits
from keeper.errors import Stopped, UnreadablePhoto
from keeper.exchange import picture
from keeper.exchange.archive.bag import Bag
from keeper.exchange.picture_file import media_type
from keeper.exchange.unplaced import unplaced
from keeper.model.photos import Photo
from keeper.store.backups.disk import FULL_OR_CLOSED
from keeper.store.file.folder import PHOTOS
from keeper.store.photos.files import relative_file, sha256_of

FOLDER = "photos"
_NO_NIGHT = "no-night"


@dataclass(frozen=True, slots=True)
class FileGiven:
    """A photo's file as it is in the archive; ``orientation`` is Exif's."""

    path: str
    sha256: str
    ending: str
    bytes: int
    orientation: int


@dataclass
class PicturesGiven:
    """Puts photos into a bag: ``given`` by id; ``lacking`` are those whose file is gone or damaged; ``redrawn`` how many are new JPEGs.

    ``to_copy`` are those that are given as they are: they are not in the bag yet.
    """

    limits: Limits
    folder: Path
    bag: Bag
    given: dict[str, FileGiven] = field(default_factory=dict)
    lacking: list[str] = field(default_factory=list)
    redrawn: int = 0
    to_copy: list[ToCopy] = field(default_factory=list)

    def bring(self, progress: Callable[[float, str], None], stopped: Callable[[], bool]) -> None:
        """Bring all of them, or say what is to be copied. Raises OSError where they cannot be written, Stopped."""
        those = self.limits.photos.values()
        whole, so_far = sum(one.bytes or 0 for one in those) or 1, 0
        for photo in those:
            if stopped():
                raise Stopped
            try:
                self._bring(photo)
            except OSError as error:
                if error.errno in FULL_OR_CLOSED or _can_be_read(self._source(photo)):
                    raise
                self._lack(photo)
            so_far += photo.bytes or 0
            progress(so_far / whole, "Photos")

    def path(self, photo: Photo, ending: str) -> str:
        """Where a photo lies below the payload: by its first night, and the beginning of its hash."""
        nights = self.limits.nights_of_photos.get(photo.id)
        if not nights:
            return f"{FOLDER}/{_NO_NIGHT}/{photo.sha256[:16]}.{ending}"
        return f"{FOLDER}/{nights[0].year:04d}/{nights[0].isoformat()} {photo.sha256[:16]}.{ending}"

    def _source(self, photo: Photo) -> Path:
        return self.folder / PHOTOS / relative_file(photo.sha256, photo.ending)

    def _bring(self, photo: Photo) -> None:
        source = self._source(photo)
        if not self.limits.wanted.positions:
            self._bring_without_position(photo, source)
            return
        # One that is gone or cut off is seen before any text tells of it.
        if source.stat().st_size != photo.bytes:
            self._lack(photo)
            return
        path = self.path(photo, photo.ending)
        self.given[photo.id] = FileGiven(path, photo.sha256, photo.ending, photo.bytes, photo.orientation)
        self.to_copy.append(ToCopy(source, self.bag.awaited(path, photo.sha256), photo.sha256, photo.bytes))

    def _bring_without_position(self, photo: Photo, source: Path) -> None:
        if sha256_of(source) != photo.sha256:
            self._lack(photo)
            return
        plain = unplaced(source.read_bytes(), media_type(source), photo.orientation, photo.taken_local)
        ending, orientation = photo.ending, photo.orientation
        if plain is None:
            try:
                plain, ending, orientation = picture.without_whereabouts(source, cut_off=photo.cut_off), "jpg", 1
            except UnreadablePhoto:
                self._lack(photo)
                return
            self.redrawn += 1
        path = self.path(photo, ending)
        self.given[photo.id] = FileGiven(path, self.bag.bytes(plain, path), ending, len(plain), orientation)

    def _lack(self, photo: Photo) -> None:
        if given := self.given.pop(photo.id, None):
            self.bag.let_go(f"data/{given.path}")
        self.lacking.append(photo.id)

    def let_go_of(self, name: str) -> bool:
        """Take a photo that did not come as it should be out of the bag; False where its own file is whole."""
        photo_id = next((key for key, one in self.given.items() if f"data/{one.path}" == name), None)
        if photo_id is None:
            return False
        photo = self.limits.photos[photo_id]
        if _can_be_read(self._source(photo)) and sha256_of(self._source(photo)) == photo.sha256:
            return False
        self._lack(photo)
        return True


def _can_be_read(file: Path) -> bool:
    try:
        sha256_of(file)
    except OSError:
        return False
    return True
