"""Themes are found on one core, so that they are the same however many a machine has."""

import numpy as np
from diary_lines import diary
from threadpoolctl import threadpool_info, threadpool_limits

from keeper.study.one_core import on_one_core
from keeper.study.themes import group_lines
from keeper.study.themes.rebuilding import rebuild


def cores():
    """How many cores each of the libraries loaded would use."""
    return {library["filepath"]: library["num_threads"] for library in threadpool_info()}


def test_sums_run_on_one_core_and_then_on_as_many_as_before():
    within = []
    with threadpool_limits(limits=2):
        before = cores()
        assert on_one_core(lambda a, b: within.append(cores()) or a @ b)(np.eye(2), b=np.eye(2)).trace() == 2
        assert set(within[0].values()) == {1}
        assert {path: cores()[path] for path in before} == before


def test_themes_are_found_on_one_core(monkeypatch):
    within = []
    lines, _ = diary(60)
    with threadpool_limits(limits=2):
        rebuild(lines, progress=lambda done, what: within.append(set(cores().values())))
        monkeypatch.setattr("keeper.study.themes._untold", lambda done, what: within.append(set(cores().values())))
        group_lines([line.text for line in lines])
    assert len(within) > 6 and all(one == {1} for one in within)
