"""What was noted each day, with a structure planted in it for Patterns to find.

See README.md for what is planted. Everything is drawn from one seed; the days
themselves (places, swims, words in the lines) come from the prose.
"""

import math
import random
from dataclasses import dataclass
from datetime import date, timedelta

from demo_db.prose import FIRST_SWIM, ToldNight
from demo_db.towns import FERRY
from keeper.days import nights as each_night
from keeper.model import Tracker

SILENCE = (date(2025, 1, 8), date(2025, 1, 28))
"""The three weeks in which nothing at all was noted."""

NO_COFFEE_NOTED = (date(2026, 3, 5), date(2026, 4, 12))
BAD_WINTER = (date(2024, 12, 1), date(2025, 3, 23))
SHORT = 6
"""A night of fewer hours is a short one."""

_BEGAN = date(2023, 5, 1)

TRACKERS = (
    Tracker("", "mood", "scale", 0, 10, "", "higher", _BEGAN, key="m", body=True),
    Tracker("", "stress", "scale", 0, 10, "", "lower", _BEGAN, key="s", body=True),
    Tracker("", "sleep", "hours", 0, 12, "h", "higher", _BEGAN, key="l", body=True),
    Tracker("", "coffee", "count", None, None, "cups", "neither", _BEGAN, key="c"),
    Tracker("", "swam", "mark", None, None, "", "neither", FIRST_SWIM, key="w"),
    Tracker("", "herring", "mark", None, None, "", "neither", _BEGAN, key="h"),
    Tracker("", "back ache", "mark", None, None, "", "lower", _BEGAN, key="b", body=True),
    Tracker("", "walked", "amount", None, None, "km", "neither", date(2024, 9, 17), date(2025, 11, 30), key="k"),
)

# What the lines themselves say, so that the readings agree: hours of the night
# that began on this evening (the line is the next day's), and days of a bad back.
_SLEPT = {
    "2023-07-28": 4, "2023-09-24": 9, "2023-10-06": 4, "2023-11-27": 5, "2023-12-18": 5, "2024-01-29": 4,
    "2024-02-04": 6, "2024-04-01": 6, "2024-05-10": 3, "2024-05-11": 9, "2024-06-13": 8, "2025-05-05": 6,
    "2025-05-22": 3.5, "2025-07-28": 9, "2025-09-21": 5, "2025-10-25": 6, "2026-02-08": 9, "2026-04-20": 5,
    "2026-05-22": 4.5, "2026-08-12": 10, "2026-09-02": 4, "2026-10-24": 6,
}  # fmt: skip
_BAD_BACK = {
    "2023-05-17", "2023-08-04", "2024-04-14", "2024-07-12", "2024-07-14", "2025-02-22", "2025-07-17", "2026-09-03",
}  # fmt: skip

_OFTEN_NOTED = {"mood": 0.97, "stress": 0.94, "sleep": 0.96, "coffee": 0.93, "walked": 0.9}
_NO_SAID_ALOUD = 0.02
"""How many of a mark's empty days carry an explicit no."""


@dataclass
class Day:
    """A day as it went; ``noted`` holds only what the person put down."""

    date: date
    place: str
    told: ToldNight | None
    sleep: float = 7
    mood: float = 6
    noted: dict[str, float] | None = None


def days(told: list[ToldNight], seed: int) -> list[Day]:
    """Every day from the first night to the last, with what was noted on it.

    Days without a line carry readings now and then, except in the silence.
    """
    lived = _lived(told)
    _Course(random.Random(f"{seed} course")).run(lived)
    chance = random.Random(f"{seed} notes")
    # A stream of its own, and of sixty tried the third: one in which mere
    # chance, too, left herring without a trace of an effect.
    herring = random.Random(f"{seed} herring 3")
    for before, day in zip([None, *lived], lived, strict=False):
        values = _values(before, day, chance, herring)
        day.noted = {name: value for name, value in values.items() if _is_noted(name, day.date, chance)}
        if day.told is None and (_within(day.date, SILENCE) or chance.random() > 0.3):
            day.noted = {}
    return lived


