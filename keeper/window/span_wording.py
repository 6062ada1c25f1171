"""The program's words for where one was for a span of nights."""

from collections.abc import Sequence
from datetime import date

from keeper.actions.where_between import SpanSaid
from keeper.model import Place
from keeper.window import place_wording, wording

_NAMED = 3

Elsewhere = Sequence[tuple[Place, Sequence[date]]]


def asked(first: date, last: date, there: Elsewhere, over: bool) -> str:
    """How many nights are meant, and which of them were said to be elsewhere."""
    count = (last - first).days + 1
    told = f"{wording.counted(count, 'night')}, {place_wording.span(first, last)}."
    if not there:
        return told
    away = sum(len(nights) for _, nights in there)
    named = ", ".join(f"{place.name} ({_nights(nights)})" for place, nights in there[:_NAMED])
    more = f" and {wording.counted(len(there) - _NAMED, 'other place')}" if len(there) > _NAMED else ""
    were, stay, change = ("was", "It stays", "It changes") if away == 1 else ("were", "They stay", "They change")
    what = f"{change} too" if over else stay
    return f"{told} {wording.counted(away, 'night')} {were} said to be elsewhere: {named}{more}. {what}."


def said(done: SpanSaid) -> str:
    """What was done."""
    at = f"{place_wording.span(done.first, done.last)}: {wording.counted(done.nights, 'night')} at {done.place.name}."
    if not done.kept:
        return at
    return f"{at} {wording.counted(len(done.kept), 'night')} stayed where you had said."


def taken_back(count: int) -> str:
    """That it was taken back."""
    if not count:
        return "Nothing was left to take back."
    return f"Taken back: {wording.counted(count, 'night')} {'is' if count == 1 else 'are'} as before."


def _nights(nights: Sequence[date]) -> str:
    if len(nights) == 1 or (nights[-1] - nights[0]).days + 1 == len(nights):
        return place_wording.span(nights[0], nights[-1])
    return wording.counted(len(nights), "night")
