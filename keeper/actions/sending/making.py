"""Making a page to send."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from keeper.actions.opening import passing_folder
from keeper.actions.paper.job import Job, Progress
from keeper.actions.paper.making import printable
from keeper.actions.paper.saving import put_into
from keeper.actions.sending.spans import sent_month, sent_year
from keeper.actions.sending.things import sent_person, sent_place, sent_theme
from keeper.actions.sending.wanted import SENT, SentWanted
from keeper.book import press
from keeper.book.sent.laying_out import lay_out_sent
from keeper.book.sent.markup import standing_alone
from keeper.errors import DamagedPhoto, KeeperError, UnreadablePhoto
from keeper.review.sent import SentPage, SentPhoto
from keeper.store import Store

__all__ = ["FORMATS", "SENT", "PageSent", "SentWanted", "make_sent", "put_page", "sent_page"]

FORMATS = (".pdf", ".html")
"""What a page to send can be, by the ending of its file."""

LONGEST_SIDE = 1400
"""Pixels of a photo: large enough for a screen, small enough for a letter."""

_GATHER = {"month": sent_month, "year": sent_year, "theme": sent_theme, "place": sent_place, "person": sent_person}


class UnknownFormat(KeeperError):
    """The file's ending is none that a page can be sent as."""


@dataclass(frozen=True, slots=True)
class PageSent:
    """A page that lies where it was wanted; ``left_out`` are sentences on what is not in it, and why."""

    path: Path
    left_out: tuple[str, ...] = ()


@dataclass
class _Photos:
    """Photos made ready to leave the keeper, one after another."""

    store: Store
    job: Job
    many: int
    done: int = 0
    left_out: list[str] = field(default_factory=list)

    def jpeg(self, photo: SentPhoto) -> bytes | None:
        """The photo without whereabouts; None for one that cannot be read, which is told of. Raises Stopped."""
        self.job.check()
        self.done += 1
        self.job.progress(0.1 + 0.6 * self.done / self.many, f"Photo {self.done} of {self.many}")
        try:
            return printable(self.store, photo.photo.id, LONGEST_SIDE)
        except (UnreadablePhoto, DamagedPhoto) as problem:
            self.left_out.append(f"A photo was left out. {problem}")
            return None


def sent_page(store: Store, wanted: SentWanted) -> SentPage:
    """What is on a page to send. Raises UnknownThing where there is nothing that may be shown."""
    return _GATHER[wanted.what](store, wanted)


def make_sent(
    store: Store,
    wanted: SentWanted,
    target: Path,
    progress: Progress = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False,
) -> PageSent:
    """Make a page to send and put it into a file, a PDF or HTML by its ending.

    A file that is there gives way only to a whole one. Raises UnknownFormat,
    UnknownThing, Stopped, CannotWrite, CannotTypeset.
    """
    if target.suffix.casefold() not in (*FORMATS, ".htm"):
        raise UnknownFormat("A page is sent as .pdf or .html: let the name of the file end so.")
    job = Job("page", progress, stopped)
    job.progress(0.05, "Gathering the page")
    return put_page(store, sent_page(store, wanted), target, job)


def put_page(store: Store, page: SentPage, target: Path, job: Job) -> PageSent:
    """Put a page that is gathered into a file, a PDF or HTML by its ending. Raises Stopped, CannotWrite, CannotTypeset."""
    job.check()
    photos = _Photos(store, job, len(page.photos))
    if target.suffix.casefold() == ".pdf":
        made, told = _pdf(store, page, photos)
    else:
        made, told = standing_alone(page, photos.jpeg), ()
    job.check()
    put_into(target, made, "The page")
    job.progress(1.0, "Done")
    return PageSent(target, (*photos.left_out, *told))


def _pdf(store: Store, page: SentPage, photos: _Photos) -> tuple[bytes, tuple[str, ...]]:
    with passing_folder(store) as folder:
        with photos.job.laying_out():
            laid = lay_out_sent(page, Path(folder), photos.jpeg)
        photos.job.check()
        photos.job.progress(0.75, "Setting the page")
        pdf, _, told = press.print_plainly(laid)
        return pdf, told
