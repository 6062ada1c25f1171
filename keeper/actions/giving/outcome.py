"""What became of giving, and what the archive itself says of what is not in it."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from keeper.actions.giving.wanted import PARTS, Held, ToGive
from keeper.dates.written import counted


@dataclass(frozen=True, slots=True)
class Given:
    """An archive that was made and read back: how much is in it, how many photos are not, and what was held back."""

    path: Path
    files: int
    bytes: int
    nights: int
    lines: int
    photos: int
    lacking: int
    held: tuple[Held, ...]
    redrawn: int = 0
    pages: int = 0
    pages_lacking: int = 0
    parts: frozenset[str] = frozenset(PARTS)

    @property
    def sentence(self) -> str:
        """What was given, in a sentence or two."""
        # Only what is in it counts as given.
        lines = () if self.parts <= {"photos", "globe"} else ((self.lines, "line"),)
        photos = ((self.photos, "photo"),) if "photos" in self.parts else ()
        what = ", ".join(counted(many, one) for many, one in ((self.nights, "night"), *lines, *photos))
        if self.pages:
            what += f", {counted(self.pages, 'file')} of notebook pages"
        told = f"Given: {what}, in {counted(self.files, 'file')}. Every file was read back, and is as it was written."
        if self.redrawn:
            told += f" {counted(self.redrawn, 'photo')} of a kind that may hide positions became JPEG."
        if self.lacking:
            what = "1 photo is" if self.lacking == 1 else f"{counted(self.lacking, 'photo')} are"
            told += f" {what} not in it: {'its file is' if self.lacking == 1 else 'their files are'} gone or damaged."
        if self.pages_lacking:
            told += f" {counted(self.pages_lacking, 'file')} of notebook pages could not be given."
        return told


def not_in_it(given: Given, wanted: ToGive) -> Iterator[str]:
    """What the README of the archive tells of what was held back or is missing, in sentences."""
    yield from (held.sentence for held in given.held)
    if wanted.first or wanted.last:
        yield "Only a span of nights is in it, with the places, people and themes that belong to those."
    if not wanted.resting:
        yield "What was not to be brought up unless looked for is not in it, nor whatever names people of whom that is true."
    if not wanted.positions:
        yield "Coordinates of places and photos are not in it, nor in the photos\u2019 own notes. Names of places and time zones are."
    if given.pages_lacking:
        yield "Pages of a notebook are missing: their files were gone, or may hold positions in ways that cannot be cleared."
    if given.lacking:
        yield f"{counted(given.lacking, 'photo')} had no whole file any more."
