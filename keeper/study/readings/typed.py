"""What was typed for a tracker, understood by its form."""

import re
from datetime import date
from math import isclose

from keeper.dates.written import shortest
from keeper.errors import UnreadableReading
from keeper.model import Reading, Tracker
from keeper.study.readings import hours, measure
from keeper.study.readings.hours import Whence
from keeper.study.readings.numbers import number

YES = frozenset(("yes", "y", "1", "x", "true", "\u2713", "+"))
NO = frozenset(("no", "n", "0", "false"))

_LARGEST = 1_000_000_000.0
_AMOUNT = r"([-+\u2212]?[\d.,' \u00a0\u2009\u202f\u2019]*\d[.,]?)\s*(\D*)"


def understood(tracker: Tracker, typed: str, night: date, here: Whence) -> Reading:
    """The reading that was typed. Raises UnreadableReading, saying what can be typed."""
    text = " ".join(typed.split())
    return _BY_FORM[tracker.form](tracker, text, night, here)


def _scale(tracker: Tracker, text: str, night: date, here: Whence) -> Reading:
    low, high = tracker.low or 0.0, 10.0 if tracker.high is None else tracker.high
    value = number(text)
    if value is None or not low <= value <= high or not _on_step((value - low) / tracker.step):
        steps = {1.0: "whole", 0.5: "half"}.get(tracker.step)
        by = f"{steps} steps" if steps else f"steps of {shortest(tracker.step)}"
        raise UnreadableReading(
            f"\u201c{text}\u201d is not on the scale of {tracker.name}: it goes from {shortest(low)} to {shortest(high)} in {by}."
        )
    return Reading(night, tracker.id, value)


def _on_step(steps: float) -> bool:
    return isclose(steps, round(steps), abs_tol=1e-6)


def _hours(tracker: Tracker, text: str, night: date, here: Whence) -> Reading:
    if times := hours.two_times(text):
        first, until = times
        told = (f"{one:%H:%M}" for one in times)
        return Reading(night, tracker.id, hours.between(first, until, night, here), *told)
    length = hours.length(text)
    if length is None:
        raise UnreadableReading(
            f"\u201c{text}\u201d is no length of time. For {tracker.name} it can be 7:30 or 7.5, or two times: 23:30-6:45."
        )
    return Reading(night, tracker.id, length)


def _count(tracker: Tracker, text: str, night: date, here: Whence) -> Reading:
    plain = text.removesuffix(tracker.unit) if tracker.unit else text
    value = number(plain)
    if value is None or value != int(value) or not 0 <= value <= _LARGEST:
        raise UnreadableReading(f"\u201c{text}\u201d is no count. For {tracker.name} it is a whole number from 0 on.")
    return Reading(night, tracker.id, value)


def _amount(tracker: Tracker, text: str, night: date, here: Whence) -> Reading:
    found = re.fullmatch(_AMOUNT, text)
    value = number(found[1]) if found else None
    if value is None or abs(value) > _LARGEST:
        unit = f" in {tracker.unit}" if tracker.unit else ""
        raise UnreadableReading(f"\u201c{text}\u201d is no amount. For {tracker.name} it is a number{unit}, such as 4.5.")
    unit = measure.spelt(found[2]) or tracker.unit
    if unit.casefold() == tracker.unit.casefold():
        return Reading(night, tracker.id, value)
    if not measure.convertible(unit, tracker.unit):
        raise UnreadableReading(
            f"{tracker.name} is noted in {tracker.unit or 'plain numbers'}; \u201c{unit}\u201d cannot be converted to that."
        )
    return Reading(night, tracker.id, value, unit=unit)


def _mark(tracker: Tracker, text: str, night: date, here: Whence) -> Reading:
    if text.casefold() in YES | NO:
        return Reading(night, tracker.id, float(text.casefold() in YES))
    raise UnreadableReading(f"\u201c{text}\u201d is neither yes nor no; {tracker.name} is one of the two.")


_BY_FORM = {"scale": _scale, "hours": _hours, "count": _count, "amount": _amount, "mark": _mark}
