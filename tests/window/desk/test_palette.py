"""Contrast of every palette that can come up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.settings import INKS, PAPERS
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


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("ink", INKS)
def test_the_inks_to_choose_from(ink, paper):
    check(palette(INKS[ink], PAPERS[paper]))


@given(st.integers(0, 0xFFFFFF), st.sampled_from(list(PAPERS.values())))
def test_any_ink_of_ones_own(colour, paper):
    check(palette(f"#{colour:06x}", paper))


def test_only_the_paper_by_night_is_dark():
    assert {name: palette(INKS["sepia"], paper).dark for name, paper in PAPERS.items()} == {
        "day": False, "night": True,
    }  # fmt: skip
