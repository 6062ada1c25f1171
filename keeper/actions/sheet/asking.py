"""What stands on the sheet of a span of nights."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from keeper.actions import carrying
from keeper.actions.sheet import columns, reading_cells
from keeper.actions.sheet.columns import PLACE, Column
from keeper.days import nights as every_night
from keeper.errors import UnreadableDate
from keeper.model import Reading
from keeper.store import Store, drafts_of, lines, nights, trackers
from keeper.store.places import named as places

READING_DRAFT, PLACE_DRAFT = "reading", "place on paper"
"""What the drafts of cells are for; a line's is the one that its night has."""

MOST = 731
"""The most nights that a sheet shows: two years."""

Cell = tuple[date, str]
"""A night, and the key of a column."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A span of nights, a row each.

    ``kept`` is what each cell holds, as it could be typed again; ``carried``
    the names of places where none was said; ``kept_nights`` are those of which
    anything is kept, ``drafts`` texts that were never kept.
    """

    first: date
    last: date
    nights: tuple[date, ...]
    columns: tuple[Column, ...]
    kept: Mapping[Cell, str]
    readings: Mapping[Cell, Reading]
    carried: Mapping[date, str]
    kept_nights: frozenset[date]
    drafts: Mapping[Cell, str]


def check_span(first: date, last: date) -> None:
    """Raise UnreadableDate, saying why, for a span that makes no sheet."""
    if last < first:
        raise UnreadableDate(f"The last night, {last.isoformat()}, comes before the first, {first.isoformat()}.")
    if (last - first).days >= MOST:
        raise UnreadableDate(f"These are {(last - first).days + 1:,} nights; a sheet has at most {MOST}.")


def sheet_of(store: Store, first: date, last: date, keys: Sequence[str] = ()) -> Sheet:
    """The sheet of a span, both ends included, with the columns of these keys. Raises as ``check_span``."""
    check_span(first, last)
    span = tuple(every_night(first, last))
    written = lines.between(store, first, last)
    noted = trackers.readings(store, first, last)
    where = nights.where_between(store, first, last)
    kept = {(one.night, f"line:{one.kind}"): one.text for one in written}
    readings = {(one.night, f"reading:{one.tracker_id}"): one for one in noted}
    its = frozenset(key for _, key in (*kept, *readings))
    shown = columns.of_span(columns.every(store), keys, span, its)
    by_key = {one.key: one.tracker for one in shown if one.tracker}
    kept |= {cell: reading_cells.in_cell(by_key[cell[1]], one) for cell, one in readings.items() if cell[1] in by_key}
    said, carried = _places(store, span, where, {place_id: name for name, place_id in places.names(store)})
    return Sheet(
        first, last, span, shown, kept | {(night, PLACE): name for night, name in said.items()}, readings, carried,
        frozenset(one.night for one in (*written, *noted)), _drafts(store, frozenset(span)),
    )  # fmt: skip


def _places(
    store: Store, span: Sequence[date], where: Sequence[tuple[date, str | None, str]], names: Mapping[str, str]
) -> tuple[dict[date, str], dict[date, str]]:
    """The names of places that were said, and of those that are carried on, or would be: by night."""
    said, carried = {}, {}
    its = {night: (place_id, source) for night, place_id, source in where}
    before = nights.place_before(store, span[0], carrying.CARRIED_FOR)
    last = (carrying.carried_from(store, span[0]), before) if before else None
    for night in span:
        place_id, source = its.get(night, (None, ""))
        if place_id:
            (carried if source == "carried" else said)[night] = names.get(place_id, "")
            last = night, place_id
        elif last and night - last[0] <= carrying.CARRIED_FOR:
            carried[night] = names.get(last[1], "")
    return said, carried


def _drafts(store: Store, span: frozenset[date]) -> dict[Cell, str]:
    found = {(one.night, f"line:{one.kind}"): one.text for one in lines.drafts(store)}
    found |= dict(_of_refs(drafts_of.every(store, READING_DRAFT), "reading:"))
    found |= dict(_of_refs(drafts_of.every(store, PLACE_DRAFT), PLACE))
    return {cell: text for cell, text in found.items() if cell[0] in span}


def _of_refs(waiting: Mapping[str, str], begins: str) -> Iterator[tuple[Cell, str]]:
    for ref, text in waiting.items():
        night, _, rest = ref.partition(" ")
        try:
            yield (date.fromisoformat(night), f"{begins}{rest}"), text
        except ValueError:
            continue
