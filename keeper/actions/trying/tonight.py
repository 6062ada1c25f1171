"""What a night's page says of what is tried: one sentence, by one small question."""

from datetime import date, timedelta

from keeper.model import Trying
from keeper.store import Store
from keeper.store import trying as kept

_TOLD_FOR = timedelta(14)
"""So many nights after its end a trying is still told of."""


def told(store: Store, night: date, tonight: date) -> str:
    """Such as "Trying: without tea, night 3 of 7 in block 2 of 8"; "" for nothing.

    Of nights to come nothing is said: what the lot has for them is told night by night.
    """
    found = kept.on(store, night) if night <= tonight else None
    if found is None:
        return ""
    one, name = found
    if spot := one.spot(night):
        how = "with" if spot.with_it else "without"
        return f"Trying: {how} {name}, night {spot.night} of {one.length} in block {spot.block} of {len(one.withs)}"
    return _at_its_end(one, name, night) if night == tonight else ""


def _at_its_end(one: Trying, name: str, tonight: date) -> str:
    if one.stopped is not None or tonight > one.last + _TOLD_FOR:
        return ""
    if not one.over(tonight):
        return f"Trying {name}: the last reading of it is tonight\u2019s"
    return f"What came of trying {name} can be seen"
