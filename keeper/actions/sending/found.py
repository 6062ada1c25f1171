"""All that a search finds, put into a file: a sheet (CSV or .xlsx), a plain text, or a page to print or send (PDF, HTML)."""

from collections.abc import Callable, Sequence
from io import StringIO
from pathlib import Path

from keeper.actions.awake import Awake, awake
from keeper.actions.finding.known import known
from keeper.actions.finding.phrases import sentence
from keeper.actions.paper.job import Job, Progress
from keeper.actions.paper.saving import put_into
from keeper.actions.sending.making import PageSent, UnknownFormat, put_page
from keeper.actions.sending.things import page_of_lines
from keeper.actions.sending.wanted import SentWanted
from keeper.dates import written
from keeper.errors import UnknownThing
from keeper.exchange.out.cells import Cells
from keeper.exchange.out.workbook import LONGEST, workbook
from keeper.model import Found
from keeper.store import Store, search
from keeper.store.search import Sought

FORMATS = (".csv", ".xlsx", ".txt", ".pdf", ".html")
"""What can be made, by the ending of the file."""

_EVERY = 1_000_000
_NAMES, _WIDTHS = ("night", "weekday", "kind", "place", "text"), (12, 12, 14, 20, 90)


def put_found(
    store: Store, sought: Sought, target: Path, progress: Progress = lambda share, words: None,
    stopped: Callable[[], bool] = lambda: False, size: str = "a4",
) -> PageSent:  # fmt: skip
    """Put all lines that have every word, oldest first, into a file; its ending says what it is.

    What rests stays out, unless what rests is sought; how many lines that are
    is told. A page says what was sought over its lines, and does not say where
    they were written. Raises UnknownFormat, UnknownThing where there is
    nothing, Stopped, CannotWrite, CannotTypeset.
    """
    ending = target.suffix.casefold()
    if ending not in FORMATS:
        raise UnknownFormat(f"What was found is saved as {', '.join(FORMATS[:-1])} or {FORMATS[-1]}: let the name of the file end so.")
    job = Job("file", progress, stopped)
    job.progress(0.05, "Gathering the lines")
    found = sorted(search.find(store, sought, _EVERY), key=lambda one: (one.line.night, one.line.kind))
    rule = Awake(everything=True) if sought.resting else awake(store)
    shown = [one for one in found if rule.line(one.line)]
    if not shown:
        raise UnknownThing("There is no line to save: none was found, or what was found rests.")
    job.check()
    out = len(found) - len(shown)
    told = [f"{written.counted(out, 'line that rests is', 'lines that rest are')} not in it."] if out else []
    if ending in (".pdf", ".html"):
        page = page_of_lines(store, title(store, sought), shown, rule, SentWanted("found", size=size), ())
        made = put_page(store, page, target, job)
        return PageSent(made.path, (*told, *made.left_out))
    if ending == ".xlsx" and any(len(one.line.text) > LONGEST for one in shown):
        told.append(f"A line is longer than a cell can be, and is cut at {written.number(LONGEST)} characters; a .csv has it whole.")
    put_into(target, _WRITE[ending](shown), "What was found")
    job.progress(1.0, "Done")
    return PageSent(target, tuple(told))


def title(store: Store, sought: Sought) -> str:
    """What was sought, in words, such as "“ferry” in Turku, on Sundays"."""
    words = f"\u201c{' '.join(sought.typed.split())}\u201d" if sought.typed.strip() else ""
    told = f"{words} {sentence(known(store).phrases(sought))}".strip()
    return (told[:1].upper() + told[1:]) or "Lines"


def _row(one: Found) -> tuple:
    return one.line.night, written.WEEKDAYS[one.line.night.weekday()], one.line.kind_title, one.place_name, one.line.text


def _csv(found: Sequence[Found]) -> bytes:
    out = StringIO()
    cells = Cells(out, _NAMES)
    for one in found:
        night, *rest = _row(one)
        cells.row(night.isoformat(), *rest)
    # The mark by which spreadsheets know UTF-8.
    return out.getvalue().encode("utf-8-sig", "replace")


def _xlsx(found: Sequence[Found]) -> bytes:
    return workbook(_NAMES, [_row(one) for one in found], _WIDTHS)


def _text(found: Sequence[Found]) -> bytes:
    heads = (f"{written.long_date(one.line.night)}, {one.line.kind_title}{f', {one.place_name}' if one.place_name else ''}" for one in found)
    return "\n\n".join(f"{head}\n{one.line.text}" for head, one in zip(heads, found, strict=True)).encode("utf-8", "replace") + b"\n"


_WRITE = {".csv": _csv, ".xlsx": _xlsx, ".txt": _text}
