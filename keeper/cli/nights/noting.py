"""Readings on the command line: noting them, listing them, beginning and ending them."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

import click

from keeper.actions.readings import changing, noting, once, wording
from keeper.actions.readings import trackers as readings
from keeper.actions.readings.shape import free_key
from keeper.cli import shown, telling
from keeper.cli.named_keeper import NamedKeeper
from keeper.dates.written import long_date
from keeper.errors import UnknownThing, UnreadableReading
from keeper.model import Tracker

_BETWEEN = " \t:="
"""What may stand between a name and what is noted of it."""


def note(named: NamedKeeper, said: Sequence[str], night: date) -> str:
    """Note all that was said for a night, as one act, and tell it. Raises KeeperError; then nothing is noted."""
    named.must_be_begun(now=True)
    there = readings.in_force(named.store, night)
    offers = [one for one in changing.offered(night) if not any(_same(one, other.name) for other in readings.every(named.store))]
    typed = dict(_parted(said, (*there, *offers), readings.every(named.store)))
    if not typed:
        raise UnreadableReading("There is nothing to note; such as: keeper note \u201cmood 7\u201d \u201csleep 7:30\u201d.")
    begun = [one for one in typed if not one.id]
    its = {_as_kept(named, one): text for one, text in typed.items()}
    noting.note_all(named.store, {one.id: text for one, text in its.items()}, night, named.clock)
    if caution := once.caution(named.store, its):
        telling.aside(shown.wrapped(caution))
    kept = {one.tracker.id: one for one in readings.of_night(named.store, night)}
    told = ", ".join(wording.told(one, kept[one.id].reading) for one in its)
    new = f" Begun with this night: {', '.join(one.name for one in begun)}." if begun else ""
    return shown.wrapped(f"{long_date(night)}: {told}.{new}")


def _as_kept(named: NamedKeeper, tracker: Tracker) -> Tracker:
    return tracker if tracker.id else changing.begin(named.store, tracker)


def _same(tracker: Tracker, name: str) -> bool:
    return tracker.name.casefold() == name.casefold()


def _parted(said: Sequence[str], there: Sequence[Tracker], every: Sequence[Tracker]) -> Iterable[tuple[Tracker, str]]:
    """Each tracker that was named and what is to be noted of it.

    A name and its value may also be two words of the command line.
    """
    waiting = [" ".join(one.split()) for one in said if one.strip()]
    while waiting:
        one = waiting.pop(0)
        tracker, text = _named(one, there, every)
        if not text and tracker.form == "mark":
            text = "yes"
        elif not text and waiting:
            text = waiting.pop(0)
        elif not text:
            raise UnreadableReading(f"What is to be noted of {tracker.name}? Such as: \u201c{tracker.name} {_such_as(tracker)}\u201d.")
        yield tracker, text


def _such_as(tracker: Tracker) -> str:
    return {"scale": "7", "hours": "7:30", "count": "2"}.get(tracker.form, "4.5")


def _named(text: str, there: Sequence[Tracker], every: Sequence[Tracker]) -> tuple[Tracker, str]:
    whole = [one for one in there if text.casefold().startswith(one.name.casefold())
             and (len(text) == len(one.name) or text[len(one.name)] in _BETWEEN)]  # fmt: skip
    if whole:
        longest = max(whole, key=lambda one: len(one.name))
        return longest, text[len(longest.name) :].strip(_BETWEEN)
    name, _, rest = text.replace("=", " ").replace(": ", " ").partition(" ")
    if gone := next((one for one in every if text.casefold().startswith(one.name.casefold())), None):
        raise UnknownThing(f"{gone.name} is not among the readings of this night.")
    return readings.named(there, name), rest.strip()


@dataclass(frozen=True)
class Begun:
    """A tracker to begin, as it was typed."""

    name: str
    form: str
    unit: str
    guest: bool
    body: bool


def begin(named: NamedKeeper, asked: Begun) -> str:
    """Begin a tracker with tonight, and tell it. Raises KeeperError."""
    named.must_be_begun(now=True)
    store, tonight = named.store, named.tonight
    usual = next((one for one in changing.offered(tonight) if _same(one, asked.name) and asked.form in ("", one.form)), None)
    made = usual or Tracker("", asked.name, asked.form or "scale", None, None, asked.unit, "neither", tonight, body=asked.body)
    key = free_key(made.name, readings.in_force(store, tonight)) if made is not usual else made.key
    ended = changing.guest_until(tonight) if asked.guest else None
    kept = changing.begin(store, replace(made, key=key, ended=ended))
    if word := once.of_many(store, tonight):
        telling.aside(shown.wrapped(word))
    return shown.wrapped(f"{kept.name}, {wording.asked(kept)}, is asked for {_since(kept)}.")


def end(named: NamedKeeper, name: str) -> str:
    """End a tracker, and tell it. Raises UnknownThing."""
    under_way = readings.in_force(named.store, named.tonight)
    return shown.wrapped(changing.retire(named.store, readings.named(under_way, name).id, named.tonight))


def listed(named: NamedKeeper) -> bool:
    """Tell all trackers, those that ended too; whether there are any."""
    every = readings.every(named.store)
    if not every:
        telling.aside("Nothing is noted each night. keeper note \u201cmood 7\u201d begins with the mood; so do stress and sleep.")
    elif sys.stdout.isatty():
        click.echo("\n".join(shown.wrapped(f"{one.name}, {wording.asked(one)}, {_since(one)}") for one in every))
    else:
        click.echo("\n".join(_row(one) for one in every))
    return bool(every)


def _since(tracker: Tracker) -> str:
    until = f" to {tracker.ended.isoformat()}" if tracker.ended else ""
    return f"from {tracker.began.isoformat()}{until or ' on'}"


def _row(tracker: Tracker) -> str:
    ended = tracker.ended.isoformat() if tracker.ended else ""
    parts = (tracker.name, tracker.form, tracker.unit, tracker.key, tracker.began.isoformat(), ended)
    return "\t".join(shown.one_row(part) for part in parts)
