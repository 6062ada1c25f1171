"""Readings and trackers in words, for eye and ear alike."""

from keeper.dates.written import shortest
from keeper.model import Reading, Tracker
from keeper.study.readings import measure

NOT_NOTED = "not noted"

LEFT_EMPTY = "no, left empty"
"""What counts for a mark that was not noted on a night that was kept."""


def told(tracker: Tracker, reading: Reading | None) -> str:
    """Such as "mood 7", "sleep 7:30" or "mood, not noted"."""
    if reading is None:
        return f"{tracker.name}, {NOT_NOTED}"
    return f"{tracker.name} {value(tracker, reading)}"


def value(tracker: Tracker, reading: Reading | None) -> str:
    """The same without the name. What was noted in another unit, or on another scale, is told as it was noted too."""
    if reading is None:
        return NOT_NOTED
    return _BY_FORM.get(tracker.form, _number)(tracker, reading)


def short(tracker: Tracker, reading: Reading) -> str:
    """What a strip has room for: the value alone, in the tracker's unit."""
    if tracker.form in ("mark", "hours"):
        return _mark(tracker, reading) if tracker.form == "mark" else clock(reading.value)
    return shortest(measure.on_axis(tracker, reading) if tracker.form == "amount" else reading.value)


def unit(tracker: Tracker, reading: Reading | None) -> str:
    """What stands small beside it: the unit, or the scale where it was another; "" for nothing."""
    if reading is None or tracker.form in ("mark", "hours"):
        return ""
    if tracker.form == "scale":
        other = reading.low is not None and (reading.low, reading.high) != (tracker.low, tracker.high)
        return f"of {shortest(reading.high or 0.0)}" if other else ""
    return tracker.unit


def asked(tracker: Tracker) -> str:
    """What can be noted and by which letter, such as "0 to 10, letter M"."""
    shape = {
        "scale": scale(tracker) if tracker.form == "scale" else "", "hours": "hours, or from and until",
        "count": f"a count of {tracker.unit}" if tracker.unit else "a count",
        "amount": f"in {tracker.unit}" if tracker.unit else "an amount", "mark": "yes or no",
    }[tracker.form]  # fmt: skip
    return f"{shape}, letter {tracker.key.upper()}" if tracker.key else shape


def clock(hours: float) -> str:
    """Such as 7:30."""
    minutes = round(hours * 60)
    return f"{minutes // 60}:{minutes % 60:02}"


def scale(tracker: Tracker) -> str:
    """The ends of a scale, such as "0 to 10"."""
    return f"{shortest(tracker.low or 0.0)} to {shortest(10.0 if tracker.high is None else tracker.high)}"


def _mark(tracker: Tracker, reading: Reading) -> str:
    return "yes" if reading.value else "no"


def _hours(tracker: Tracker, reading: Reading) -> str:
    times = f", {reading.first} to {reading.until}" if reading.first and reading.until else ""
    return f"{clock(reading.value)}{times}"


def _scale(tracker: Tracker, reading: Reading) -> str:
    if reading.low is None or (reading.low, reading.high) == (tracker.low, tracker.high):
        return shortest(reading.value)
    return f"{shortest(reading.value)} (on a scale of {shortest(reading.low)} to {shortest(reading.high or 0.0)})"


def _number(tracker: Tracker, reading: Reading) -> str:
    if not reading.unit or reading.unit == tracker.unit:
        return f"{shortest(reading.value)} {tracker.unit}".strip()
    noted = f"{shortest(reading.value)} {reading.unit}"
    if not measure.convertible(reading.unit, tracker.unit):
        return noted
    now = measure.converted(reading.value, reading.unit, tracker.unit)
    return f"{shortest(now)} {tracker.unit} (noted as {noted})"


_BY_FORM = {"mark": _mark, "hours": _hours, "scale": _scale}
