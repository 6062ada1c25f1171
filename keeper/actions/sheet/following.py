"""A place that was said goes on over the nights after it, until the next that was said."""

from datetime import date, timedelta

from keeper.actions.carrying import CARRIED_FOR, carry_on
from keeper.clock import Clock
from keeper.store import Store, nights
from keeper.store.moments import utc_text

_LOOKED_AHEAD = timedelta(days=400)


def let_follow(store: Store, night: date, clock: Clock) -> None:
    """Let the kept nights after this one, whose place was carried on or is not known, be where it was.

    As far as a place is carried on: to the next night where one was said, or to
    a gap longer than CARRIED_FOR. A night whose own place was taken back is
    first given that of the night before.
    """
    moment = clock.moment()
    here = {at: (place_id, source) for at, place_id, source in nights.where_between(store, night, night + _LOOKED_AHEAD)}
    if night in here and here[night][0] is None:
        carry_on(store, night, moment)
        here[night] = next((one[1:] for one in nights.where_between(store, night, night)), (None, ""))
    place_id, last = here.get(night, (None, ""))[0], night
    for at in sorted(one for one in here if one > night):
        there, source = here[at]
        if (there and source != "carried") or at - last > CARRIED_FOR:
            return
        if there is None:
            # Not where the clock was moved since.
            carry_on(store, at, moment)
        elif there != place_id:
            nights.set_place(store, at, place_id, "carried", utc_text(moment.utc))
        last = at
