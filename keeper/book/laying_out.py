"""Everything of a book put into a folder for typst: templates, words, and photos at the size they are printed."""

import json
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from math import ceil
from pathlib import Path

from keeper.book import pages
from keeper.book.coverage import faces
from keeper.book.letters import Compositor
from keeper.errors import DamagedPhoto, UnreadablePhoto
from keeper.review.book import Book, BookPhoto, MonthSheet
from keeper.shipped import resource

DOTS_PER_INCH = 300
_MILLIMETRES_PER_INCH = 25.4
_DATA, _FITS = "book.json", "fit.json"

Picture = Callable[[str, int], bytes]
"""A photo by its id as a JPEG without whereabouts, its longer side so many pixels at most."""
Progress = Callable[[float, str], None]


@dataclass
class LaidOut:
    """A folder with all that typst needs.

    ``left_out`` are sentences for the person. Of a sheet, ``scale`` makes the
    letters smaller, ``flat`` the readings lower, and ``lacking`` is said at its
    foot.
    """

    folder: Path
    work: Book | MonthSheet
    photos: dict[str, pages.Data]
    letters: Compositor
    left_out: tuple[str, ...] = ()
    scale: float = 1.0
    flat: bool = False
    lacking: str = ""

    @property
    def name(self) -> str:
        """What is made, at the beginning of a sentence."""
        return "The book" if isinstance(self.work, Book) else "The month\u2019s page"

    @property
    def main(self) -> Path:
        """The template that is set."""
        return self.folder / ("book.typ" if isinstance(self.work, Book) else "month.typ")

    def write(self) -> None:
        """Write the data anew, after the work or the letters refused have changed."""
        self.letters.forget()
        size = page_size(self.work)
        if isinstance(self.work, Book):
            data = pages.of_book(self.work, self.photos, size, self.letters)
        else:
            made = pages.of_sheet(self.work, self.photos, size, self.letters)
            data = {**made, "scale": self.scale, "flat": self.flat, "lacking": self.lacking}
        text = json.dumps(data, ensure_ascii=False).encode("utf-8", "replace")
        (self.folder / _DATA).write_bytes(text)

    def write_fits(self, fits: dict[str, float]) -> None:
        """Write how tightly parts are set; apart from the data, so that what stays is not set anew."""
        (self.folder / _FITS).write_text(json.dumps(fits), "utf-8")

    def told(self) -> tuple[str, ...]:
        """What was left out, as sentences."""
        return (*self.left_out, *self.letters.told())


def sizes() -> pages.Data:
    """The measures of each size of page, in millimetres."""
    return json.loads(resource("book/sizes.json").read_text("utf-8"))


def page_size(work: Book | MonthSheet) -> pages.Data:
    """The measures of the page of a book or a sheet."""
    known = sizes()
    size = known[work.size]
    if isinstance(work, MonthSheet):
        size = {**size, "photo": known["sheet"][work.size]}
    return size


def lay_out(
    work: Book | MonthSheet, folder: Path, picture: Picture, progress: Progress, stopped: Callable[[], bool]
) -> LaidOut:
    """Put a book or a sheet into an empty folder. Raises Stopped when ``progress`` does.

    A photo that cannot be read is left out, and told of.
    """
    for template in resource("book").glob("*.typ"):
        shutil.copy(template, folder)
    fonts = faces(resource("fonts"))
    found, left_out = _photos(work, folder, picture, progress, stopped)
    laid = LaidOut(folder, work, found, Compositor(fonts), tuple(left_out))
    laid.write()
    laid.write_fits({})
    return laid


def _photos(
    work: Book | MonthSheet, folder: Path, picture: Picture, progress: Progress, stopped: Callable[[], bool]
) -> tuple[dict[str, pages.Data], list[str]]:
    found: dict[str, pages.Data] = {}
    left_out: list[str] = []
    for number, photo in enumerate(work.photos, 1):
        progress((number - 1) / len(work.photos), f"Photo {number} of {len(work.photos)}")
        if stopped():
            break
        file = f"photo-{number}.jpg"
        wide, high = printed_size(photo, work)
        try:
            (folder / file).write_bytes(picture(photo.id, pixels_for(photo, wide, high)))
            found[photo.id] = {"file": file, "width": round(wide, 2), "height": round(high, 2)}
        except (UnreadablePhoto, DamagedPhoto) as problem:
            what = "A page of the notebook" if isinstance(work, Book) and photo.id in work.notebook else "A photo"
            left_out.append(f"{what} was left out. {problem}")
    return found, left_out


def printed_size(photo: BookPhoto, work: Book | MonthSheet) -> tuple[float, float]:
    """The width and height in millimetres at which a photo is printed."""
    if isinstance(work, MonthSheet) and work.small_photo:
        short, long = sizes()["small photo"]
        return (long, short) if photo.width > photo.height else (short, long)
    box = page_size(work)["photo"]
    if isinstance(work, Book) and photo.id in work.notebook:
        # How wide it is against its height is seen only when it is set.
        wide, high = page_size(work)["map"]
        return wide, high
    scale = min(box[0] / photo.width, box[1] / photo.height)
    return photo.width * scale, photo.height * scale


def pixels_for(photo: BookPhoto, wide: float, high: float) -> int:
    """How many pixels its longer side has at 300 to the inch when the photo fills a space in millimetres."""
    scale = max(wide / photo.width, high / photo.height)
    longest = max(photo.width, photo.height) * scale
    return ceil(longest / _MILLIMETRES_PER_INCH * DOTS_PER_INCH)
