"""Ways beside the date: what tonight has in common with earlier nights, and the one of them whose turn it is."""

from collections.abc import Callable, Collection, Iterator
from datetime import date, timedelta

from keeper import settings
from keeper.actions import told_as
from keeper.actions.awake import Awake, awake
from keeper.actions.remembering.bringing_up import place_of
from keeper.dates.written import counted
from keeper.days import days_apart
from keeper.model import QUESTION_KIND, Night, Tracker
from keeper.review.looking_back import WEEK, without_resting
from keeper.review.remembering import ways as told
from keeper.review.remembering.ways import LATELY, Pool, WayBack, WaysBack, in_turn
from keeper.store import Store, lines, month_pages, nights, people, trackers
from keeper.store import settings as kept_settings
from keeper.store.folding import bare
from keeper.store.remembering import brought_up, candidates
from keeper.study.people import mentions_any

_OVER_AND_OVER = 5
"""On so many nights at least."""

_NAMED_WITHIN = timedelta(days=6)
_A_WEEK = timedelta(days=7)


def ways(store: Store, night: date, tonight: date, shown: Collection[date]) -> WaysBack:
    """What is brought up on a night beside those ``shown`` on their date; ``tonight`` is the evening on which it is."""
    rule, kept = awake(store), kept_settings.read(store)
    left_out = left_out_of(kept)
    taken, found = set(shown), []
    for name, pool_of in _POOLS.items():
        if name in left_out:
            continue
        pool = {one: why for one, why in pool_of(store, night, rule).items() if one not in taken and night - one > LATELY}
        if way := _next(store, name, pool, rule, tonight):
            taken.add(way.night.date)
            found.append(way)
    if settings.read(kept, "unseen") == "once a week" and (way := _unseen(store, night, tonight, kept, taken, rule)):
        found.append(way)
    return WaysBack(night, tuple(found), left_out)


def note(store: Store, brought: Collection[date], found: WaysBack | None, tonight: date) -> None:
    """Keep that nights were brought up tonight. No act: nothing was done."""
    brought_up.note(store, brought, tonight)
    if found and any(way.name == told.UNSEEN for way in found.found):
        kept_settings.write(store, {"unseen_last": tonight.isoformat()})


def leave_out(store: Store, name: str) -> None:
    """Bring nothing up by this way any more."""
    _set(store, (*left_out_of(kept_settings.read(store)), name), f"No looking back by {told.CALLED[name]}")


def bring_in(store: Store, name: str) -> None:
    """Bring up by this way again."""
    rest = (one for one in left_out_of(kept_settings.read(store)) if one != name)
    _set(store, tuple(rest), f"Looking back by {told.CALLED[name]} again")


def left_out_of(kept: dict[str, str]) -> tuple[str, ...]:
    """The ways left out, in their order."""
    names = settings.read(kept, "ways_left_out").split(",")
    return tuple(name for name in told.CALLED if name in names)


def _set(store: Store, names: tuple[str, ...], act: str) -> None:
    with store.writing(told_as.of_settings(act)):
        kept_settings.write(store, {"ways_left_out": ",".join(dict.fromkeys(names))})


def _next(store: Store, name: str, pool: Pool, rule: Awake, tonight: date) -> WayBack | None:
    """The night of a way whose turn it is, of those with a line awake."""
    for one in in_turn(pool, brought_up.last_before(store, pool, tonight)):
        shown = without_resting(nights.one(store, one), rule)
        if shown.lines:
            return WayBack(name, pool[one], shown)
    return None


# what there is to choose from


def _weekday(store: Store, night: date, rule: Awake) -> Pool:
    ends = lines.span(store)
    dates = told.same_weekday(night, ends[0].year) if ends else ()
    return dict.fromkeys(candidates.among(store, dates), told.weekday_told(night))


def _place(store: Store, night: date, rule: Awake) -> Pool:
    place = place_of(store, night)
    if place is None or not rule.place(place):
        return {}
    before = candidates.at_place(store, place.id, night - LATELY)
    return dict.fromkeys(before, f"{place.name}, on {counted(len(before), 'earlier night')}")


