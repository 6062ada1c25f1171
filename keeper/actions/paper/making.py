"""Making the book of a year, and the sheet of a month."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from functools import partial
from pathlib import Path

from keeper.actions.opening import passing_folder
from keeper.actions.paper.contents import book_of, sheet_of
from keeper.actions.paper.job import Job, Progress
from keeper.actions.paper.notebook import page_to_print
from keeper.actions.paper.saving import put_into
from keeper.actions.paper.themes import themes_for_book
from keeper.actions.photos.kept import to_give_away
from keeper.book import press
from keeper.book.laying_out import lay_out
from keeper.book.press import SetFrom
from keeper.clock import Clock
from keeper.errors import DamagedPhoto
from keeper.review.book import LINES, SIZES, Book, BookParts, MonthSheet
from keeper.store import Store
from keeper.store.photos import known as photos

__all__ = ["LINES", "SIZES", "BookParts"]

_PHOTOS = 0.75
"""The share of the setting after which the photos are done."""


@dataclass(frozen=True, slots=True)
class BookMade:
    """A book that lies where it was wanted. ``left_out`` are sentences on what is not in it, and why."""

    path: Path
    pages: int
    left_out: tuple[str, ...] = ()


@dataclass(slots=True)
class Proof:
    """A book that is made but not yet put anywhere; its folder goes with it."""

    laid: SetFrom
    pdf: bytes
    pages: int
    left_out: tuple[str, ...]
    pictures: tuple[Path, ...] = field(default=())


def make_book(
    store: Store,
    year: int,
    parts: BookParts,
    target: Path,
    clock: Clock,
    progress: Progress = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False,
) -> BookMade:
    """Make the book of a year and put it into a file.

    A file that is there gives way only to a whole one. ``progress`` hears a
    share of 0 to 1. Raises Stopped, UnknownThing for a year of which nothing is
    kept, CannotWrite, CannotTypeset.
    """
    with passing_folder(store) as folder:
        return save(proof_book(store, year, parts, Path(folder), clock, progress, stopped), target)


def make_month_sheet(
    store: Store,
    month: date,
    target: Path,
    clock: Clock,
    parts: BookParts | None = None,
    small_photo: bool = False,
    progress: Progress = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False,
) -> BookMade:
    """Make a month's page to print, a single one; ``small_photo`` sets the photo at 50 x 76 mm.

    Where not all has room, ``one_page`` says what gives way; the page and the
    outcome tell.
    Raises as ``make_book``.
    """
    wanted = parts or BookParts(lines="chosen", answers=False)
    job = Job("page", progress, stopped)
    with passing_folder(store) as folder:
        made = _proof(store, partial(sheet_of, store, month, wanted, small_photo), wanted, Path(folder), clock, job)
        return save(made, target)


def proof_book(
    store: Store,
    year: int,
    parts: BookParts,
    folder: Path,
    clock: Clock,
    progress: Progress = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False,
) -> Proof:
    """Make the book of a year in an empty folder, to be looked at and saved. Raises as ``make_book``.

    Themes that are wanted and not there, or out of date, are looked for first;
    where there are none, the outcome tells why.
    """
    job = Job("book", progress, stopped)
    progress(0.0, "Gathering the year")
    return _proof(store, partial(book_of, store, year, parts), parts, folder, clock, job)


def picture_pages(proof: Proof, dots_per_inch: float = 110.0) -> tuple[Path, ...]:
    """The pages of a proof as pictures (PNG) in its folder, in order; some seconds for a full year."""
    if not proof.pictures:
        proof.pictures = press.picture_pages(proof.laid, proof.laid.folder, dots_per_inch)
    return proof.pictures


def save(proof: Proof, target: Path) -> BookMade:
    """Put a proof into a file. Raises CannotWrite; then a file that was there is still what it was."""
    put_into(target, proof.pdf, proof.laid.name)
    return BookMade(target, proof.pages, proof.left_out)


def _proof(
    store: Store, gather: Callable[[], Book | MonthSheet], parts: BookParts, folder: Path, clock: Clock, job: Job
) -> Proof:
    job.check()
    # Before themes are looked for, which takes longer: there may be nothing to make.
    work = gather()
    told = themes_for_book(store, parts, clock, job)
    if job.begun:
        work = gather()
    job.check()
    with job.laying_out():
        laid = lay_out(
            work, folder, lambda its_id, side: _printable(store, work, its_id, side),
            lambda share, words: job.progress(0.05 + share * (_PHOTOS - 0.05), words), job.stopped,
        )  # fmt: skip
    job.check()
    job.progress(_PHOTOS, "Setting the pages")
    pdf, pages, left_out = press.print_pdf(laid)
    job.check()
    job.progress(1.0, "Done")
    return Proof(laid, pdf, pages, (*told, *left_out))


def printable(store: Store, photo_id: str, longest_side: int) -> bytes:
    """A photo as it is printed, without its whereabouts. Raises DamagedPhoto."""
    photo = photos.by_id(store, photo_id)
    if photo is None:
        raise DamagedPhoto("It is no longer in the keeper.")
    return to_give_away(store, photo, longest_side)


def _printable(store: Store, work: Book | MonthSheet, its_id: str, longest_side: int) -> bytes:
    if isinstance(work, Book) and its_id in work.notebook:
        return page_to_print(store, its_id, longest_side)
    return printable(store, its_id, longest_side)
