"""Contrast of every palette that can come up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.settings import INKS
from keeper.window.desk.palette import LINE_CONTRAST, TEXT_CONTRAST, contrast, palette


def check(made):
    for text in (made.ink, made.quiet):
        assert contrast(text, made.paper) >= TEXT_CONTRAST
    assert contrast(made.ink, made.wash) >= TEXT_CONTRAST
    assert contrast(made.ink, made.faint) >= TEXT_CONTRAST
    assert contrast(made.line, made.paper) >= LINE_CONTRAST
    for tint in made.tints:
        assert contrast(tint, made.paper) >= LINE_CONTRAST
    assert len(set(made.tints)) == len(made.tints)


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("ink", INKS)
def test_the_inks_to_choose_from(ink, dark):
    check(palette(INKS[ink], dark))


@given(st.integers(0, 0xFFFFFF), st.booleans())
def test_any_ink_of_ones_own(colour, dark):
    check(palette(f"#{colour:06x}", dark))