def _person(store: Store, night: date, rule: Awake) -> Pool:
    """The nights that name the person who was named last, within a week."""
    known = [one for one in people.every(store) if one.names and not one.resting] if lines.span(store) else []
    recent = lines.between(store, night - _NAMED_WITHIN, night) if known else ()
    for line in sorted(recent, key=lambda one: one.night, reverse=True):
        for person in known if rule.line(line) else ():
            if mentions_any(line.text, person.names):
                its = {one for one, text in people.lines_with(store, person.names) if mentions_any(text, person.names)}
                before = candidates.among(store, (one for one in its if night - one > LATELY))
                return dict.fromkeys(before, f"{person.names[0]}, named on {counted(len(before), 'earlier night')}")
    return {}


def _question(store: Store, night: date, rule: Awake) -> Pool:
    """The answers to this month's question where it was asked before; else those of this month of other years."""
    month = night.replace(day=1)
    now = bare(month_pages.question(store, month))
    asked = {one: question for one, question in month_pages.questions(store) if one < month and rule.text(question)}
    same = {one: question for one, question in asked.items() if now and bare(question) == now}
    of = same or {one: question for one, question in asked.items() if one.month == month.month}
    found = candidates.answered(store, of, QUESTION_KIND)
    return {one: f"The month\u2019s question: {of[one.replace(day=1)]}" for one in found}


def _first(store: Store, night: date, rule: Awake) -> Pool:
    """The first nights of years that lie at this time of the year, or all where tonight is such a night."""
    found: dict[date, str] = {}
    for mark in _marks(store, rule):
        firsts = told.firsts_of_years(candidates.marked(store, mark.id, night + timedelta(days=1)), mark.began)
        tonight_too = firsts.pop(night.year, None) == night
        for one in firsts.values():
            if tonight_too or abs(days_apart(night, one)) <= WEEK:
                found.setdefault(one, f"The first \u201c{mark.name}\u201d of {one.year}")
    return {one: found[one] for one in candidates.among(store, found)}


def _thing(store: Store, night: date, rule: Awake) -> Pool:
    """The nights with a mark that was noted tonight or last night, and many times before."""
    found: dict[date, str] = {}
    since = night - timedelta(days=1)
    for mark in _marks(store, rule):
        marked = candidates.marked(store, mark.id, night + timedelta(days=1))
        if len(marked) > _OVER_AND_OVER and marked[-1] >= since:
            for one in marked:
                found.setdefault(one, f"\u201c{mark.name}\u201d, on {counted(len(marked), 'night')}")
    return {one: found[one] for one in candidates.among(store, found)}


def _marks(store: Store, rule: Awake) -> Iterator[Tracker]:
    # What was noted of the body may hurt: it is not brought up unasked.
    return (one for one in trackers.every(store) if one.form == "mark" and not one.body and rule.text(one.name))


_POOLS: dict[str, Callable[[Store, date, Awake], Pool]] = {
    told.WEEKDAY: _weekday, told.PLACE: _place, told.PERSON: _person, told.QUESTION: _question, told.FIRST: _first,
    told.THING: _thing,
}  # fmt: skip


def _unseen(store: Store, night: date, tonight: date, kept: dict[str, str], taken: Collection[date], rule: Awake) -> WayBack | None:
    """One line of the night that was not brought up for the longest, if none came within a week."""
    last = settings.read(kept, "unseen_last")
    if last != tonight.isoformat() and last > (tonight - _A_WEEK).isoformat():
        return None
    for one in candidates.longest_unseen(store, night - LATELY, tonight):
        shown = without_resting(nights.one(store, one), rule)
        if one not in taken and shown.lines:
            line = shown.lines[one.toordinal() % len(shown.lines)]
            return WayBack(told.UNSEEN, "Not seen for the longest", Night(one, (line,), shown.place, shown.place_source))
    return None
