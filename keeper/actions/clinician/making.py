"""The page for a clinician set as a PDF, and written as a table."""

import io
from collections.abc import Callable
from datetime import date
from pathlib import Path

from keeper.actions.clinician.chosen import Chosen
from keeper.actions.clinician.contents import page_of
from keeper.actions.opening import passing_folder
from keeper.actions.paper.job import Job, Progress
from keeper.actions.paper.making import BookMade, Proof, picture_pages, save
from keeper.actions.paper.saving import put_into
from keeper.book import press
from keeper.book.clinician import TRIED, ClinicianLaidOut, lay_out_page
from keeper.errors import CannotWrite
from keeper.exchange.out.cells import Cells
from keeper.review.clinician.page import ClinicianPage
from keeper.review.clinician.table import heads, rows
from keeper.store import Store

__all__ = ["BookMade", "Proof", "make_page", "make_table", "picture_pages", "proof_page", "save"]


def make_page(
    store: Store, chosen: Chosen, target: Path, tonight: date,
    progress: Progress = lambda share, words: None, stopped: Callable[[], bool] = lambda: False,
) -> BookMade:  # fmt: skip
    """Make the page and put it into a file; one that is there gives way only to a whole one.

    Raises Stopped, UnknownThing, UnreadableDate, CannotWrite, CannotTypeset.
    """
    with passing_folder(store) as folder:
        return save(proof_page(store, chosen, Path(folder), tonight, progress, stopped), target)


def proof_page(
    store: Store, chosen: Chosen, folder: Path, tonight: date,
    progress: Progress = lambda share, words: None, stopped: Callable[[], bool] = lambda: False,
) -> Proof:  # fmt: skip
    """Make the page in an empty folder, to be looked at and saved. Raises as ``make_page``."""
    job = Job("page", progress, stopped)
    page = _gathered(store, chosen, tonight, job)
    try:
        laid = lay_out_page(page, folder)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise CannotWrite(f"There is no room to lay out the page: {reason}.") from error
    pdf, pages, left_out = _fitted(laid, job)
    job.progress(1.0, "Done")
    return Proof(laid, pdf, pages, left_out)


def _gathered(store: Store, chosen: Chosen, tonight: date, job: Job) -> ClinicianPage:
    page = page_of(store, chosen, tonight, lambda share: _gathering(job, share))
    job.check()
    return page


def _gathering(job: Job, share: float) -> None:
    job.check()
    job.progress(0.3 * share, "Gathering the readings")


def _fitted(laid: ClinicianLaidOut, job: Job) -> tuple[bytes, int, tuple[str, ...]]:
    """Set on one page, or two, with strips as high as has room."""
    set_so: dict[tuple[float, float], tuple[bytes, int, tuple[str, ...]]] = {}
    for at, (high, size, most) in enumerate(TRIED):
        job.check()
        job.progress(0.3 + 0.6 * at / len(TRIED), "Setting the pages")
        laid.high, laid.size = high, size
        laid.write()
        # What was too much for one page may be right for two, and is set already.
        if (high, size) not in set_so:
            set_so[high, size] = press.print_plainly(laid)
        if set_so[high, size][1] <= most:
            break
    job.check()
    return set_so[high, size]


def table_of(page: ClinicianPage) -> bytes:
    """The same as comma-separated values (RFC 4180), in UTF-8."""
    with io.StringIO(newline="") as text:
        cells = Cells(text, heads(page))
        for row in rows(page):
            cells.row(*row)
        return text.getvalue().encode("utf-8", "replace")


def make_table(
    store: Store, chosen: Chosen, target: Path, tonight: date,
    progress: Progress = lambda share, words: None, stopped: Callable[[], bool] = lambda: False,
) -> int:  # fmt: skip
    """Put the same as a table into a file; how many nights it has. Raises Stopped, UnknownThing, UnreadableDate, CannotWrite."""
    job = Job("table", progress, stopped)
    page = _gathered(store, chosen, tonight, job)
    put_into(target, table_of(page), "The table")
    return len(page.nights)
