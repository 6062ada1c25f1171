"""What lines tell of one person."""

from datetime import date

import pytest

from keeper.actions import people
from keeper.actions.writing import write_line
from keeper.errors import UnknownThing


def test_first_and_last_time_and_with_whom(store, clock):
    for day, text in ((1, "Tea with Ilze and Oddny"), (2, "ilze small"), (3, "Ilze, Maren"), (4, "Ilze and Oddny"), (5, "Oddny")):
        write_line(store, date(2026, 5, day), "memory", text, clock)
    for name in ("Ilze", "Oddny", "Maren"):
        people.add(store, name)
    people.rest_by_name(store, "Maren")
    view = people.view_of(store, "ilze")
    assert view.nights == (date(2026, 5, 1), date(2026, 5, 3), date(2026, 5, 4))
    assert [(one.name, times) for one, times in view.together] == [("Oddny", 2)]
    with pytest.raises(UnknownThing, match="Nobody"):
        people.view_of(store, "Nobody")
