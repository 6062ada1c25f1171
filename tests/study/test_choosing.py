"""Lines that stand for many: covering, varied, the same each time."""

import numpy as np
import pytest
from covering import worth
from hypothesis import given
from hypothesis import strategies as st

from keeper.study.choosing import choose, greedy, likeness

SEA = ("sea", "swim", "cold")
BREAD = ("bread", "oven", "rye")
bags = st.lists(st.lists(st.sampled_from("abcdefgh"), max_size=5), max_size=14)


def plain_greedy(alike: np.ndarray, count: int) -> list[int]:
    """The greedy choice as one would first write it, without laziness."""
    chosen: list[int] = []
    while len(chosen) < min(count, len(alike)):
        rest = [line for line in range(len(alike)) if line not in chosen]
        chosen.append(max(rest, key=lambda line: (round(worth(alike, [*chosen, line]), 7), -line)))
    return chosen


def test_each_thread_is_covered_before_any_comes_twice():
    lines = [SEA, ("sea", "swim"), ("sea", "cold"), BREAD, ("bread", "rye"), ("letter", "sister")]
    first_three = choose(lines, 3)
    assert {0, 3, 5} == set(first_three)
    assert first_three[0] == 0


def test_the_largest_thread_comes_first():
    assert choose([BREAD, SEA, SEA, SEA, BREAD], 2) == [1, 0]


def test_of_equals_the_earlier_is_taken():
    assert choose([SEA, SEA, BREAD, BREAD], 2) == [0, 2]


@pytest.mark.parametrize("count", [0, -1])
def test_none_wanted_none_given(count):
    assert choose([SEA], count) == []


def test_lines_without_words_can_still_be_chosen():
    assert sorted(choose([(), (), SEA], 5)) == [0, 1, 2]
    assert choose([], 3) == []


@given(bags, st.integers(0, 6))
def test_lazy_is_the_same_as_plain(lines, count):
    if not lines:
        return
    alike = likeness(lines).astype(float)
    lazy, plain = greedy(alike, count), plain_greedy(alike, count)
    assert len(lazy) == len(set(lazy)) == min(count, len(lines))
    assert worth(alike, lazy) == pytest.approx(worth(alike, plain), abs=1e-5)


@given(bags)
def test_likeness_is_symmetric_and_whole_on_the_diagonal(lines):
    alike = likeness(lines)
    assert alike.shape == (len(lines), len(lines))
    assert np.array_equal(alike, alike.T)
    assert (alike >= 0).all() and (alike <= 1).all() and (alike.diagonal() == 1).all()


@given(bags, st.integers(1, 5))
def test_the_same_lines_give_the_same_choice(lines, count):
    assert choose(lines, count) == choose([list(bag) for bag in lines], count)
