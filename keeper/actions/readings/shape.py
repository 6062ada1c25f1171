"""What a tracker can be: its name, its key, its scale, its beginning and end."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from keeper.actions.writing import check_text
from keeper.dates.written import full_date, shortest
from keeper.errors import AlreadyKept, UnreadableReading
from keeper.model import FORMS, Tracker
from keeper.study.readings import measure

LONGEST_NAME, LONGEST_UNIT = 40, 20

MOST_STEPS = 1000
"""So many steps a scale may have."""

AXES = {"\u00b0C": (35.0, 38.5), "\u00b0F": (95.0, 101.5)}
"""Between what ends a waking temperature is drawn, where nothing else is said."""

_FAR = date(2999, 12, 31)


def checked(tracker: Tracker, others: Iterable[Tracker], was: Tracker | None = None, noted: int = 0) -> Tracker:
    """The tracker as it can be kept beside the ``others``.

    ``was`` is what it is before a change, and ``noted`` how often it was
    noted. Raises UnreadableText for what is no text, UnreadableReading for
    what cannot be, AlreadyKept where another one has its name or its key.
    """
    made = replace(tracker, name=_words(tracker.name, LONGEST_NAME, "name"), unit=_unit(tracker), key=tracker.key.strip().lower())
    if not made.name:
        raise UnreadableReading("A reading needs a name.")
    if made.form not in FORMS or (was and noted and made.form != was.form):
        raise UnreadableReading(f"{made.name} was noted already: it stays a {was.form if was else made.form}.")
    if made.ended and made.ended < made.began:
        raise UnreadableReading(f"{made.name} cannot end before it begins, on {full_date(made.began)}.")
    _check_key(made)
    _check_beside(made, [one for one in others if _at_once(one, made)])
    return _BY_FORM.get(made.form, _without_ends)(made)


def free_key(name: str, others: Iterable[Tracker]) -> str:
    """The first letter of a name that goes to no other tracker, or ""."""
    taken = {one.key for one in others}
    return next((letter for letter in name.lower() if letter.isalpha() and len(letter) == 1 and letter not in taken), "")


def _words(text: str, longest: int, what: str) -> str:
    check_text(text)
    plain = " ".join(text.split())
    if len(plain) > longest:
        raise UnreadableReading(f"A {what} holds {longest} characters at most; this one has {len(plain)}.")
    return plain


def _unit(tracker: Tracker) -> str:
    if tracker.form not in ("amount", "count", "hours"):
        return ""
    return measure.spelt(_words(tracker.unit, LONGEST_UNIT, "unit"))


def _check_key(made: Tracker) -> None:
    if made.key and not (len(made.key) == 1 and made.key.isalpha()):
        raise UnreadableReading(f"A key is one letter; \u201c{made.key}\u201d is not.")


def _at_once(one: Tracker, other: Tracker) -> bool:
    return one.began <= (other.ended or _FAR) and other.began <= (one.ended or _FAR)


def _check_beside(made: Tracker, others: list[Tracker]) -> None:
    for one in others:
        if one.name.casefold() == made.name.casefold():
            raise AlreadyKept(f"There is {one.name} among the readings already.")
        if made.key and one.key == made.key:
            raise AlreadyKept(f"The letter {made.key.upper()} goes to {one.name} already.")


def _scale(made: Tracker) -> Tracker:
    low, high = made.low or 0.0, 10.0 if made.high is None else made.high
    if not low < high:
        raise UnreadableReading(f"A scale ends above where it begins: not {shortest(low)} to {shortest(high)}.")
    if made.step <= 0 or (high - low) / made.step > MOST_STEPS:
        raise UnreadableReading(f"A scale has {MOST_STEPS} steps at most.")
    return replace(made, low=low, high=high)


def _amount(made: Tracker) -> Tracker:
    # The axis of a temperature follows its unit, unless it was set.
    if made.unit in AXES and (made.low, made.high) in ((None, None), *AXES.values()):
        low, high = AXES[made.unit]
        return replace(made, low=low, high=high, step=0.1)
    return made


def _without_ends(made: Tracker) -> Tracker:
    return made


_BY_FORM = {"scale": _scale, "amount": _amount}
