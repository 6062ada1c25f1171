"""Sizes of page, as a person names or types them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.review.printed.leaves import PAGE_SIZES, BadPaper, leaf, page_size

KNOWN = {
    # ISO 216:2007, table 1, in millimetres.
    "a4": (210, 297), "a5": (148, 210), "a6": (105, 148), "a7": (74, 105),
    # ANSI/ASME Y14.1, size A: 8.5 x 11 inches of 25.4 mm (ISO 31-1); folded once.
    "letter": (8.5 * 25.4, 11 * 25.4), "half-letter": (5.5 * 25.4, 8.5 * 25.4),
}  # fmt: skip


def test_sizes_are_those_of_the_standards():
    assert {name: pytest.approx(size) for name, size in KNOWN.items()} == PAGE_SIZES


@pytest.mark.parametrize(
    ("typed", "size"),
    [("A5", (148, 210)), ("half letter", (139.7, 215.9)), ("120x170", (120, 170)), ("12 \u00d7 17 cm", (120, 170)),
     ("5.5 x 8.5 in", (139.7, 215.9)), ("101,5 by 180 mm", (101.5, 180)), (" 210 * 297 ", (210, 297))],
)  # fmt: skip
def test_a_size_is_taken_as_it_is_typed(typed, size):
    assert page_size(typed) == pytest.approx(size)


@pytest.mark.parametrize("typed", ["", "a9", "120", "120 x", "0 x 170", "20 x 30", "900 x 900", "1e5 x 200", "x", "12 x 17 miles"])
def test_what_is_no_size_is_told(typed):
    with pytest.raises(BadPaper):
        page_size(typed)


@given(st.text(max_size=30))
def test_whatever_is_typed_is_a_size_or_told(typed):
    try:
        assert all(50 <= side <= 600 for side in page_size(typed))
    except BadPaper as told:
        assert str(told).endswith(".") or str(told).endswith(").")


@pytest.mark.parametrize("holes", [-1.0, 41.0, float("nan"), float("inf")])
def test_a_margin_that_cannot_be_is_told(holes):
    with pytest.raises(BadPaper, match="margin for holes"):
        leaf("a5", holes)
