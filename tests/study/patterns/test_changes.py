"""When a level shifted. The Nile at Aswan 1871 to 1970: Cobb, Biometrika 65 (1978), finds one shift, after 1898.

The hundred figures (and that their mean is 919.35 and the likeness of one year to the next 0.498) are those that R and
statsmodels carry.
"""

import numpy as np
import pytest
from simulated_years import running_on

from keeper.study.patterns.changes import levels, standing
from keeper.study.patterns.within import autocorrelations

NILE = """
1120 1160 963 1210 1160 1160 813 1230 1370 1140 995 935 1110 994 1020 960 1180 799 958 1140 1100 1210 1150 1250 1260 1220
1030 1100 774 840 874 694 940 833 701 916 692 1020 1050 969 831 726 456 824 702 1120 1100 832 764 821 768 845 864 862 698
845 744 796 1040 759 781 865 845 944 984 897 822 1010 771 676 649 846 812 742 801 1040 860 874 848 890 744 749 838 1050 918
986 797 923 975 815 1020 906 901 1170 912 746 919 718 714 740
"""
FLOWS = [float(flow) for flow in NILE.split()]


def test_the_nile_shifted_once_after_1898():
    assert (len(FLOWS), np.mean(FLOWS)) == (100, pytest.approx(919.35))
    before, after = levels(FLOWS)
    assert (1871 + before.last, before.noted, after.noted) == (1898, 28, 72)
    assert (before.mean, after.mean) == (pytest.approx(1097.75), pytest.approx(849.97, abs=0.01))


def test_likeness_of_the_nile_to_the_year_before():
    centred = np.array([FLOWS]) - np.mean(FLOWS)
    # R and statsmodels divide both sums by n; here each is divided by its own number of nights.
    found = autocorrelations(centred, np.ones((1, 100)), 1)[0, 0] * 99 / 100
    assert found == pytest.approx(0.498, abs=5e-4)


def test_a_night_not_noted_moves_no_shift():
    reading = [None, *FLOWS[:10], None, None, *FLOWS[10:], None]
    before, after = levels(reading)
    assert (before.first, before.last, after.first, after.last) == (1, 30, 31, 102)
    assert (before.noted, after.noted) == (28, 72)


def test_too_little_or_always_the_same():
    assert levels(FLOWS[:59]) == () and levels([]) == ()
    (one,) = levels([5.0] * 100)
    assert (one.first, one.last, one.mean) == (0, 99, 5)


@pytest.mark.parametrize("likeness", [0, 0.4, 0.75])
def test_a_course_that_runs_on_is_not_cut_and_a_shift_is_found(likeness):
    cut = found = 0
    for year in range(20):
        rng = np.random.default_rng([21, year])
        course = np.rint(6 + 1.5 * running_on(rng, 365, likeness))
        cut += len(levels(list(course))) > 1
        course[200:] -= 2.5
        shifted = levels(list(course))
        found += len(shifted) == 2 and abs(shifted[1].first - 200) <= 14
    assert cut <= 1 and found >= 14 + 5 * (likeness < 0.5)


def test_how_a_month_stands():
    found = standing(4.5, [5, 6, 7, 8, 4, 6, 7])
    assert (found.below, found.others, found.low, found.high) == (1, 7, 5.5, 7)
    assert standing(4.5, [5, 6, 7, 8, 4]) is None
