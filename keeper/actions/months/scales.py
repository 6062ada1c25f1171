"""How far the readings of a tracker ever went: what its strips are drawn to, on whatever page."""

from collections.abc import Iterable

from keeper.model import Tracker
from keeper.store import Store
from keeper.store.trackers import highest
from keeper.study.readings.measure import on_axis


def highest_noted(store: Store, trackers: Iterable[Tracker]) -> dict[str, float]:
    """The highest value ever noted of each tracker without a scale of its own, in its unit, by id."""
    without = [one for one in trackers if one.form != "mark" and one.high is None]
    return {one.id: max((on_axis(one, reading) for reading in highest(store, one.id)), default=0.0) for one in without}
