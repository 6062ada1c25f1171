"""Cycles of a mark, from what was noted; and where the person says that a second phase begins."""

from datetime import date

from keeper.actions.courses.asked import Nights, known, nights_of, what_can_be_asked
from keeper.actions.readings import on_nights
from keeper.dates.written import full_date
from keeper.errors import UnreadableReading
from keeper.model import Act
from keeper.review.courses.cycles import Cycle, CyclesTold, cycle, cycles_told
from keeper.review.patterns.candidates import Candidate
from keeper.store import Store
from keeper.store.patterns import phases
from keeper.study.patterns.following import cycles
from keeper.study.readings.measure import DEGREES

PAGE = "patterns"


def cycles_of(store: Store, mark_key: str, reading_key: str) -> CyclesTold:
    """The whole cycles of a mark, newest first, with a reading in them. Raises UnknownThing."""
    mark, reading = known(store, mark_key, reading_key)
    warmth = _temperature(store)
    its = nights_of(store, [mark, reading, *([warmth] if warmth else [])])
    said = {begins: rise for one in mark.trackers for begins, rise in phases.of_mark(store, one.id).items()}
    found = [_cycle(its, part, reading, warmth, said) for part in cycles(its.values[mark_key])]
    return cycles_told(mark.tracker, reading.tracker, warmth and warmth.tracker, found[::-1])


def _cycle(its: Nights, part: range, reading: Candidate, warmth: Candidate | None, said: dict[date, date | None]) -> Cycle:
    nights = slice(part.start, part.stop)
    temperatures = its.values[warmth.key][nights] if warmth else ()
    return cycle(its.night(part.start), its.values[reading.key][nights], temperatures, said if warmth else {})


def _temperature(store: Store) -> Candidate | None:
    """What was noted as a waking temperature: the first reading of the body in degrees."""
    its = what_can_be_asked(store).readings
    return next((one for one in its if one.tracker.unit in DEGREES and one.of_the_body), None)


def say_rise(store: Store, mark_id: str, begins: date, day: int) -> None:
    """Let the second phase of a cycle begin on its ``day``, 2 or later. Raises UnreadableReading."""
    if day < 2:
        raise UnreadableReading("A second phase begins on the second day at the earliest.")
    told = f"The second phase of the cycle from {full_date(begins)}, from day {day} on"
    phases.say(store, mark_id, begins, date.fromordinal(begins.toordinal() + day - 1), _act(told, begins))


def say_no_rise(store: Store, mark_id: str, begins: date) -> None:
    """Let a cycle have no second phase."""
    phases.say(store, mark_id, begins, None, _act(f"No second phase in the cycle from {full_date(begins)}", begins))


def leave_to_rule(store: Store, mark_id: str, begins: date) -> None:
    """Let the rule say it again."""
    told = f"The second phase of the cycle from {full_date(begins)}, left to the rule"
    with store.writing(_act(told, begins)):
        for one in on_nights.course_of(store, mark_id):
            phases.leave_to_rule(store, one.id, begins)


def _act(told: str, begins: date) -> Act:
    return Act(told, PAGE, begins, "cycles")
