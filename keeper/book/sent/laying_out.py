"""A page to send put into a folder for typst."""

import json
import shutil
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from keeper.book.coverage import faces
from keeper.book.laying_out import sizes
from keeper.book.letters import Compositor
from keeper.book.pages import later_words
from keeper.dates.written import long_date
from keeper.review.sent import SentNight, SentPage, SentPart, SentPhoto, SentTable
from keeper.shipped import resource

Data = dict[str, Any]


@dataclass
class SentLaidOut:
    """A folder with all that typst needs for a page to send; ``files`` are its photos, by their place in the page."""

    folder: Path
    work: SentPage
    files: dict[str, str]
    letters: Compositor
    name: str = "The page"
    left_out: tuple[str, ...] = field(default=())

    @property
    def main(self) -> Path:
        """The template that is set."""
        return self.folder / "sent.typ"

    def write(self) -> None:
        """Write the data anew, after the letters refused have changed."""
        self.letters.forget()
        text = json.dumps(_page(self.work, self.files, self.letters), ensure_ascii=False)
        (self.folder / "pages.json").write_bytes(text.encode("utf-8", "replace"))

    def told(self) -> tuple[str, ...]:
        """What was left out, as sentences."""
        return (*self.left_out, *self.letters.told())


def lay_out_sent(page: SentPage, folder: Path, jpeg: Callable[[SentPhoto], bytes | None]) -> SentLaidOut:
    """Put a page to send into an empty folder; a photo of which there is no JPEG is left out."""
    for template in (resource("book/parts.typ"), resource("book/sent/sent.typ")):
        shutil.copy(template, folder)
    files = {}
    for number, photo in enumerate(page.photos, 1):
        found = jpeg(photo)
        if found is not None and photo.photo.id not in files:
            files[photo.photo.id] = f"photo-{number}.jpg"
            (folder / files[photo.photo.id]).write_bytes(found)
    laid = SentLaidOut(folder, page, files, Compositor(faces(resource("fonts"))))
    laid.write()
    return laid


def _page(page: SentPage, files: dict[str, str], letters: Compositor) -> Data:
    size = sizes()[page.size]
    return {
        "size": size, "ink": page.ink, "lang": page.language or "en", "title": letters.plain(page.title), "name": "",
        "told": letters.plain(page.told), "parts": [_part(one, files, size["photo"], page.language, letters) for one in page.parts],
    }  # fmt: skip


def _part(part: SentPart, files: dict[str, str], box: list[float], language: str, letters: Compositor) -> Data:
    return {
        "title": letters.plain(part.title),
        "said": [letters.paragraphs(one, language) for one in part.said],
        "facts": [[letters.plain(name), letters.plain(told)] for name, told in part.facts],
        "photos": [_photo(one, files, box, letters) for one in part.photos if one.photo.id in files],
        "table": _table(part.table, letters) if part.table else None,
        "nights": [_night(one, letters) for one in part.nights],
    }


def _photo(photo: SentPhoto, files: dict[str, str], box: list[float], letters: Compositor) -> Data:
    its = photo.photo
    scale = min(box[0] / its.width, box[1] / its.height)
    return {
        "file": files[its.id], "width": round(its.width * scale, 2), "height": round(its.height * scale, 2),
        "alt": letters.plain(photo.alt), "caption": letters.paragraphs(its.caption),
    }  # fmt: skip


def _table(table: SentTable, letters: Compositor) -> Data:
    return {
        "caption": table.caption, "heads": list(table.heads), "told": table.told,
        "rows": [[letters.plain(cell) for cell in row] for row in table.rows],
    }  # fmt: skip


def _night(night: SentNight, letters: Compositor) -> Data:
    return {
        "date": long_date(night.date), "place": letters.plain(night.place),
        "lines": [
            {"head": letters.plain(one.head), "words": letters.paragraphs(one.text, one.language), "later": later_words(one, letters)}
            for one in night.lines
        ],
    }  # fmt: skip
