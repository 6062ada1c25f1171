"""Four hundred simulated years each, and the time of ten years against a bare loop.

The engine's numbers (91 nights, two nights of likeness, a twentieth of margin, which spread) were chosen on years of
another generator with other seeds: AR courses with a sine, cut at quantiles, and chains of two states. These years
(tests/support/simulated_years.py) were written afterwards. A first look at a hundred of them, with other seeds, changed one
thing: a link that the season hides is told. With the seeds below nothing was chosen.
"""

from collections.abc import Callable

import numpy as np
import pytest
from simulated_years import EASY, HARD, MIDDLE, nothing, one_link, tally
from ten_years import MARKS, bare_loop, ten_years

from keeper.study.patterns import find_patterns

YEARS, SEED = 400, 20_260_611
MOST_ALARMS, LEAST_FOUND = 0.05, 0.97


@pytest.fixture
def told(request) -> Callable[[str], None]:
    """What is printed, whether or not output is captured."""
    capture = request.config.pluginmanager.getplugin("capturemanager")

    def tell(words: str) -> None:
        with capture.global_and_fixture_disabled():
            print("\n" + words)

    return tell


@pytest.mark.parametrize("nights", [365, 1100])
@pytest.mark.parametrize(("name", "kind"), [("easy", EASY), ("hard", HARD)])
def test_years_of_nothing(name, kind, nights, told):
    found = tally(nothing, YEARS, nights, SEED, kind=kind)
    told(f"{name} years of nothing, {nights} nights: {found.false_alarms:.4f} with a false alarm (target: {MOST_ALARMS})")
    assert found.false_alarms <= MOST_ALARMS


@pytest.mark.parametrize(("name", "kind"), [("easy", EASY), ("middle", MIDDLE), ("hard", HARD)])
@pytest.mark.parametrize("spearman", [0.35, 0.25])
def test_years_with_a_link(name, kind, spearman, told):
    found = tally(one_link, YEARS, 365, SEED + 1, kind=kind, spearman=spearman)
    told(
        f"{name} years with a link of {spearman}, noted {found.noted:.3f}: found in {found.found:.4f} (target for .35: "
        f"{LEAST_FOUND}), told as {found.told:.3f}, likely {found.likely:.3f}; false alarms beside it {found.false_alarms:.4f}"
    )
    assert found.noted == pytest.approx(spearman, abs=0.02)
    if spearman == 0.35 and kind is not HARD:
        assert found.found >= LEAST_FOUND


def test_bench_patterns(compared):
    columns = ten_years()
    values = {name: np.array(column, float) for name, column in columns.items()}
    compared(
        "patterns among twenty trackers over ten years",
        lambda _: find_patterns(columns, marks=MARKS),
        lambda _: bare_loop(values, MARKS),
        rounds=7,
        target=2,
    )
