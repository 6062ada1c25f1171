"""The pages of a notebook that go into the book with their months."""

from datetime import timedelta
from pathlib import Path

from keeper.actions.awake import awake
from keeper.dates import written
from keeper.days import last_of_month
from keeper.errors import DamagedPhoto, UnknownThing
from keeper.exchange.page_picture import jpeg_of, page_as_seen
from keeper.model.scans import Scan
from keeper.review.book import BookMonth, BookPhoto
from keeper.store import Store, lines
from keeper.store.scans import known

_UPRIGHT = (3, 4)
"""The shape that a page is taken to have, until it is set."""


def pages_of(store: Store, month: BookMonth, with_resting: bool) -> tuple[BookPhoto, ...]:
    """The pages that begin in a month, in their order; those on which anything may rest only if that is wanted."""
    first, last = month.month, last_of_month(month.month)
    its = [one for one in known.of_span(store, first, last) if first <= one.first]
    return tuple(_page(one) for one in its if with_resting or _is_awake(store, one))


def _page(one: Scan) -> BookPhoto:
    return BookPhoto(one.id, *_UPRIGHT, written.span(one.first, one.last))


def _is_awake(store: Store, one: Scan) -> bool:
    """Whether nothing of its nights rests: what of a page of handwriting does, nobody can tell."""
    rule = awake(store, one.first, one.last)
    nights = (one.first + timedelta(days=day) for day in range((one.last - one.first).days + 1))
    return all(map(rule.night, nights)) and all(map(rule.line, lines.between(store, one.first, one.last)))


def page_to_print(store: Store, scan_id: str, longest_side: int) -> bytes:
    """A page as it is to be read, as a JPEG. Raises UnreadablePhoto, DamagedPhoto."""
    try:
        one = known.by_id(store, scan_id)
    except UnknownThing:
        raise DamagedPhoto("It is no longer in the keeper.") from None
    file = known.file_of(store.folder, one)
    return jpeg_of(page_as_seen(file, one.page, longest_side, one.turns, one.angle, one.cut, Path(one.name)))
