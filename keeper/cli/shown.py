"""How the command line lays out what it tells."""

import shutil
import textwrap
from collections.abc import Iterable, Iterator
from datetime import date

from keeper.actions.places.clocks import written_at
from keeper.actions.writing import readable
from keeper.dates.written import long_date, month_and_year, shortest
from keeper.model import Draft, Found, Line, LineKind, Night, Place, Wording
from keeper.review.night import NightPage

WIDEST = 100
"""Longer rows than this are hard to read, however wide the terminal."""

_INDENT = " " * 12

_NOTHING = {False: "Nothing is kept of this night.", True: "Nothing else is kept of this night."}
"""What is said of a night without lines and photos: without a place, and with one."""


def wrapped(text: str, first: str = "", others: str = "") -> str:
    """The text in rows that fit the terminal; its own line breaks are kept."""
    width = max(30, min(shutil.get_terminal_size().columns, WIDEST))
    rows = []
    # Control codes in a file that came from elsewhere must not steer the terminal.
    for row in readable(text).split("\n"):
        # A path that is broken, at its hyphen or in its midst, can be opened by nobody.
        rows.append(textwrap.fill(row, width, initial_indent=others if rows else first, subsequent_indent=others,
                                  break_on_hyphens=False, break_long_words=False))  # fmt: skip
    return "\n".join(rows)


def night_text(page: NightPage, earlier: Iterable[Wording] = (), readings: str = "") -> str:
    """A night: its date and place, its lines, what waits to become one, and its readings as they are told."""
    of_key = {kind.key: kind for kind in page.kinds}
    rows = [_heading(page.night)]
    if page.question:
        rows.append(wrapped(page.question, "Question".ljust(12), _INDENT))
    rows += [_line(line) for line in page.night.lines]
    rows += [_draft(draft, of_key[draft.kind]) for draft in page.drafts if draft.kind in of_key]
    rows += [_wording(wording, page.night.place) for wording in earlier]
    photos = page.night.photo_count
    rows += [readings] if readings else []
    rows += [f"{'Photos':12}{photos:,}"] if photos else []
    return "\n".join(rows if photos or readings or page.night.lines or page.drafts else [*rows, _NOTHING[bool(page.night.place)]])


def _heading(night: Night) -> str:
    return wrapped(", ".join(part for part in (long_date(night.date), night.place and night.place.name) if part))


def _line(line: Line) -> str:
    resting = " (resting)" if line.resting else ""
    rows = [wrapped(line.text + resting, f"{line.kind_title:11} ", _INDENT)]
    for word in line.later:
        looks = f"{word.of} {shortest(word.looks)} from there" if word.looks is not None and word.of else ""
        told = " / ".join(part for part in (word.text, looks) if part)
        rows.append(wrapped(f"{told} ({word.said_on.isoformat()})", f"{_INDENT}Later: ", f"{_INDENT}  "))
    return "\n".join(rows)


def _draft(draft: Draft, kind: LineKind) -> str:
    return wrapped(f"{draft.text} (being written, not yet kept)", f"{kind.title:11} ", _INDENT)


def _wording(wording: Wording, place: Place | None) -> str:
    then = wording.written.here() if wording.from_paper else written_at(wording.written, wording.night, place)
    return wrapped(f"{wording.text} ({_kind(wording)}, written {then:%Y-%m-%d %H:%M})", "Earlier".ljust(12), _INDENT)


def _kind(line: Line | Wording) -> str:
    # As a person named it; the program's words are those that --kind has always taken.
    return line.kind_name or line.kind


def found_text(found: Iterable[Found]) -> str:
    """Lines found, laid out for reading."""
    return "\n\n".join("\n".join(_found_rows(one)) for one in found)


def _found_rows(one: Found) -> Iterator[str]:
    yield _whence(one)
    yield wrapped(one.line.text, "    ", "    ")
    for word in one.line.later:
        if word.text:
            yield wrapped(f"Later, {word.said_on.isoformat()}: {word.text}", "      ", "      ")


def _whence(found: Found) -> str:
    parts = (found.line.night.isoformat(), _kind(found.line), found.place_name, "resting" * found.line.resting)
    met = f" (nearest: {', '.join(found.met)})" if found.near else ""
    return wrapped(", ".join(part for part in parts if part) + met)


def found_rows(found: Iterable[Found]) -> str:
    """Lines found, one row each, with tabs between night, kind, place and text; behind it, of one that is but nearest, that."""
    return "\n".join(
        "\t".join(one_row(part) for part in (f.line.night.isoformat(), _kind(f.line), f.place_name, f.line.text, *_near(f)))
        for f in found
    )


def _near(found: Found) -> tuple[str, ...]:
    return ("nearest",) if found.near else ()


def one_row(text: str) -> str:
    """A text without breaks and tabs, for rows that a script reads."""
    return " ".join(readable(text).replace("\t", " ").split("\n"))


def kept_sentence(kind: LineKind, night: Night, *notes: str) -> str:
    """What was kept, and for which night; a place that was carried on is told in a sentence of its own."""
    at = f", {night.place.name}" if night.place and night.place_source != "carried" else ""
    return wrapped(" ".join(filter(None, (f"Kept: {kind.name or kind.key}, {long_date(night.date)}{at}.", *notes))))


def carried_sentence(night: Night, since: date | None, tonight: date) -> str:
    """Such as: At Lübeck, carried on from last night. "" for a place that was said."""
    if not night.place or night.place_source != "carried" or since is None:
        return ""
    last = "last night" if night.date == tonight else "the night before"
    return f"At {night.place.name}, carried on from {last if (night.date - since).days == 1 else long_date(since)}."


def left_sentence(left: Place | None) -> str:
    """That a place was not carried on, and what can be done; "" for none."""
    return f"{left.name}, in another time zone, was not carried on; --place says where you are." if left else ""


def asked_sentence(month: date, now: str, before: str) -> str:
    """What will be asked, and what was asked before that."""
    told = f"{month_and_year(month)} asks: {now}" if now else f"{month_and_year(month)} asks nothing."
    return wrapped(f"{told}\nBefore: {before}" if before and before != now else told)
