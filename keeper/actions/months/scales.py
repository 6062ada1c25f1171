"""How far the readings of a tracker ever went: what its strips are drawn to, on whatever page."""

from collections.abc import Iterable

from keeper.model import Tracker
from keeper.store import Store
from keeper.store.trackers import highest


def highest_noted(store: Store, trackers: Iterable[Tracker]) -> dict[str, float]:
    """The highest value ever noted of each tracker without a scale of its own, by id."""
    without = [one.id for one in trackers if one.form != "mark" and one.high is None]
    return {tracker_id: highest(store, tracker_id) for tracker_id in without}
