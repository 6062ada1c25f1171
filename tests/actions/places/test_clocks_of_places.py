"""The time of a line by the clock of the place where it was written."""

from datetime import UTC, date, datetime

import pytest

from keeper.actions.places.clocks import written_at
from keeper.model import Moment, Place

# A computer that still goes by Berlin's clock (one hour before UTC in winter, tzdata), while the night is spent in Turku.
NIGHT = date(2026, 11, 14)
TURKU = Place("p", "Turku", zone="Europe/Helsinki")


def at(day: int, hour: int, minute: int = 0) -> Moment:
    return Moment(datetime(2026, 11, day, hour, minute, tzinfo=UTC), 60, "Europe/Berlin")


@pytest.mark.parametrize(("moment", "place", "shown"), [
    (at(14, 21, 30), TURKU, (14, 23, 30)),
    (at(14, 22, 30), TURKU, (15, 0, 30)),  # after midnight there, and still that night
    (at(16, 8), TURKU, (16, 9, 0)),  # written two days later, wherever that was
    (at(15, 2, 30), TURKU, (15, 3, 30)),  # past the end of the night there: half past four
    (at(14, 21, 30), None, (14, 22, 30)),
    (at(14, 21, 30), Place("q", "The farm"), (14, 22, 30)),
    (at(14, 21, 30), Place("r", "Nowhere", zone="Mars/Olympus"), (14, 22, 30)),
    (at(14, 21, 30), Place("s", "The ferry", zone="Europe/Helsinki", on_the_way=True), (14, 22, 30)),
])  # fmt: skip
def test_the_clock_of_the_place_for_what_was_written_there_that_night(moment, place, shown):
    then = written_at(moment, NIGHT, place)
    assert (then.day, then.hour, then.minute) == shown
