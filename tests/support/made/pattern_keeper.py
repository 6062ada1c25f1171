"""A keeper with readings in which one thing follows another, for tests of patterns."""

from datetime import date, timedelta

import numpy as np

from keeper.model import Act, Reading, Tracker
from keeper.store import Store, trackers

FIRST = date(2025, 1, 1)
NIGHTS = 300

MADE = (
    Tracker("mood", "mood", "scale", 0.0, 10.0, "", "higher", FIRST, body=True),
    Tracker("sleep", "sleep", "hours", 0.0, 12.0, "h", "higher", FIRST),
    Tracker("tea", "tea", "count", None, None, "cups", "neither", FIRST),
    Tracker("ferry", "ferry", "mark", None, None, "", "neither", FIRST),
)
"""After short sleep mood is lower; tea and ferry go with nothing."""


def fill(store: Store, first: date = FIRST, nights: int = NIGHTS, seed: int = 4, order: int = 1, link: float = 1.0) -> None:
    """Note all four; they begin with ``first``. ``order`` -1 lists the trackers the other way round."""
    rng = np.random.default_rng(seed)
    sleep = np.clip(np.rint(2 * (7 + rng.normal(size=nights))) / 2, 3, 10)
    mood = 6 + link * np.concatenate([[0], sleep[:-1] - 7]) + 1.2 * rng.normal(size=nights)
    values = {
        "mood": np.clip(np.rint(mood), 0, 10), "sleep": sleep, "tea": rng.integers(0, 5, nights).astype(float),
        "ferry": (rng.random(nights) < 0.25).astype(float),
    }  # fmt: skip
    with store.writing(Act("Readings", "night")):
        for one in MADE[::order]:
            trackers.add(store, Tracker(**{**one.__dict__, "began": first}))
        for name, column in values.items():
            its = (Reading(first + timedelta(days=day), name, float(value)) for day, value in enumerate(column))
            # An empty mark is a no, since the other readings are there.
            trackers.note(store, (one for one in its if name != "ferry" or one.value))
