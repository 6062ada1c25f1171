"""Groups of rows, against scikit-learn's own k-means: only the time may differ."""

import numpy as np
import pytest
from sklearn.cluster import KMeans, kmeans_plusplus
from threadpoolctl import threadpool_limits

from keeper.study.k_means import k_means, spread


def clouds(count, seed):
    """(count, 20) unit rows around a dozen middles; some of them more than once."""
    rng = np.random.default_rng(seed)
    rows = rng.normal(size=(12, 20))[rng.integers(12, size=count)] + 0.7 * rng.normal(size=(count, 20))
    rows[-20:] = rows[:20]
    return (rows / np.linalg.norm(rows, axis=1, keepdims=True)).astype(np.float32)


@pytest.mark.parametrize(("count", "groups", "starts"), [(600, 15, 5), (1500, 40, 1), (50, 2, 3)])
def test_groups_are_those_of_the_reference(count, groups, starts):
    rows = clouds(count, groups)
    with threadpool_limits(limits=1):
        ours = k_means(rows, groups, starts=starts, rounds=30, seed=4).labels_
        theirs = KMeans(groups, n_init=starts, random_state=4, max_iter=30).fit(rows).labels_
    assert (ours == theirs).all()


def test_each_start_begins_with_the_rows_that_the_reference_draws():
    rows, random = clouds(800, 3), np.random.RandomState(9)
    theirs = np.stack([kmeans_plusplus(rows, 12, random_state=random)[0] for _ in range(4)])
    assert (spread(rows, 12, 4, np.random.RandomState(9)) == theirs).all()


def test_no_more_different_rows_than_groups():
    rows = np.repeat(clouds(60, 1)[:4], 5, axis=0)
    assert len(set(map(bytes, spread(rows, 4, 2, np.random.RandomState(0))[1]))) == 4
