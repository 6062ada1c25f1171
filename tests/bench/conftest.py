"""Measurements: ``python -m pytest tests/bench -o addopts= -q``.

Each compares the program with a bare reference, turn and turn about in the
same run, and prints the medians and their ratio at the end. Nothing here
passes or fails by time: a busy machine is no fault of the program. Targets
stand beside the ratios.
"""

import shutil
import statistics
import time
from collections.abc import Callable
from pathlib import Path

import fifty_years
import pytest

from keeper.actions.opening import open_kept

Way = Callable[[int], object]
_RATIOS = pytest.StashKey[list]()


@pytest.fixture(scope="session")
def fifty(tmp_path_factory) -> Path:
    """The folder of a keeper of fifty years (see tests/fifty_years.py)."""
    folder = tmp_path_factory.mktemp("fifty") / "keeper"
    fifty_years.make(folder).close()
    return folder


@pytest.fixture(scope="session")
def fifty_noted(fifty, tmp_path_factory) -> Path:
    """The same with twenty trackers, noted all the while."""
    folder = tmp_path_factory.mktemp("fifty noted") / "keeper"
    shutil.copytree(fifty, folder)
    with open_kept(folder) as store:
        fifty_years.note(store)
    return folder


@pytest.fixture
def compared(request, benchmark):
    """Call it with the program's way and the bare one; prints how they compare.

    Each is called with 0, 1, 2 and so on. ``after`` each call comes what is not
    measured.
    """

    def compare(what: str, ours: Way, bare: Way, rounds: int, target: float = 0, after: Callable[[], None] | None = None):
        times: dict[Way, list[float]] = {ours: [], bare: []}
        for number in range(rounds):
            for way in (ours, bare) if number % 2 else (bare, ours):
                begun = time.perf_counter()
                way(number)
                times[way].append(time.perf_counter() - begun)
                if after:
                    after()
        medians = [statistics.median(times[way]) * 1000 for way in (ours, bare)]
        quick = [statistics.quantiles(times[way])[0] for way in (ours, bare)]
        wanted = f" (target: at most {target})" if target else ""
        told = (
            f"{what}: {medians[0]:.3f} ms, bare {medians[1]:.3f} ms, ratio {medians[0] / medians[1]:.2f}{wanted}; "
            f"of the quicker quarters {quick[0] / quick[1]:.2f}"
        )
        request.config.stash.setdefault(_RATIOS, []).append(told)
        benchmark.extra_info["ratio"] = round(medians[0] / medians[1], 3)
        benchmark.pedantic(ours, setup=_numbers(rounds, after), rounds=min(rounds, 50))
        if after:
            after()

    return compare


def _numbers(used: int, after: Callable[[], None] | None) -> Callable[[], tuple[tuple[int], dict]]:
    # Numbers not used before: a line kept twice is not written twice.
    fresh = iter(range(used, 1_000_000))

    def before_each() -> tuple[tuple[int], dict]:
        if after:
            after()
        return (next(fresh),), {}

    return before_each


def pytest_terminal_summary(terminalreporter, config):
    """Print the ratios."""
    terminalreporter.section("ratios to a bare reference")
    for told in config.stash.get(_RATIOS, []):
        terminalreporter.write_line(told)
