"""What sets a month apart: told when it is plain, silent when it is not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.study.distinctive import (
    NIGHTS_NEEDED,
    NIGHTS_OF_EACH,
    WORDS_OF_MONTH_PRIOR,
    Counted,
    g2,
    log_odds,
    nights_of_each,
    set_apart,
)


def apart(*counted: Counted, here: int = 900, everywhere: int = 40_000, nights: int = 28) -> list[str]:
    return [one.what for one in set_apart(counted, here, everywhere, nights, WORDS_OF_MONTH_PRIOR)]


def test_a_word_of_one_month_alone_sets_it_apart():
    assert apart(Counted("lifeguard", 6, 4, 7)) == ["lifeguard"]


def test_a_word_as_frequent_as_ever_does_not():
    assert apart(Counted("tea", 9, 8, 400)) == []


def test_a_word_rarer_than_ever_does_not():
    assert apart(Counted("tea", 3, 3, 900)) == []


def test_one_long_night_does_not_speak_for_the_month():
    assert apart(Counted("wedge", 20, 1, 21)) == []


def test_the_surest_come_first_and_ties_by_their_name():
    some = (Counted("b", 6, 4, 7), Counted("a", 6, 4, 7), Counted("much", 20, 12, 22))
    assert apart(*some) == apart(*reversed(some)) == ["much", "a", "b"]


def test_no_more_than_asked_for():
    some = [Counted(f"word{n}", 6, 4, 7) for n in range(40)]
    assert len(set_apart(some, 900, 40_000, 28, most=5)) == 5


def test_without_other_months_nothing_is_apart():
    assert apart(Counted("tea", 9, 8, 9), here=900, everywhere=900) == []
    assert set_apart([Counted("tea", 0, 0, 0)], 0, 0, 0) == ()


@given(
    st.lists(st.builds(Counted, st.text(), st.integers(1, 40), st.integers(1, 3), st.integers(1, 60)), max_size=30),
    st.integers(1, NIGHTS_NEEDED - 1),
)
def test_three_lines_do_not_shout(counted, nights):
    assert set_apart(counted, 60, 40_000, nights, WORDS_OF_MONTH_PRIOR) == ()


@given(st.integers(1, 40), st.integers(0, 60), st.integers(3, 31))
def test_whatever_an_index_counts_it_is_borne(here, everywhere, nights):
    found = set_apart([Counted("word", here, nights, everywhere)], max(here, 50), 100, 31, WORDS_OF_MONTH_PRIOR)
    assert all(one.z > 0 for one in found)


@given(st.integers(1, 30), st.integers(1, 300))
def test_a_larger_prior_shrinks_towards_none(here, there):
    usual = (here + there) / 40_900
    few, many = (log_odds(here, 900, there, 40_000, prior * usual, prior) for prior in (100.0, 10_000.0))
    assert abs(many.delta) <= abs(few.delta) + 1e-9
    assert many.variance < few.variance


def test_a_prior_must_be_one():
    for prior, whole in ((0, 10), (-1, 10), (10, 10)):
        with pytest.raises(ValueError):
            log_odds(1, 2, 1, 2, prior, whole)


@given(st.integers(0, 50), st.integers(0, 50))
def test_g2_is_never_below_nothing_and_nought_for_equal_shares(here, there):
    assert g2(here, 50, there, 50) >= -1e-9
    assert abs(g2(here, 50, here * 2, 100)) < 1e-9
    assert g2(3, 0, there, 50) == 0


def test_a_thin_month_needs_more_nights_of_each():
    assert nights_of_each(6) == NIGHTS_OF_EACH > nights_of_each(28)


def test_what_chance_makes_one_month_in_fifty_is_not_said():
    # z is 2.61 and 2.53: on either side of one in a hundred.
    assert apart(Counted("wedge", 3, 3, 18)) == ["wedge"]
    assert apart(Counted("wedge", 3, 3, 19)) == []


def test_a_thing_is_heard_from_the_least_nights_on():
    assert apart(Counted("wedge", 6, NIGHTS_OF_EACH, 7)) == ["wedge"]
    assert apart(Counted("wedge", 6, NIGHTS_OF_EACH - 1, 7)) == []
