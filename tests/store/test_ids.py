"""Identifiers that two keepers can never both have given."""

import time
from concurrent.futures import ThreadPoolExecutor

from hypothesis import given
from hypothesis import strategies as st

from keeper.store.ids import new_id, shaped

LAST_MILLISECOND = (1 << 48) - 1


def test_a_great_many_ids_are_all_different():
    with ThreadPoolExecutor(4) as pool:
        ids = list(pool.map(lambda _: new_id(), range(20_000), chunksize=5_000))
    assert len(set(ids)) == len(ids)


def test_ids_sort_by_birth():
    first = new_id()
    time.sleep(0.003)
    assert first < new_id()


@given(st.integers(0, LAST_MILLISECOND - 1), st.binary(min_size=10, max_size=10), st.binary(min_size=10, max_size=10))
def test_a_later_millisecond_sorts_after_whatever_chance_gave(milliseconds, one, other):
    assert shaped(milliseconds, one) < shaped(milliseconds + 1, other)
