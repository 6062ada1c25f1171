"""What rests: never brought up unasked, still found; spans of nights among it."""

from datetime import date

from keeper.actions import told_as
from keeper.dates import written
from keeper.dates.spelling import ENGLISH, Spelling
from keeper.dates.typed import understood
from keeper.errors import UnknownThing, UnreadableDate
from keeper.model import Act, Resting
from keeper.store import Store
from keeper.store import resting as kept_resting

__all__ = ["Resting", "read_span", "rest_span", "wake", "wake_span", "what_rests"]


def what_rests(store: Store) -> tuple[Resting, ...]:
    """Spans, people, places, photos and lines that rest, in this order, the latest night first."""
    return kept_resting.every(store)


def read_span(first: str, last: str, tonight: date, spelling: Spelling = ENGLISH) -> tuple[date, date]:
    """The first and last night of a span as a person typed them; of a month or year, its ends.

    Raises UnreadableDate for what is no date, a missing end, or ends the wrong way round.
    """
    if not first.strip() or not last.strip():
        raise UnreadableDate("A span has two ends: the first night, and the last.")
    begin, end = understood(first, tonight, spelling).first, understood(last, tonight, spelling).last
    _check_order(begin, end)
    return begin, end


def rest_span(store: Store, first: date, last: date) -> None:
    """Let all nights of a span rest, both ends included, also those still to come.

    The same span again changes nothing. Raises UnreadableDate for ends the wrong way round.
    """
    _check_order(first, last)
    with store.writing(_of_span("Rest", first, last)):
        if (first, last) not in _spans(store):
            kept_resting.rest_span(store, first, last)


def wake_span(store: Store, first: date, last: date) -> None:
    """Let a span be brought up again. Raises UnknownThing, naming those that rest, when it is none of them."""
    spans = _spans(store)
    if (first, last) not in spans:
        told = "; ".join(f"{begin.isoformat()} to {end.isoformat()}" for begin, end in spans)
        raise UnknownThing(f"That span does not rest. {f'These do: {told}.' if told else 'No span does.'}")
    with store.writing(_of_span("No rest", first, last)):
        kept_resting.wake_span(store, first, last)


def wake(store: Store, one: Resting) -> None:
    """Let something be brought up again, whatever it is."""
    if one.what == "span":
        with store.writing(_of_span("No rest", one.first, one.last)):
            kept_resting.wake_span(store, one.first, one.last)
        return
    what = f"the {one.kind or one.what}" if one.what in ("line", "photo") else told_as.quoted(one.told)
    with store.writing(told_as.of_settings(f"No rest for {what}")):
        kept_resting.wake(store, one.what, one.ref)


def _of_span(what: str, first: date, last: date) -> Act:
    return told_as.of_settings(f"{what} for the nights of {written.span(first, last)}")


def _check_order(first: date, last: date) -> None:
    if last < first:
        raise UnreadableDate(f"The last night, {last.isoformat()}, comes before the first, {first.isoformat()}.")


def _spans(store: Store) -> list[tuple[date, date]]:
    return [(one.first, one.last) for one in kept_resting.every(store) if one.what == "span"]
