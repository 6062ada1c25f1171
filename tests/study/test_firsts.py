"""First times, in the order of their nights."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from keeper.study.firsts import PERSON, PLACE, THEME, TRACKER, First, earliest, firsts_between

MAY = (date(2026, 5, 1), date(2026, 5, 31))


def test_those_of_the_span_in_order_each_once():
    known = [
        First(date(2026, 5, 9), TRACKER, "swam"), First(date(2026, 5, 9), PLACE, "Visby"),
        First(date(2026, 5, 2), THEME, "bread"), First(date(2026, 5, 9), PERSON, "Ilze"),
        First(date(2026, 4, 30), PLACE, "Riga"), First(date(2026, 6, 1), PLACE, "Turku"),
        First(date(2026, 5, 2), THEME, "bread"),
    ]  # fmt: skip
    assert [one.name for one in firsts_between(known, *MAY)] == ["bread", "Visby", "Ilze", "swam"]


@given(st.lists(st.tuples(st.dates(), st.sampled_from("abc"))))
def test_the_earliest_of_each(seen):
    found = earliest(seen)
    assert set(found) == {thing for _, thing in seen}
    assert all(found[thing] <= night for night, thing in seen)
    assert {(night, thing) for thing, night in found.items()} <= set(seen)