def _lived(told: list[ToldNight]) -> list[Day]:
    by_date = {night.date: night for night in told}
    place, lived = "", []
    for night in each_night(told[0].date, told[-1].date):
        one = by_date.get(night)
        place = one.place if one else place
        lived.append(Day(night, place, one))
    return lived


class _Course:
    """How sleep and mood run on from one day to the next."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.drift = 0.0

    def run(self, lived: list[Day]) -> None:
        """Fill in sleep and mood, day after day."""
        before = None
        for day in lived:
            self.drift = 0.8 * self.drift + self.chance.gauss(0, 0.4)
            day.sleep = _SLEPT.get(day.date.isoformat(), self._sleep(day))
            day.mood = self._mood(before, day)
            before = day

    def _sleep(self, day: Day) -> float:
        middle = 7.2 - 0.3 * _dark(day.date) - 0.4 * _within(day.date, BAD_WINTER)
        if day.place == FERRY:
            middle = 5.0
        elif self.chance.random() < 0.12:
            middle -= 1.9
        return min(max(round(2 * self.chance.gauss(middle, 0.7)) / 2, 2.5), 9.5)

    def _mood(self, before: Day | None, day: Day) -> float:
        mood = 6.5 + self.drift - 0.4 * _dark(day.date) - 1.3 * _within(day.date, BAD_WINTER)
        mood -= 1.2 * (before is not None and before.sleep < SHORT)
        mood += 0.6 * (day.told is not None and day.told.swam)
        return mood + self.chance.gauss(0, 0.7)


def _dark(night: date) -> float:
    """1 in the darkest week of the year, -1 in the lightest."""
    return math.cos(2 * math.pi * (night.timetuple().tm_yday + 10) / 365.25)


def _within(night: date, span: tuple[date, date]) -> bool:
    return span[0] <= night <= span[1]


def _values(before: Day | None, day: Day, chance: random.Random, herring: random.Random) -> dict[str, float]:
    short = before is not None and before.sleep < SHORT
    stress = 3.4 + 0.7 * short + 1.1 * _within(day.date, BAD_WINTER) + chance.gauss(0, 1.1)
    coffee = chance.gauss(2.6 + 0.6 * short + 1.2 * (day.place in ("Turku", "Aarhus")), 0.9)
    return {
        "mood": _whole(day.mood),
        "stress": _whole(stress),
        "sleep": day.sleep,
        "coffee": max(round(coffee), 0),
        "walked": max(round(2 * chance.lognormvariate(1.5, 0.5)) / 2, 0.5),
        **_marks(before, day, chance, herring),
    }


def _whole(value: float) -> int:
    return min(max(round(value), 0), 10)


def _marks(before: Day | None, day: Day, chance: random.Random, herring: random.Random) -> dict[str, float]:
    """Marks that are yes, and now and then a no said aloud; an empty mark is left out."""
    text = " ".join(day.told.lines.values()).lower() if day.told else ""
    ached = 0.32 if before is not None and before.place == FERRY else 0.09
    yes = {
        "swam": bool(day.told and day.told.swam),
        # Herring comes by a stream of its own: it hangs together with nothing.
        "herring": herring.random() < 0.2 or "herring" in text,
        "back ache": chance.random() < ached or day.date.isoformat() in _BAD_BACK,
    }
    return {name: float(one) for name, one in yes.items() if one or chance.random() < _NO_SAID_ALOUD}


def _is_noted(name: str, night: date, chance: random.Random) -> bool:
    tracker = next(one for one in TRACKERS if one.name == name)
    if night < tracker.began or (tracker.ended and night > tracker.ended):
        return False
    if name == "coffee" and _within(night, NO_COFFEE_NOTED):
        return False
    return chance.random() < _OFTEN_NOTED.get(name, 1)


def noted_later(name: str) -> timedelta:
    """How long after the evening a value is noted: sleep is known in the morning only."""
    return timedelta(hours=9) if name == "sleep" else timedelta()
