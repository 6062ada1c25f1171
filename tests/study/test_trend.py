import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.study.trend import newcombe, trend, wilson


def test_word_only_when_the_interval_leaves_no_room():
    assert trend(5, 100, 25, 100).word == "growing"
    assert trend(25, 100, 5, 100).word == "fading"
    assert trend(10, 100, 14, 100).word == ""


def test_many_themes_together_need_more():
    assert trend(10, 100, 22, 100).word == "growing"
    assert trend(10, 100, 22, 100, among=20).word == ""


def test_nothing_is_said_without_nights():
    assert trend(0, 0, 5, 10).word == ""
    assert trend(0, 3, 3, 3).word in ("", "growing")


@pytest.mark.parametrize("numbers", [(5, 4, 1, 2), (-1, 4, 1, 2), (1, 4, 3, 2)])
def test_impossible_numbers(numbers):
    with pytest.raises(ValueError, match="nights"):
        trend(*numbers)


counts = st.integers(1, 400).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of)))


@given(counts, counts)
def test_turning_time_round_turns_the_word_round(one, other):
    opposite = {"growing": "fading", "fading": "growing", "": ""}
    forth, back = trend(*one, *other), trend(*other, *one)
    assert back.word == opposite[forth.word]
    assert back.low == pytest.approx(-forth.high)


@given(counts, counts)
def test_interval_holds_the_difference(one, other):
    found = trend(*one, *other)
    assert -1 <= found.low <= found.difference + 1e-12
    assert found.difference - 1e-12 <= found.high <= 1


@given(counts)
def test_wilson_agrees_with_scipy(count):
    from scipy.stats import binomtest

    expected = binomtest(*count).proportion_ci(0.95, "wilson")
    assert wilson(*count) == pytest.approx((expected.low, expected.high), abs=1e-9)


def test_newcombe_1998_table_ii():
    # Newcombe, Statistics in Medicine 17 (1998), table II, method 10.
    assert newcombe(56, 70, 48, 80) == pytest.approx((0.0524, 0.3339), abs=5e-5)
    assert newcombe(9, 10, 3, 10) == pytest.approx((0.1705, 0.8090), abs=5e-5)
    assert newcombe(10, 10, 0, 20) == pytest.approx((0.6791, 1.0), abs=5e-5)
