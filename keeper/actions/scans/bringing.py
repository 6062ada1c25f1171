"""Bringing pages of a notebook: a folder, a PDF, files of a camera; laid along a span of nights."""

import io
import re
from calendar import monthrange
from collections.abc import Callable, Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path

from keeper.actions.photos.finding import files_of
from keeper.actions.printing.marks import month_of
from keeper.actions.writing import readable
from keeper.clock import Clock
from keeper.dates import written
from keeper.errors import CannotWrite, KeeperError, Stopped, UnreadablePhoto, shown_name
from keeper.exchange.page_picture import PDF, page_as_seen
from keeper.exchange.pdf_pages import is_pdf, pages_of
from keeper.exchange.picture import read_with_thumbnail
from keeper.exchange.picture_file import media_type
from keeper.exchange.picture_kinds import ENDINGS, NAMED
from keeper.model import Act
from keeper.model.scans import Scan
from keeper.store import Store
from keeper.store.photos import files as photo_files
from keeper.store.scans import known

__all__ = ["FILES", "Came", "bring", "spread"]

FILES = (PDF, *ENDINGS)
"""The endings of files that hold pages; their content decides."""

_PROOF = 64
_CLEAR = 2400
"""Dots of the longer side of a page of a PDF whose code is looked for."""

_TOLD = 3
"""Reasons that the sentence names."""

Progress = Callable[[float, str], None]


@dataclass(frozen=True, slots=True)
class Came:
    """What became of it: the pages that came, how many there were already, and a sentence for each file left out."""

    scans: tuple[Scan, ...]
    already: int = 0
    left_out: tuple[str, ...] = ()
    months: tuple[date, ...] = ()
    """The first days of the months outside the span asked for in which pages lie now by the code on them."""

    @property
    def sentence(self) -> str:
        """All that in a few short sentences."""
        words = [f"{written.counted(len(self.scans), 'page')} of the notebook came."] if self.scans else []
        if self.months:
            words.append(f"By the code on them, pages lie in {', '.join(map(written.month_and_year, self.months))}.")
        if self.already:
            words.append(f"{written.counted(self.already, 'page')} in the keeper already.")
        words += self.left_out[:_TOLD]
        if len(self.left_out) > _TOLD:
            words.append(f"{written.counted(len(self.left_out) - _TOLD, 'more file')} left out.")
        return " ".join(words) or "There are no pages in it."


@dataclass(frozen=True, slots=True)
class _File:
    """A file in its place: those of its pages that are not kept yet, and whether it was not there before."""

    path: Path
    sha256: str
    ending: str
    bytes: int
    pages: tuple[int, ...]
    fresh: bool


def bring(
    store: Store, sources: Iterable[Path], first: date, last: date, clock: Clock,
    progress: Progress = lambda *_: None, stopped: Callable[[], bool] = lambda: False,
) -> Came:  # fmt: skip
    """Take in the pages of folders and files, and lay them along a span of nights in the order of their names; for a lane.

    A page that was printed here lies in the month that its code tells. Where a page begins can be said later. Raises CannotWrite, Stopped; then
    none came.
    """
    left_out: list[str] = []
    wanted = list(files_of(sources, store.folder, lambda path, why: left_out.append(f"{shown_name(path)} {why}.")))
    wanted.sort(key=lambda path: (str(path.parent), _by_number(path.name)))
    came: list[_File] = []
    already = 0
    try:
        for place, path in enumerate(wanted):
            if stopped():
                raise Stopped
            progress(place / len(wanted), shown_name(path))
            try:
                one, there = _received(store, path, stopped)
            except (CannotWrite, Stopped):
                raise
            except KeeperError as error:
                left_out.append(str(error))
                continue
            already += there
            came.append(one)
        made = _made(came, first, last)
        months = _months(store.folder, made, progress, stopped)
        return Came(_kept(store, came, _laid(made, months, first, last), clock), already, tuple(left_out), _elsewhere(months, first, last))
    except BaseException:
        _take_back(store, came)
        raise


def _by_number(name: str) -> list[tuple[int, str]]:
    # "page 10" comes after "page 9".
    return [(int(part), "") if part.isdecimal() else (0, part.lower()) for part in re.split(r"(\d+)", name)]


