"""What a month had that no month before it had, and the themes that set it apart."""

from datetime import date

from keeper.actions.awake import Awake
from keeper.days import last_of_month
from keeper.model import Person
from keeper.review.month import MonthView
from keeper.store import Store, lines, people, trackers
from keeper.store.places import named as places
from keeper.store.themes import lines as theme_lines
from keeper.study import distinctive
from keeper.study.firsts import PERSON, PLACE, THEME, TRACKER, First, earliest, firsts_between
from keeper.study.people import mentions_any


def themes_apart(store: Store, view: MonthView) -> tuple[str, ...]:
    """The themes that set a month apart from the person's other months, by name."""
    if not view.themes:
        return ()
    totals = theme_lines.totals(store)
    counted = [
        distinctive.Counted(one.name, one.lines, one.nights, totals.get(one.number, one.lines)) for one in view.themes
    ]
    found = distinctive.set_apart(
        counted, len(view.lines), lines.count(store), view.kept, distinctive.LINES_OF_PRIOR, most=3
    )
    return tuple(str(one.what) for one in found)


def firsts(store: Store, view: MonthView, rule: Awake) -> tuple[First, ...]:
    """What came for the first time in a month, of what is awake."""
    first, last = view.month, last_of_month(view.month)
    found = [*_first_places(store, view), *_first_themes(store, view), *_first_names(store, view, rule)]
    began = (First(one.began, TRACKER, one.name) for one in trackers.every(store) if rule.text(one.name))
    return firsts_between([*found, *began], first, last)


def _first_places(store: Store, view: MonthView) -> list[First]:
    before = places.known_before(store, [one.place.id for one in view.places], view.month)
    return [First(one.nights[0], PLACE, one.place.name) for one in view.places if one.place.id not in before]


def _first_themes(store: Store, view: MonthView) -> list[First]:
    shown = {one.number: one.name for one in view.themes}
    new = shown.keys() - theme_lines.known_before(store, shown, view.month)
    placed = theme_lines.named_between(store, view.month, last_of_month(view.month))
    nights_of = {line.id: line.night for line in view.lines}
    seen = earliest((nights_of[line_id], shown[number]) for line_id, number, _, _ in placed
                    if line_id in nights_of and number in new)  # fmt: skip
    return [First(night, THEME, name) for name, night in seen.items()]


def _first_names(store: Store, view: MonthView, rule: Awake) -> list[First]:
    found = []
    for one in people.every(store):
        night = next((line.night for line in view.lines if mentions_any(line.text, one.names)), None)
        if night and rule.text(*one.names) and not _named_before(store, one, view.month):
            found.append(First(night, PERSON, one.names[0]))
    return found


def _named_before(store: Store, person: Person, night: date) -> bool:
    return any(mentions_any(text, person.names) for text in people.texts_naming(store, person.names, night))
