"""Where two rows of nights cross: nothing across a night that was not noted."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.study.readings.crossings import Crossing, crossings

VALUES = st.none() | st.integers(0, 20).map(lambda half: half / 2)
PAIRS = st.lists(st.tuples(VALUES, VALUES), max_size=31)


def rows(pairs):
    return [one for one, _ in pairs], [other for _, other in pairs]


@pytest.mark.parametrize(("one", "other", "wanted"), [
    ([3, 7], [5, 5], [Crossing(2, 1.5, 5.0, True)]),
    ([7, 3], [5, 6], [Crossing(2, 1.4, 5.4, False)]),
    ([7, 5, 3], [5, 5, 5], [Crossing(2, 2.0, 5.0, False)]),
    ([7, 5, 5, 3], [5, 5, 5, 5], [Crossing(2, 2.0, 5.0, False)]),
    ([7, 5, 7], [5, 5, 5], []),
    ([7, None, 3], [5, 5, 5], []),
    ([5, 3], [5, 5], []),
    ([], [], []),
])  # fmt: skip
def test_a_crossing_is_where_the_order_changes(one, other, wanted):
    found = crossings(one, other)
    assert [(c.day, c.over) for c in found] == [(c.day, c.over) for c in wanted]
    assert [(c.at, c.value) for c in found] == [pytest.approx((c.at, c.value)) for c in wanted]


@given(PAIRS)
def test_either_way_round_they_cross_on_the_same_nights(pairs):
    there, back = crossings(*rows(pairs)), crossings(*reversed(rows(pairs)))
    assert [(one.day, one.over) for one in there] == [(one.day, not one.over) for one in back]
    assert [one.value for one in there] == pytest.approx([one.value for one in back])


@given(PAIRS, st.integers(0, 30))
def test_what_was_not_noted_makes_no_crossing(pairs, at):
    parted = [*pairs[:at], (None, 5.0), *pairs[at:]]
    before, after = crossings(*rows(pairs[:at])), crossings(*rows(pairs[at:]))
    moved = len(pairs[:at]) + 1
    assert [one.day for one in crossings(*rows(parted))] == [*(c.day for c in before), *(c.day + moved for c in after)]


@given(st.lists(st.tuples(st.integers(0, 20), st.integers(0, 20)).filter(lambda pair: pair[0] != pair[1]), min_size=2, max_size=60))
def test_without_gaps_they_are_the_changes_of_sign_that_numpy_finds(pairs):
    signs = np.sign([one - other for one, other in pairs])
    assert [found.day for found in crossings(*rows(pairs))] == [int(place) + 2 for place in np.flatnonzero(np.diff(signs))]
    for found in crossings(*rows(pairs)):
        other = np.interp(found.at, range(1, len(pairs) + 1), [pair[1] for pair in pairs])
        assert found.value == pytest.approx(other)
