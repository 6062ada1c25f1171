"""Small sums shared out among cores mostly wait, as the program's own rebuild knows; these tests call its parts."""

import pytest


@pytest.fixture(autouse=True, scope="package")
def one_core():
    import sklearn.cluster  # noqa: F401
    from threadpoolctl import threadpool_limits

    with threadpool_limits(limits=1):
        yield
