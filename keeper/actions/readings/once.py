"""What is said of readings once, and never again."""

from collections.abc import Iterable
from datetime import date

from keeper import settings
from keeper.actions.readings.trackers import in_force
from keeper.cautions import OF_THE_BODY
from keeper.model import Tracker
from keeper.store import Store
from keeper.store import settings as kept_settings

FEW = 7
"""More trackers than this at once get a word."""

MANY = (
    "That makes more than seven a night. Fewer are easier to keep up for long; any of them can also be a guest "
    "for one month."
)

SAID = "said"


def caution(store: Store, noted: Iterable[Tracker]) -> str:
    """The caution, when something of the body or the mood is noted for the first time; else ""."""
    return _once(store, "readings_caution", OF_THE_BODY) if any(one.body for one in noted) else ""


def of_many(store: Store, night: date) -> str:
    """A word when there are more than FEW trackers on a night, the first time; else ""."""
    return _once(store, "readings_many", MANY) if len(in_force(store, night)) > FEW else ""


def _once(store: Store, name: str, sentence: str) -> str:
    if settings.read(kept_settings.read(store), name):
        return ""
    kept_settings.write(store, {name: SAID})
    return sentence
