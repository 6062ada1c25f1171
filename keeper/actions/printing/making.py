"""Making pages to print."""

from collections.abc import Callable
from pathlib import Path

from keeper.actions.opening import passing_folder
from keeper.actions.paper.job import Job, Progress
from keeper.actions.paper.making import BookMade, Proof, picture_pages, printable, save
from keeper.actions.printing.contents import printed
from keeper.actions.printing.wanted import PagesWanted
from keeper.book import press
from keeper.book.printed.imposing import imposed
from keeper.book.printed.laying_out import PagesLaidOut, lay_out_pages, lay_out_sheets
from keeper.store import Store

__all__ = ["BookMade", "Proof", "make_pages", "picture_pages", "proof_pages", "save"]


FOR_THE_PRINTER = (
    "These sheets are for the printer; a screen reader cannot follow the pages on them. "
    "It can where the sheets are as large as the page and are no booklet."
)
"""What is put on sheets has lost the order in which it is read: the tags of a PDF do not come along with its pages."""


def make_pages(
    store: Store,
    wanted: PagesWanted,
    target: Path,
    progress: Progress = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False,
) -> BookMade:
    """Make pages to print and put them into a file.

    A file that is there gives way only to a whole one. ``progress`` hears a
    share of 0 to 1. Raises Stopped, BadPaper, UnknownThing where nothing is
    kept of what is wanted, CannotWrite, CannotTypeset.
    """
    with passing_folder(store) as folder:
        return save(proof_pages(store, wanted, Path(folder), progress, stopped), target)


def proof_pages(
    store: Store,
    wanted: PagesWanted,
    folder: Path,
    progress: Progress = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False,
) -> Proof:
    """Make pages to print in an empty folder, to be looked at and saved. Raises as ``make_pages``."""
    job = Job("page", progress, stopped)
    job.progress(0.05, "Gathering the pages")
    work, told = printed(store, wanted)
    job.check()
    with job.laying_out():
        laid = lay_out_pages(work, folder, lambda photo_id, side: printable(store, photo_id, side))
    job.check()
    job.progress(0.3, "Setting the pages")
    pdf, pages, left_out = press.print_plainly(laid)
    job.check()
    made = Proof(laid, pdf, pages, (*told, *left_out))
    if not wanted.as_set:
        job.progress(0.8, "Putting them on sheets")
        made = _on_sheets(laid, made, wanted)
        job.check()
    job.progress(1.0, "Done")
    return made


def _on_sheets(laid: PagesLaidOut, made: Proof, wanted: PagesWanted) -> Proof:
    leaf = laid.work.leaf
    on = imposed(made.pages, (leaf.width, leaf.height), wanted.paper, wanted.sides, wanted.booklet)
    sheets = lay_out_sheets(laid, made.pdf, on)
    told = (*(() if wanted.sides == "one" else (_turned(on.width > on.height, wanted.sides),)), FOR_THE_PRINTER)
    return Proof(sheets, press.print_sheets(sheets), len(on.sides), (*made.left_out, *told))


def _turned(lying: bool, sides: str) -> str:
    edge = "short" if lying else "long"
    if sides == "both":
        return f"For printing on both sides, set the printer to turn the sheets over at the {edge} edge."
    return f"The fronts come first. Turn the whole stack over at the {edge} edge before the backs are printed."
