"""W3C, Web Content Accessibility Guidelines 2.2: relative luminance and contrast ratio."""

import pytest

from keeper.window.desk.palette import contrast


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        # Black on white is 21:1 by definition; #767676 on white is the palest
        # grey that passes AA at 4.5 (4.54).
        ("#000000", "#ffffff", 21.0),
        ("#767676", "#ffffff", 4.54),
        ("#ffffff", "#ffffff", 1.0),
    ],
)
def test_ratios_of_the_standard(one, other, ratio):
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert contrast(other, one) == contrast(one, other)
