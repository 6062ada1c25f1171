"""Units that can be converted, and readings of old scales and units beside those of now.

The factors are exact by definition (Bureau international des poids et mesures,
SI Brochure, 9th edition, 2019; NIST Special Publication 811, 2008, appendix B).
"""

from keeper.model import Reading, Tracker

_LIKE = (
    # Each as so many of the first, after its nought.
    {"\u00b0C": (1.0, 0.0), "\u00b0F": (5 / 9, 32.0)},
    {"km": (1.0, 0.0), "mi": (1.609344, 0.0), "m": (0.001, 0.0)},
    {"kg": (1.0, 0.0), "lb": (0.45359237, 0.0), "g": (0.001, 0.0)},
    {"l": (1.0, 0.0), "ml": (0.001, 0.0)},
    {"cm": (1.0, 0.0), "in": (2.54, 0.0)},
    {"kJ": (1.0, 0.0), "kcal": (4.184, 0.0)},
)

DEGREES = tuple(_LIKE[0])

_OTHERWISE = {
    "c": "\u00b0C", "celsius": "\u00b0C", "degrees c": "\u00b0C", "deg c": "\u00b0C", "degrees celsius": "\u00b0C",
    "f": "\u00b0F", "fahrenheit": "\u00b0F", "degrees f": "\u00b0F", "deg f": "\u00b0F", "degrees fahrenheit": "\u00b0F",
    "\u2103": "\u00b0C", "\u2109": "\u00b0F", "\u00b0 c": "\u00b0C", "\u00b0 f": "\u00b0F",
    "miles": "mi", "mile": "mi", "kms": "km", "lbs": "lb", "kilo": "kg", "kilos": "kg", "litres": "l", "litre": "l",
}  # fmt: skip
_KNOWN = {name.casefold(): name for group in _LIKE for name in group} | _OTHERWISE


def spelt(unit: str) -> str:
    """A unit in its one spelling, such as °C for "celsius"; another one as it is."""
    plain = " ".join(unit.split())
    return _KNOWN.get(plain.casefold(), plain)


def names(unit: str) -> tuple[str, ...]:
    """How the units that one can be converted to are typed, in small letters; its own name too."""
    group = next((group for group in _LIKE if unit in group), {unit: None} if unit else {})
    return tuple(name for name, its in {**_KNOWN, unit.casefold(): unit}.items() if its in group)


def convertible(unit: str, other: str) -> bool:
    """Whether what is noted in one unit can be told in the other."""
    return unit == other or _group(unit, other) is not None


def converted(value: float, unit: str, to: str) -> float:
    """The value in another unit. Raises LookupError where it cannot be converted."""
    if unit == to:
        return value
    group = _group(unit, to)
    if group is None:
        raise LookupError(f"{unit} is not to be had in {to}")
    (size, nought), (other_size, other_nought) = group[unit], group[to]
    return (value - nought) * size / other_size + other_nought


def _group(unit: str, other: str) -> dict[str, tuple[float, float]] | None:
    return next((group for group in _LIKE if unit in group and other in group), None)


def on_axis(tracker: Tracker, reading: Reading) -> float:
    """Where a reading stands on its tracker's axis of today.

    In today's unit; what was noted on an earlier scale as high between the
    ends of today's as it was between those. What was noted is not changed.
    """
    if tracker.form == "scale":
        return _on_scale(tracker, reading)
    if reading.unit and convertible(reading.unit, tracker.unit):
        return converted(reading.value, reading.unit, tracker.unit)
    return reading.value


def _on_scale(tracker: Tracker, reading: Reading) -> float:
    ends = (reading.low, reading.high, tracker.low, tracker.high)
    if None in ends or ends[:2] == ends[2:] or reading.high == reading.low:
        return reading.value
    return tracker.low + (reading.value - reading.low) / (reading.high - reading.low) * (tracker.high - tracker.low)
