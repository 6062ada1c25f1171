"""Days to remember that are told on Tonight: on their morning, and in the week before; only those that are wished."""

from dataclasses import dataclass
from datetime import date

from keeper.actions.awake import awake
from keeper.dates import written
from keeper.dates.yearly import coming, is_soon
from keeper.model import DayToRemember
from keeper.store import Store, people
from keeper.store.one_person import days as kept_days

_MOST = 3
"""So many are named in one line."""


@dataclass(frozen=True, slots=True)
class DaysTold:
    """Such as "Tomorrow: birthday of Inga, 60 years", "" on most days; and the id of who is named first."""

    line: str = ""
    person_id: str = ""


def told(store: Store, tonight: date) -> DaysTold:
    """What is told on a night. Nobody who rests is named."""
    soon = [(there, one) for one in kept_days.told(store) if is_soon(there := coming(one.month, one.day, one.after, tonight), tonight)]
    if not soon:
        return DaysTold()
    names, rule = {one.id: one.names[0] for one in people.every(store) if one.names}, awake(store, tonight, tonight)
    soon = sorted(
        ((there, one) for there, one in soon if one.person_id in names and rule.text(names[one.person_id], one.what)),
        key=lambda pair: (pair[0], pair[1].id),
    )
    said = [_said(one, there, names[one.person_id], tonight) for there, one in soon[:_MOST]]
    more = [f"{len(soon) - _MOST} more"] if len(soon) > _MOST else []
    return DaysTold(" \u00b7 ".join([*said, *more]), soon[0][1].person_id) if soon else DaysTold()


def _said(one: DayToRemember, there: date, name: str, tonight: date) -> str:
    away = (there - tonight).days
    when = {0: "Today", 1: "Tomorrow"}.get(away) or written.weekday_and_day(there)
    years = there.year - one.year if one.year else 0
    since = f", {written.counted(years, 'year')}" if years > 0 else ""
    return f"{when}: {one.what} of {name}{since}"
