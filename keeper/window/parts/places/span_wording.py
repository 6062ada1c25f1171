"""The program's words for where one was for a span of nights."""

from collections.abc import Sequence
from datetime import date

from keeper.actions.places.where_between import SpanSaid
from keeper.model import Place
from keeper.window.desk import wording

_NAMED = 3

Elsewhere = Sequence[tuple[Place, Sequence[date]]]


def asked(first: date, last: date, said: Elsewhere, carried: Elsewhere, over: bool) -> str:
    """How many nights are meant, and which of them were said to be elsewhere, or were only carried on there."""
    told = [f"{wording.counted((last - first).days + 1, 'night')}, {wording.span(first, last)}."]
    if carried:
        names = _listed([place.name for place, _ in carried])
        change = "changes" if _count(carried) == 1 else "change"
        told.append(f"{wording.counted(_count(carried), 'night')} carried on at {names} {change}.")
    if said:
        one = _count(said) == 1
        stay, change = ("It stays", "It changes too") if one else ("They stay", "They change too")
        names = _listed([f"{place.name} ({_nights(nights)})" for place, nights in said])
        were = "was" if one else "were"
        told.append(f"{wording.counted(_count(said), 'night')} {were} said to be elsewhere: {names}. {change if over else stay}.")
    return " ".join(told)


def _listed(names: Sequence[str]) -> str:
    more = len(names) - _NAMED
    shown = [*names[:_NAMED], wording.counted(more, "other place")] if more > 0 else list(names)
    return " and ".join(filter(None, (", ".join(shown[:-1]), shown[-1])))


def _count(there: Elsewhere) -> int:
    return sum(len(nights) for _, nights in there)


def said(done: SpanSaid) -> str:
    """What was done."""
    at = f"{wording.span(done.first, done.last)}: {wording.counted(done.nights, 'night')} at {done.place.name}."
    if done.gave_way:
        at += f" {wording.counted(done.gave_way, 'night')} had been carried on elsewhere."
    if done.kept:
        at += f" {wording.counted(len(done.kept), 'night')} stayed where you had said."
    return at


def _nights(nights: Sequence[date]) -> str:
    if len(nights) == 1 or (nights[-1] - nights[0]).days + 1 == len(nights):
        return wording.span(nights[0], nights[-1])
    return wording.counted(len(nights), "night")
