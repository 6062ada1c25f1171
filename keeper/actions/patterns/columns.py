"""What may take part in patterns, as plain columns: one value a night, None where nothing was noted."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

from keeper.actions.awake import awake
from keeper.actions.finding import theme_names
from keeper.actions.readings import on_nights
from keeper.errors import UnknownThing
from keeper.review.patterns.candidates import MOVE, PERSON, READING, SEASON, THEME, TRAVEL, WEEKDAY, Candidate
from keeper.store import Store, nights, people, trackers
from keeper.store.places import named as places
from keeper.store.themes import lines as theme_lines
from keeper.study.people import mentions_any

Column = tuple[float | None, ...]


@dataclass(frozen=True)
class Columns:
    """Columns by the keys of their candidates; all begin with the night ``first`` and have the same nights."""

    first: date
    values: Mapping[str, Column]
    marks: frozenset[str]


def candidates(store: Store) -> tuple[Candidate, ...]:
    """All that can take part: readings in the person's order, moves, themes and people by name, weekday and season.

    Who rests is not among them, nor a theme led by one.
    """
    readings = [candidate_of(course) for course in on_nights.courses(store)]
    rule = awake(store)
    themes = [Candidate(f"{THEME}:{number}", name, THEME) for number, name in theme_names(store)]
    known = [Candidate(f"{PERSON}:{one.id}", one.names[0], PERSON) for one in people.every(store)
             if one.names and not one.resting and rule.text(*one.names)]  # fmt: skip
    return (
        *readings, Candidate(MOVE, "change of place", MOVE), Candidate(TRAVEL, "night on the way", TRAVEL), *themes, *known,
        Candidate(WEEKDAY, "weekday", WEEKDAY, False), Candidate(SEASON, "season", SEASON, False),
    )  # fmt: skip


def candidate_of(course: on_nights.Course) -> Candidate:
    """A reading as a candidate; one that was taken up again keeps the key that it had before."""
    last, key = course[-1], f"{READING}:{course[0].id}"
    return Candidate(key, last.name, READING, last.form == "mark", last, course[:-1])


def named(known: Iterable[Candidate], typed: str) -> Candidate:
    """The candidate of this name, capitals left aside; how it alone begins will do. Raises UnknownThing."""
    sought, known = " ".join(typed.split()).casefold(), list(known)
    same = [one for one in known if one.name.casefold() == sought]
    like = same or [one for one in known if sought and one.name.casefold().startswith(sought)]
    if len(like) == 1:
        return like[0]
    if like:
        raise UnknownThing(f"\u201c{typed}\u201d could be {' or '.join(one.name for one in like)}.")
    raise UnknownThing(f"Nothing called \u201c{typed}\u201d can take part in patterns.")


def columns(store: Store, chosen: Iterable[Candidate]) -> Columns:
    """The columns of some candidates; weekday and season are none, and what was never noted is left out.

    Readings stand on their trackers' scales and in their units of now. A mark
    left empty on a night that was kept (with a line, or any reading) is a no,
    while its tracker was under way; so are nights with lines for themes and
    people, and nights whose place is known, as that before, for a move.
    """
    its = [one for one in chosen if one.kind in _OF_KIND]
    of_nights = _OfNights(store)
    found = {one.key: _OF_KIND[one.kind](store, one, of_nights) for one in its}
    noted = {key: values for key, values in found.items() if values}
    if not noted:
        return Columns(date.min, {}, frozenset())
    first, last = (end(end(values) for values in noted.values()) for end in (min, max))
    span = [first + timedelta(days=day) for day in range((last - first).days + 1)]
    rows = {key: tuple(map(values.get, span)) for key, values in noted.items()}
    return Columns(first, rows, frozenset(one.key for one in its if one.is_mark) & rows.keys())


class _OfNights:
    """What is asked of all nights once, for whatever columns need it."""

    def __init__(self, store: Store) -> None:
        self.with_lines = cache(lambda: nights.with_lines(store, date.min, date.max))
        self.kept = cache(lambda: on_nights.nights_kept(store))


def _readings(store: Store, one: Candidate, of_nights: _OfNights) -> dict[date, float]:
    noted = any(trackers.noted(store, part.id)[0] for part in one.trackers)
    return on_nights.values_on(store, one.trackers, of_nights.kept) if noted else {}


def _themes(store: Store, one: Candidate, of_nights: _OfNights) -> dict[date, float]:
    number = int(one.key.partition(":")[2])
    return _among(of_nights.with_lines(), theme_lines.nights_of(store, number))


def _people(store: Store, one: Candidate, of_nights: _OfNights) -> dict[date, float]:
    spellings = next((known.names for known in people.every(store) if known.id == one.key.partition(":")[2]), ())
    named = {night for night, text in people.lines_with(store, spellings) if mentions_any(text, spellings)}
    return _among(of_nights.with_lines(), named)


def _among(nights_told: Collection[date], yes: Collection[date]) -> dict[date, float]:
    return {night: float(night in yes) for night in nights_told} if yes else {}


def _moves(store: Store, one: Candidate, of_nights: _OfNights) -> dict[date, float]:
    at = dict(nights.spent(store))
    before = ((night, at.get(night - timedelta(days=1))) for night in at if night > date.min)
    return {night: float(at[night] != place) for night, place in before if place is not None}


def _travel(store: Store, one: Candidate, of_nights: _OfNights) -> dict[date, float]:
    moving = {place.id for place in places.every(store) if place.on_the_way}
    return {night: float(place in moving) for night, place in nights.spent(store)} if moving else {}


_OF_KIND = {READING: _readings, THEME: _themes, PERSON: _people, MOVE: _moves, TRAVEL: _travel}