def _received(store: Store, path: Path, stopped: Callable[[], bool]) -> tuple[_File, int]:
    """Copy a file into the keeper and prove what it is; also how many of its pages are kept already.

    What is read is the copy. Raises UnreadablePhoto, CannotWrite, Stopped.
    """
    pdf = is_pdf(path)
    if not pdf:
        _must_be_a_picture(path)
    coming = photo_files.receive(store.folder, path)
    try:
        if pdf:
            ending, pages = PDF, pages_of(coming.file, path, stopped)
        else:
            ending, pages = read_with_thumbnail(coming.file, _PROOF, called=path)[0].ending, 1
        fresh = photo_files.settle(store.folder, coming, ending)
    except BaseException:
        photo_files.discard(coming)
        raise
    there = {one.page for one in known.there(store, coming.sha256)}
    missing = tuple(page for page in range(pages) if page not in there)
    return _File(path, coming.sha256, ending, coming.bytes, missing, fresh), pages - len(missing)


def _must_be_a_picture(path: Path) -> None:
    try:
        media_type(path)
    except UnreadablePhoto as error:
        if NAMED in str(error):
            raise UnreadablePhoto(f"{shown_name(path)} is neither a PDF nor a picture.") from None
        raise


def _made(came: Sequence[_File], first: date, last: date) -> list[Scan]:
    return [Scan("", one.sha256, one.ending, one.bytes, page, readable(one.path.name), first, last)
            for one in came for page in one.pages]  # fmt: skip


def _months(folder: Path, made: Sequence[Scan], progress: Progress, stopped: Callable[[], bool]) -> list[date | None]:
    """The month that each page tells by the code printed on it. Raises Stopped."""
    months = []
    for place, one in enumerate(made):
        if stopped():
            raise Stopped
        progress(place / len(made), one.name)
        months.append(_month(folder, one))
    return months


def _month(folder: Path, one: Scan) -> date | None:
    file = known.file_of(folder, one)
    if one.ending != PDF:
        return month_of(file)
    try:
        with io.BytesIO() as drawn:
            page_as_seen(file, one.page, _CLEAR).save(drawn, "PNG", compress_level=1)
            return month_of(drawn.getvalue())
    except UnreadablePhoto:
        return None


def _kept(store: Store, came: Sequence[_File], laid: Sequence[Scan], clock: Clock) -> tuple[Scan, ...]:
    if not laid:
        return ()
    photo_files.make_names_last(store.folder, [one.sha256 for one in came])
    first, last = min(one.first for one in laid), max(one.last for one in laid)
    told = f"{written.counted(len(laid), 'page')} of the notebook, {written.span(first, last)}"
    with store.writing(Act(told, "sheet", first)):
        return known.add(store, laid, clock.moment().utc)


def _laid(made: Sequence[Scan], months: Sequence[date | None], first: date, last: date) -> list[Scan]:
    """The pages with their nights: those that tell their month along it, the others along the span."""
    nights = {month: iter(spread(*(_nights_of(month) if month else (first, last)), months.count(month))) for month in set(months)}
    laid = []
    for one, month in zip(made, months, strict=True):
        begins, ends = next(nights[month])
        laid.append(replace(one, first=begins, last=ends))
    return laid


def _elsewhere(months: Sequence[date | None], first: date, last: date) -> tuple[date, ...]:
    return tuple(sorted({month for month in months if month and not first <= month <= last}))


def _nights_of(month: date) -> tuple[date, date]:
    return month, month.replace(day=monthrange(month.year, month.month)[1])


def spread(first: date, last: date, pages: int) -> list[tuple[date, date]]:
    """The first and last night of each of so many pages, laid evenly along a span; of more pages than nights several share one."""
    nights = (last - first).days + 1
    begins = [number * nights // pages for number in range(pages + 1)]
    return [(first + timedelta(days=begins[n]), first + timedelta(days=max(begins[n], begins[n + 1] - 1))) for n in range(pages)]


def _take_back(store: Store, came: Iterable[_File]) -> None:
    for one in came:
        if one.fresh and not known.there(store, one.sha256):
            # A file without a row is harmless; the first trouble is the one to tell.
            with suppress(CannotWrite):
                photo_files.take_away(store.folder, one.sha256, one.ending)
