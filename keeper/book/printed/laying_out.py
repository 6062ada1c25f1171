"""Pages to print put into a folder for typst: templates, words, and the photo at the size it is printed."""

import json
import shutil
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from keeper.book.coverage import faces
from keeper.book.laying_out import Picture, pixels_for
from keeper.book.letters import Compositor
from keeper.book.printed import months, others
from keeper.book.printed.imposing import Imposed
from keeper.errors import DamagedPhoto, UnreadablePhoto
from keeper.review.book import BookPhoto
from keeper.review.printed.pages import (
    Printed,
    PrintedCards,
    PrintedMonth,
    PrintedNights,
    PrintedYear,
    RulerPage,
)
from keeper.shipped import resource

Data = dict[str, object]

_TEMPLATES = {PrintedMonth: "month", PrintedYear: "year", PrintedNights: "nights", PrintedCards: "cards", RulerPage: "ruler"}
_BUILT_BY: dict[type, Callable[..., Data]] = {
    PrintedMonth: months.of_month, PrintedYear: others.of_year, PrintedNights: others.of_nights,
    PrintedCards: others.of_cards, RulerPage: others.of_ruler,
}  # fmt: skip

SHORT, LONG = 50.0, 76.0
"""Millimetres of a month's photo."""


@dataclass
class PagesLaidOut:
    """A folder with all that typst needs for pages to print; ``left_out`` are sentences for the person."""

    folder: Path
    work: Printed
    photo: Data | None
    letters: Compositor
    name: str = "The page"
    left_out: tuple[str, ...] = field(default=())

    @property
    def title(self) -> str:
        """What the document is called."""
        return json.loads((self.folder / "pages.json").read_bytes())["title"]

    @property
    def main(self) -> Path:
        """The template that is set."""
        return self.folder / f"{_TEMPLATES[type(self.work)]}.typ"

    def write(self) -> None:
        """Write the data anew, after the letters refused have changed."""
        self.letters.forget()
        data = _BUILT_BY[type(self.work)](self.work, self.photo, self.letters)
        (self.folder / "pages.json").write_bytes(json.dumps(data, ensure_ascii=False).encode("utf-8", "replace"))

    def told(self) -> tuple[str, ...]:
        """What was left out, as sentences."""
        return (*self.left_out, *self.letters.told())


@dataclass
class SheetsLaidOut:
    """A folder with pages that are set (``pages.pdf``), and where on the sheets each goes."""

    folder: Path
    letters: Compositor
    name: str = "The page"

    @property
    def main(self) -> Path:
        """The template that is set."""
        return self.folder / "sheets.typ"

    def write(self) -> None:
        """Nothing changes."""

    def told(self) -> tuple[str, ...]:
        """Nothing is left out."""
        return ()


def lay_out_pages(work: Printed, folder: Path, picture: Picture) -> PagesLaidOut:
    """Put pages to print into an empty folder. A photo that cannot be read is left out, and told of."""
    for template in (resource("book/parts.typ"), *resource("book/printed").glob("*.typ")):
        shutil.copy(template, folder)
    photo, left_out = _photo(next(iter(work.photos), None), folder, picture)
    laid = PagesLaidOut(folder, work, photo, Compositor(faces(resource("fonts"))), left_out=left_out)
    laid.write()
    return laid


def lay_out_sheets(laid: PagesLaidOut, pdf: bytes, on: Imposed) -> SheetsLaidOut:
    """Put pages that are set upon sheets, in the folder in which they were laid out."""
    size = [laid.work.leaf.width, laid.work.leaf.height]
    whole = max(on.sides, key=len, default=())
    data = {
        "title": laid.title, "width": on.width, "height": on.height, "page": size, "cut": on.cut,
        "sides": [[{"page": spot.page, "x": spot.x, "y": spot.y} for spot in side] for side in on.sides],
        "grid": [{"x": spot.x, "y": spot.y} for spot in whole],
    }  # fmt: skip
    (laid.folder / "pages.pdf").write_bytes(pdf)
    (laid.folder / "sheets.json").write_text(json.dumps(data), "utf-8")
    return SheetsLaidOut(laid.folder, laid.letters)


def _photo(photo: BookPhoto | None, folder: Path, picture: Picture) -> tuple[Data | None, tuple[str, ...]]:
    if photo is None:
        return None, ()
    wide, high = (LONG, SHORT) if photo.width > photo.height else (SHORT, LONG)
    try:
        (folder / "photo.jpg").write_bytes(picture(photo.id, pixels_for(photo, wide, high)))
    except (UnreadablePhoto, DamagedPhoto) as problem:
        return None, (f"A photo was left out. {problem}",)
    return {"file": "photo.jpg", "width": wide, "height": high}, ()
