"""Pages that are kept: with which nights, and how they are seen."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from keeper.dates import written
from keeper.errors import UnreadablePhoto
from keeper.exchange import page_picture
from keeper.model import Act
from keeper.model.scans import WHOLE, Scan
from keeper.store import Store
from keeper.store.scans import known
from keeper.study import skew

if TYPE_CHECKING:
    from PIL.Image import Image

LEAST_CUT = 0.02
"""The least part of a page, each way, that can be cut out."""


def of_span(store: Store, first: date, last: date) -> tuple[Scan, ...]:
    """The pages that belong to nights of a span, both ends included, in their order."""
    return known.of_span(store, first, last)


def count(store: Store, first: date, last: date) -> int:
    """How many pages belong to nights of a span."""
    return known.any_of(store, first, last)


def as_seen(folder: Path, scan: Scan, longest_side: int) -> "Image":
    """The page as it is to be read; for a lane. Raises UnreadablePhoto where its file is gone or damaged."""
    return page_picture.page_as_seen(
        known.file_of(folder, scan), scan.page, longest_side, scan.turns, scan.angle, scan.cut, Path(scan.name)
    )


def level(folder: Path, scan: Scan) -> float:
    """The angle, in degrees to the right, that straightens a page; 0 where its rows are not seen. For a lane. Raises UnreadablePhoto."""
    return skew.angle_of(page_picture.ink_of(known.file_of(folder, scan), scan.page, scan.turns, Path(scan.name)))


def turn(store: Store, scan_id: str, quarters: int) -> Scan:
    """Turn a page by quarters to the right. Raises UnknownThing."""
    return _changed(store, scan_id, "turned", lambda one: replace(one, turns=(one.turns + quarters) % 4, cut=_turned(one.cut, quarters)))


def straighten(store: Store, scan_id: str, angle: float) -> Scan:
    """Straighten a page by so many degrees to the right in all, at most 45; 0 is as it came. Raises UnknownThing."""
    return _changed(store, scan_id, "straightened", lambda one: replace(one, angle=max(-45.0, min(45.0, angle))))


def cut_out(store: Store, scan_id: str, part: tuple[float, float, float, float] | None) -> Scan:
    """Show only a part of what is shown of a page: left, top, right, bottom in parts of that; None is all of it.

    Raises UnreadablePhoto for a part too small to be seen, UnknownThing.
    """
    if part and min(part[2] - part[0], part[3] - part[1]) < LEAST_CUT:
        raise UnreadablePhoto("That is too small a part of the page.")
    return _changed(store, scan_id, "cropped", lambda one: replace(one, cut=_within(one.cut, part) if part else WHOLE))


def begin_at(store: Store, scan_id: str, night: date) -> Scan:
    """Let a page begin with a night; the page before it ends with the night before that. Raises UnknownThing."""
    scan, day = known.by_id(store, scan_id), timedelta(days=1)
    with store.writing(_act(scan, f"begins with {written.full_date(night)}", night)):
        for one in known.of_span(store, min(scan.first, night) - day, night):
            ends_here = one.last >= night or one.last == scan.first - day
            if one.id != scan_id and one.first < night and one.first <= scan.first and ends_here:
                known.change(store, replace(one, last=night - day))
        known.change(store, replace(scan, first=night, last=max(scan.last, night)))
    return known.by_id(store, scan_id)


def remove(store: Store, scan_id: str) -> None:
    """Take a page out of the keeper; that can be undone. Raises UnknownThing."""
    scan = known.by_id(store, scan_id)
    with store.writing(_act(scan, "removed", scan.first)):
        known.drop(store, scan_id)


def _changed(store: Store, scan_id: str, told: str, how: Callable[[Scan], Scan]) -> Scan:
    scan = how(known.by_id(store, scan_id))
    with store.writing(_act(scan, told, scan.first)):
        known.change(store, scan)
    return scan


def _act(scan: Scan, told: str, night: date) -> Act:
    return Act(f"The page of the notebook for {written.span(scan.first, scan.last)} {told}", "sheet", night, scan.id)


def _turned(cut: tuple[float, ...], quarters: int) -> tuple[float, ...]:
    for _ in range(quarters % 4):
        left, top, right, bottom = cut
        cut = (1 - bottom, left, 1 - top, right)
    return cut


def _within(cut: tuple[float, ...], part: tuple[float, ...]) -> tuple[float, ...]:
    left, top, right, bottom = cut
    wide, high = right - left, bottom - top
    return (left + part[0] * wide, top + part[1] * high, left + part[2] * wide, top + part[3] * high)
