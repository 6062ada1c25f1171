"""What goes onto the page for a clinician, gathered from the keeper."""

from collections.abc import Callable, Collection, Iterable, Iterator
from datetime import date

from keeper import cautions
from keeper.actions.clinician.chosen import Chosen, check
from keeper.actions.months.scales import highest_noted
from keeper.actions.patterns.shown import patterns_view
from keeper.actions.trying import results
from keeper.actions.trying import wording as tried
from keeper.actions.trying.values import values
from keeper.dates.written import number
from keeper.errors import UnknownThing
from keeper.model import Tracker
from keeper.review.clinician import wording
from keeper.review.clinician.page import ClinicianPage, ClinicianReading, PatternSaid
from keeper.review.month_series import drawn_as, scale
from keeper.review.patterns.candidates import READING, RHYTHMS
from keeper.store import Store, trackers

MOST_SAID = 8
"""So many sentences on what stands out have room."""


def page_of(store: Store, chosen: Chosen, tonight: date, heard: Callable[[float], None] = lambda share: None) -> ClinicianPage:
    """The page. Of many years it takes some seconds; ``heard`` is told the share that is done, and may raise to break off.

    Raises UnknownThing where nothing of what is chosen was noted, UnreadableDate for an end before the beginning.
    """
    check(chosen)
    its = [one for one in trackers.every(store) if one.id in chosen.reading_ids]
    highest = highest_noted(store, its)
    made = []
    for at, one in enumerate(its):
        heard(at / len(its))
        made.append(_reading(store, one, chosen, highest.get(one.id, 0.0)))
    readings = tuple(one for one in made if one.noted)
    if not readings:
        raise UnknownThing("Of these readings nothing was noted in these nights.")
    ids = {one.tracker.id for one in readings}
    asked, patterns = _patterns(store, ids) if chosen.patterns else (False, ())
    tryings = _tryings(store, ids, chosen, tonight) if chosen.patterns else ()
    said = (*patterns, *tryings)
    none = "" if patterns or tryings or not asked else wording.NONE_SAID
    body = any(one.tracker.body for one in readings)
    how = wording.method(asked, bool(tryings))
    return ClinicianPage(chosen.first, chosen.last, readings, _as_many_as_have_room(said), none, how, (cautions.under(body),))


def _as_many_as_have_room(said: tuple[PatternSaid, ...]) -> tuple[PatternSaid, ...]:
    if len(said) <= MOST_SAID:
        return said
    return (*said[: MOST_SAID - 1], PatternSaid(f"{number(len(said) - MOST_SAID + 1)} more have no room here."))


def _reading(store: Store, tracker: Tracker, chosen: Chosen, highest: float) -> ClinicianReading:
    its = values(store, tracker, chosen.first, chosen.last)
    return ClinicianReading(tracker, tuple(its), *scale(tracker, highest), drawn_as(tracker))


def _patterns(store: Store, ids: Collection[str]) -> tuple[bool, tuple[PatternSaid, ...]]:
    """Whether patterns were asked, and what was told last of these readings among themselves, or with weekday and season."""
    keys, view = {f"{READING}:{one}" for one in ids} | set(RHYTHMS), patterns_view(store)
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
    first, *others = tried.came_of_it(of)
    return PatternSaid(f"Tried, by lot: {tried.plan(of.known)}. {first}", " ".join(others))
