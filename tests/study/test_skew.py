"""How far a page lies askew, on pages drawn at known angles."""

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st
from on_paper.notebook_pages import askew, written_page

from keeper.exchange.page_picture import ink_of
from keeper.study.skew import angle_of

LAID = [*(("ruled", degrees) for degrees in (-12.0, -0.2, 0.0, 0.35, 2.7)), ("plain", -5.3), ("plain", 14.0), ("in a shadow", 8.0)]


@pytest.mark.parametrize(("kind", "degrees"), LAID)
def test_a_page_is_found_to_lie_as_it_was_laid(kind, degrees, tmp_path):
    page = written_page(ruled=kind != "plain", shadow=kind == "in a shadow")
    file = tmp_path / "page.jpg"
    askew(page, degrees).save(file, quality=90)
    assert angle_of(ink_of(file, 0)) == pytest.approx(-degrees, abs=0.15)


@pytest.mark.parametrize("nothing", [numpy.zeros((400, 300), bool), numpy.zeros((0, 0), bool), numpy.eye(40, dtype=bool)])
def test_where_no_rows_are_seen_nothing_is_turned(nothing):
    assert angle_of(nothing) == 0.0


@given(st.integers(2, 60), st.integers(2, 60), st.integers(0, 2**32 - 1))
def test_whatever_is_on_it_the_angle_is_one_that_a_page_can_have(wide, high, seed):
    ink = numpy.random.default_rng(seed).random((high, wide)) < 0.5
    assert -15.62 <= angle_of(ink) <= 15.62
