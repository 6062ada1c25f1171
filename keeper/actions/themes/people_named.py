"""People marked as threads of their own: every line that names them, beside the themes and taking none from them."""

from keeper.actions.awake import Awake, awake
from keeper.model import Person
from keeper.review import themes as themes_review
from keeper.review.themes import Calendar, Thread
from keeper.store import Store
from keeper.store import people as kept_people
from keeper.store.finding.naming import found_with
from keeper.store.themes import lines as theme_lines
from keeper.store.themes.found import KeptTheme
from keeper.study.people import mentions_any


def people_named(store: Store) -> tuple[Thread, ...]:
    """The threads of those marked whom any line names, most lines first; who rests is not among them.

    The number of a thread is the person's id.
    """
    people = [one for one in kept_people.every(store) if not one.resting]
    rule, calendar = awake(store), Calendar(theme_lines.nights_kept(store))
    found = (_named(store, one, calendar, len(people), rule) for one in people)
    return tuple(sorted((one for one in found if one), key=lambda one: (-one.lines, one.name)))


def _named(store: Store, person: Person, calendar: Calendar, among: int, rule: Awake) -> Thread | None:
    lines = tuple(one for one in found_with(store, person.names) if mentions_any(one.line.text, person.names))
    if not lines:
        return None
    central = [one.line for one in lines if rule.line(one.line)][: themes_review.CENTRAL]
    as_theme = KeptTheme(person.id, person.names[0], True, False, 1.0, tuple((name, 1.0) for name in person.names[1:]))
    return themes_review.thread(as_theme, [one.line.night for one in reversed(lines)], calendar, among, central)
