"""What goes onto the page for a clinician, gathered from the keeper."""

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from datetime import date
from functools import cache

from keeper import cautions
from keeper.actions.clinician.chosen import Chosen, check
from keeper.actions.months.scales import highest_noted
from keeper.actions.patterns.columns import candidate_of
from keeper.actions.patterns.shown import patterns_view
from keeper.actions.readings import on_nights
from keeper.actions.trying import results
from keeper.actions.trying import wording as trying_wording
from keeper.dates.written import number
from keeper.days import nights
from keeper.errors import UnknownThing
from keeper.review.clinician import wording
from keeper.review.clinician.page import ClinicianPage, ClinicianReading, PatternSaid
from keeper.review.month_series import drawn_as, scale
from keeper.review.patterns.candidates import RHYTHMS
from keeper.review.patterns.whole import NO_CAUSE
from keeper.store import Store

MOST_SAID = 8
"""So many sentences on what stands out have room."""


def page_of(store: Store, chosen: Chosen, tonight: date, heard: Callable[[float], None] = lambda share: None) -> ClinicianPage:
    """The page. Of many years it takes some seconds; ``heard`` is told the share that is done, and may raise to break off.

    Raises UnknownThing where nothing of what is chosen was noted, UnreadableDate for an end before the beginning.
    """
    check(chosen)
    its = [course for course in on_nights.courses(store) if any(one.id in chosen.reading_ids for one in course)]
    made = _read(store, its, chosen, heard)
    readings = tuple(reading for _, reading in made if reading.noted)
    if not readings:
        raise UnknownThing("Of these readings nothing was noted in these nights.")
    courses = [course for course, reading in made if reading.noted]
    ids = {one.id for course in courses for one in course}
    asked, patterns = _patterns(store, {candidate_of(course).key for course in courses}) if chosen.patterns else (False, ())
    tryings = _tryings(store, ids, chosen, tonight) if chosen.patterns else ()
    said = (*patterns, *tryings)
    none = "" if patterns or tryings or not asked else wording.NONE_SAID
    body = any(one.tracker.body for one in readings)
    how = wording.method(asked, bool(tryings))
    warned = (*((NO_CAUSE,) if patterns else ()), cautions.under(body))
    return ClinicianPage(chosen.first, chosen.last, readings, _as_many_as_have_room(said), none, how, warned)


def _as_many_as_have_room(said: tuple[PatternSaid, ...]) -> tuple[PatternSaid, ...]:
    if len(said) <= MOST_SAID:
        return said
    return (*said[: MOST_SAID - 1], PatternSaid(f"{number(len(said) - MOST_SAID + 1)} more have no room here."))


def _read(
    store: Store, its: Sequence[on_nights.Course], chosen: Chosen, heard: Callable[[float], None]
) -> list[tuple[on_nights.Course, ClinicianReading]]:
    """Each course with what was noted of it in the nights that are chosen."""
    highest = highest_noted(store, [one for course in its for one in course])
    # Once, and only where there is a mark.
    kept = cache(lambda: on_nights.nights_kept(store, chosen.first, chosen.last))
    span, made = list(nights(chosen.first, chosen.last)), []
    for at, course in enumerate(its):
        heard(at / len(its))
        found = on_nights.values_on(store, course, kept, chosen.first, chosen.last)
        axis = scale(course[-1], max(highest.get(one.id, 0.0) for one in course))
        made.append((course, ClinicianReading(course[-1], tuple(map(found.get, span)), *axis, drawn_as(course[-1]))))
    return made


def _patterns(store: Store, keys: Collection[str]) -> tuple[bool, tuple[PatternSaid, ...]]:
    """Whether patterns were asked, and what was told last of these readings among themselves, or with weekday and season."""
    keys, view = {*keys, *RHYTHMS}, patterns_view(store)
    told = tuple(PatternSaid(one.sentence, one.small) for one in view.told if {one.told.first, one.told.second} <= keys)
    return view.asked, told


def _tryings(store: Store, ids: Collection[str], chosen: Chosen, tonight: date) -> tuple[PatternSaid, ...]:
    return tuple(_said(one) for one in _came_of(store, results.every(store, tonight), ids, chosen, tonight))


def _came_of(
    store: Store, known: Iterable[results.Known], ids: Collection[str], chosen: Chosen, tonight: date
) -> Iterator[results.CameOfIt]:
    for one in known:
        within = chosen.first <= one.trying.until and one.trying.first <= chosen.last
        if one.over and within and {one.mark.id, one.reading.id} <= set(ids):
            yield results.came_of(store, one.trying.id, tonight, sureness=False)


def _said(of: results.CameOfIt) -> PatternSaid:
    first, *others = trying_wording.came_of_it(of)
    return PatternSaid(f"Tried, by lot: {trying_wording.plan(of.known)}. {first}", " ".join(others), tried=True)
