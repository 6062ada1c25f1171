"""What is being typed at a strip, key by key, before it is a reading."""

from datetime import UTC, datetime

from keeper.actions.readings import wording
from keeper.model import Reading, Tracker
from keeper.study.readings import measure
from keeper.study.readings.hours import LONGEST, Whence
from keeper.study.readings.typed import understood

LONGEST_TYPED = 24

_ELSEWHERE = Whence(UTC, datetime(2000, 1, 2, tzinfo=UTC))
"""Hours are only looked at here; how many passed is reckoned where the night is known."""

_A_QUARTER = 0.25


class KeysTyped:
    """The keys typed at one tracker since it was gone to; "" for none."""

    def __init__(self, tracker: Tracker) -> None:
        self.tracker = tracker
        self.text = ""
        self._whole = False
        self._values = _values(tracker) if tracker.form == "scale" else ()

    def of(self, tracker: Tracker) -> "KeysTyped":
        """The same keys, for the tracker as it is now."""
        other = KeysTyped(tracker)
        other.text, other._whole = self.text, self._whole
        return other

    def takes(self, letter: str) -> bool:
        """Whether a key belongs to what is typed here."""
        form = self.tracker.form
        if letter.isdecimal():
            return form != "mark" or letter in "01"
        if form == "hours":
            return letter in ".,:-\u2013" if not letter.isalpha() else bool(self.text) and letter.lower() == "h"
        if form == "amount":
            return letter in ".,-\u2212" if not letter.isalpha() else self._begins_a_unit(letter)
        return letter in ".,-" and form == "scale"

    def _begins_a_unit(self, letter: str) -> bool:
        begun = "".join(one for one in self.text if one.isalpha()) + letter
        return any(name.startswith(begun.lower()) for name in measure.names(self.tracker.unit)) if self.text else False

    def add(self, letter: str) -> bool:
        """Take a key; a scale begins anew where it would leave the scale. Whether anything is typed now."""
        if self._whole:
            self.clear()
        if self.tracker.form == "mark":
            self.text = letter
        elif self.tracker.form != "scale":
            self.text = (self.text + letter)[:LONGEST_TYPED]
        else:
            longer = self.text + letter
            self.text = next((text for text in (longer, letter) if self._leads_on(text)), self.text)
        return bool(self.text)

    def put(self, text: str) -> None:
        """Have a whole reading there, as by a step; what is typed next begins anew."""
        self.text, self._whole = text, True

    def drop(self) -> None:
        """Take the last key back."""
        self.text, self._whole = self.text[:-1], False

    def clear(self) -> None:
        """Nothing is typed."""
        self.text, self._whole = "", False

    def over(self) -> bool:
        """Whether no further key could make it another reading."""
        plain = self.text.replace(",", ".")
        return self.tracker.form == "mark" or (plain in self._values and sum(one.startswith(plain) for one in self._values) == 1)

    def _leads_on(self, text: str) -> bool:
        plain = text.replace(",", ".")
        return any(one.startswith(plain) for one in self._values)


def read(tracker: Tracker, text: str) -> Reading:
    """The reading that was typed, of no night yet. Raises UnreadableReading."""
    return understood(tracker, text, _ELSEWHERE.now.date(), _ELSEWHERE)


def stepped(tracker: Tracker, reading: Reading | None, by: int) -> str:
    """What a step up (1) or down (-1) makes of a reading, as it would be typed."""
    if tracker.form == "mark":
        return "1" if by > 0 else "0"
    low, high, step = _steps(tracker)
    if reading is None:
        return _plain(_first(tracker, low, high, step, by))
    now = measure.on_axis(tracker, reading)
    value = min(max(low + round((now - low) / step) * step + by * step, low), high)
    return wording.clock(value) if tracker.form == "hours" else _plain(value)


def at_share(tracker: Tracker, share: float) -> str:
    """What stands so far along a scale, 0 to 1, as it would be typed."""
    low, high, step = _steps(tracker)
    return _plain(low + round(share * (high - low) / step) * step)


def _steps(tracker: Tracker) -> tuple[float, float, float]:
    if tracker.form == "scale":
        return tracker.low or 0.0, 10.0 if tracker.high is None else tracker.high, tracker.step
    if tracker.form == "hours":
        return 0.0, LONGEST, _A_QUARTER
    if tracker.form == "count":
        return 0.0, 1e9, 1.0
    return -1e9 if tracker.unit in measure.DEGREES else 0.0, 1e9, tracker.step


def _first(tracker: Tracker, low: float, high: float, step: float, by: int) -> float:
    """Where the first step from nothing leads: the middle of what has one."""
    if tracker.form == "scale" or (tracker.low is not None and tracker.high is not None):
        low, high = tracker.low or 0.0, 10.0 if tracker.high is None else tracker.high
        return low + round((high - low) / 2 / step) * step
    if tracker.form == "hours":
        return 7.0
    return step if by > 0 else 0.0


def _values(tracker: Tracker) -> tuple[str, ...]:
    low, high, step = _steps(tracker)
    return tuple(_plain(low + place * step) for place in range(round((high - low) / step) + 1))


def _plain(value: float) -> str:
    return f"{round(value, 6):.10g}"
