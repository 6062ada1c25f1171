"""The window on patterns: sums are done in this process."""

import pytest
from waiting.not_apart import here


@pytest.fixture(autouse=True)
def _not_apart(request, monkeypatch):
    """Unless a test asks for ``really_apart``."""
    if "really_apart" not in request.fixturenames:
        monkeypatch.setattr("keeper.actions.patterns.asking.apart", here)
        monkeypatch.setattr("keeper.actions.courses.changes.apart", here)
