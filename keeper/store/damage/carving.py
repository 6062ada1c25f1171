"""Carving: every line and earlier wording that stands in the bytes of a file, wherever it stands.

A row is known by its shape. Where its page is whole in itself, what no pointer
leads to was taken out or moved; where the page is damaged, it may be all there
is of a line.

Of a file without its schema lines and their wordings alone are carved: they
bear a sum that proves them. A row of a place or a person has none, and looks
as rows of other tables do; later words lie in pages of another sort, among
keys. What is guessed must not come back as the person's words.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date

from keeper.store.damage.leaves import INDEX_INSIDE, INDEX_LEAF, TABLE_LEAF, Leaf, leaf_of, signed, varint
from keeper.store.damage.pages import Pages
from keeper.store.damage.records import Value, record_at
from keeper.store.file.sums import line_sum
from keeper.store.moments import NUMBERS_A_NIGHT

RIGHT, WRONG, NONE = "right", "wrong", "none"
"""What the sum says: it is what was written; it is not; there is no sum, as before there were any."""

IN_PLACE, LOOSE, LEFT_OVER, HIDDEN = "in place", "loose", "left over", "hidden"
"""Where a row stands: its page points to it; in a damaged page, unpointed; where only what was taken out stands; in a
page of which the log has a later state."""

_NIGHT = re.compile(rb"\d{4}-\d\d-\d\d\Z")
_WHEN = re.compile(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z\Z")

# The header of a row of `line` or `wording` with a usual id: its length; no
# number, or an own id of 32 or 36; a line's id of 36; a night of 10 letters.
_BEGINS = re.compile(rb"[\x09-\x60][\x00\x4d\x55]\x55\x21", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Carved:
    """A line, or an earlier wording, as the bytes have it; ``number`` is what its cell says, None where it has none.

    ``replaced_at`` is "" for a line. Values are as the file spells them; of a
    wrong one they may be anything.
    """

    number: int | None
    id: str
    night: str
    kind: str
    text: str
    written_at: str
    offset_minutes: int
    zone: str
    sum: int | None
    proof: str
    place: str
    replaced_at: str = ""

    @property
    def key(self) -> tuple[str, str]:
        """Its night and its kind."""
        return self.night, self.kind


@dataclass(frozen=True)
class Haul:
    """All that was carved. ``told`` are nights and kinds of which an index knows that there is a line."""

    lines: tuple[Carved, ...]
    wordings: tuple[Carved, ...]
    told: frozenset[tuple[str, str]]
    broken_pages: int


def carve(pages: Pages, go_on: Callable[[float], None] = lambda share: None) -> Haul:
    """Everything of lines that stands in these pages; ``go_on`` hears how far it is, and may raise."""
    lines, wordings, told, broken = [], [], set(), 0
    count = len(pages.pages) + len(pages.older)
    for n, (number, page, in_force) in enumerate(pages.images()):
        if n % 64 == 0:
            go_on(n / count)
        leaf = leaf_of(number, page, pages.usable)
        broken += in_force and number not in pages.free and _is_broken(page, leaf)
        for one in _rows(pages, number, page, leaf, in_force):
            (wordings if one.replaced_at else lines).append(one)
        if in_force and leaf and leaf.flag in (INDEX_LEAF, INDEX_INSIDE) and number not in pages.free:
            told |= set(_told(pages, page, leaf))
    for number, page in pages.hidden:
        rows = _rows(pages, number, page, leaf_of(number, page, pages.usable), False)
        lines += [replace(one, place=HIDDEN) for one in rows if not one.replaced_at]
    return Haul(tuple(lines), tuple(wordings), frozenset(told), broken)


def _is_broken(page: bytes, leaf: Leaf | None) -> bool:
    return not leaf.whole if leaf else not any(page)


def _rows(pages: Pages, number: int, page: bytes, leaf: Leaf | None, in_force: bool) -> Iterator[Carved]:
    is_free, seen = number in pages.free, set()
    if leaf and leaf.flag == TABLE_LEAF:
        for at in leaf.cells:
            try:
                total, here = varint(page, at)
                own, here = varint(page, here)
            except IndexError:
                continue
            if page[here + 3 : here + 4] == b"\x21" and (got := _row(pages, page, here, signed(own), total)):
                seen.add(here)
                yield replace(got, place=LEFT_OVER if is_free else IN_PLACE if in_force else LOOSE)
    is_whole = leaf is not None and leaf.whole and in_force
    for hit in _BEGINS.finditer(page):
        if hit.start() not in seen and (got := _row(pages, page, hit.start(), None, None)):
            yield replace(got, place=LEFT_OVER if is_free or is_whole else LOOSE)


def _row(pages: Pages, page: bytes, start: int, number: int | None, told: int | None) -> Carved | None:
    got = record_at(pages, page, start)
    if got is None:
        return None
    values, total = got
    # The cell says how long its row is; one that says otherwise leads elsewhere.
    row = _line(values, number) if values[0] is None else _wording(values)
    return row if row is None or told in (None, total) else replace(row, number=None)


def _line(values: tuple[Value, ...], number: int | None) -> Carved | None:
    if len(values) < 9 or isinstance(values[5], int):
        return None
    columns = (*values[1:5], *values[6:9])
    return _carved(columns, values[9] if len(values) > 9 else None, number)


def _wording(values: tuple[Value, ...]) -> Carved | None:
    if len(values) < 9 or not isinstance(values[8], bytes) or not _WHEN.match(values[8]):
        return None
    made = _carved(values[1:8], values[9] if len(values) > 9 else None, None)
    return made and replace(made, replaced_at=values[8].decode())


def _carved(columns: tuple[Value, ...], given: Value, number: int | None) -> Carved | None:
    *texts, offset, zone = columns
    if not (all(isinstance(text, bytes) for text in (*texts, zone)) and isinstance(offset, int) and texts[3]):
        return None
    given = given if isinstance(given, int) else None
    proof = _proof((*texts, offset, zone), given)
    # Without a sum to prove it, it has to look like a line at least.
    shaped = bool(_NIGHT.match(texts[1])) + bool(_WHEN.match(texts[4]))
    if proof != RIGHT and shaped == 0:
        return None
    if proof == NONE and shaped < 2:
        proof = WRONG
    line_id, night, kind, text, written_at = (one.decode("utf-8", "replace") for one in texts)
    return Carved(number, line_id, night, kind, text, written_at, offset, zone.decode("utf-8", "replace"), given, proof, "")


def _proof(columns: tuple[Value, ...], given: int | None) -> str:
    try:
        *texts, offset, zone = columns
        reckoned = line_sum(*(text.decode() for text in texts), offset, zone.decode())
    except UnicodeDecodeError:
        return WRONG
    if given is None:
        return NONE
    return RIGHT if reckoned == given and _is_night(texts[1]) else WRONG


def _is_night(night: bytes) -> bool:
    try:
        return bool(_NIGHT.match(night)) and bool(date.fromisoformat(night.decode()))
    except ValueError:
        return False


def _told(pages: Pages, page: bytes, leaf: Leaf) -> Iterator[tuple[str, str]]:
    """What the index by night and kind has: it knows of lines whose own pages are gone."""
    for at in leaf.cells:
        here = at + (4 if leaf.flag == INDEX_INSIDE else 0)
        try:
            _, here = varint(page, here)
        except IndexError:
            continue
        if page[here : here + 2] != b"\x04\x21":
            continue
        got = record_at(pages, page, here, leaf.flag)
        if got and (key := _key(got[0])):
            yield key


def _key(values: tuple[Value, ...]) -> tuple[str, str] | None:
    night, kind, number = values[:3]
    if not (isinstance(night, bytes) and isinstance(kind, bytes) and isinstance(number, int) and _is_night(night)):
        return None
    if date.fromisoformat(night.decode()).toordinal() != number // NUMBERS_A_NIGHT:
        return None
    return night.decode(), kind.decode("utf-8", "replace")
