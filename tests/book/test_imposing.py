"""Which page goes where on the sheets of a printer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.book.printed.imposing import booklet_sides, imposed, in_order
from keeper.review.printed.leaves import PAGE_SIZES, SIDES, BadPaper

A5, A6, A7 = (PAGE_SIZES[name] for name in ("a5", "a6", "a7"))

SADDLE_STITCH = {
    4: [(4, 1), (2, 3)],
    8: [(8, 1), (2, 7), (6, 3), (4, 5)],
    12: [(12, 1), (2, 11), (10, 3), (4, 9), (8, 5), (6, 7)],
    16: [(16, 1), (2, 15), (14, 3), (4, 13), (12, 5), (6, 11), (10, 7), (8, 9)],
}
"""As printers' tables for saddle stitching have it: left and right of each side, the outermost sheet's front first."""


@pytest.mark.parametrize("pages", SADDLE_STITCH)
def test_a_booklet_is_in_the_order_of_the_printers_table(pages):
    assert booklet_sides(pages) == SADDLE_STITCH[pages]


def test_what_a_booklet_has_too_few_of_stays_empty():
    assert booklet_sides(5) == [(0, 1), (2, 0), (0, 3), (4, 5)]
    assert booklet_sides(0) == []


@given(st.integers(1, 80))
def test_a_booklet_that_is_folded_reads_from_first_to_last(pages):
    sides = booklet_sides(pages)
    sheets = list(zip(sides[0::2], sides[1::2], strict=True))
    # Folded, the right of each front and the left of its back come first, and from the innermost on the way back.
    read = [number for front, back in sheets for number in (front[1], back[0])]
    read += [number for front, back in reversed(sheets) for number in (back[1], front[0])]
    assert [number for number in read if number] == list(range(1, pages + 1))


@given(st.integers(1, 60), st.sampled_from([A5, A6, A7, (120.0, 170.0)]), st.sampled_from(["same", "a4"]), st.sampled_from(SIDES))
def test_every_page_is_printed_once_and_has_its_own_behind_it(pages, size, paper, sides):
    made = imposed(pages, size, paper, sides, booklet=False)
    assert sorted(spot.page for side in made.sides for spot in side) == list(range(1, pages + 1))
    for side in made.sides:
        assert all(-0.01 <= spot.x <= made.width - size[0] + 0.01 and -0.01 <= spot.y <= made.height - size[1] + 0.01 for spot in side)
    if sides == "one":
        return
    at = {spot.page: spot for side in made.sides for spot in side}
    for page in range(2, pages + 1, 2):
        front, back = at[page - 1], at[page]
        # Turned over at an upright edge, left is right.
        assert back.x == pytest.approx(made.width - front.x - size[0]) and back.y == pytest.approx(front.y)


def test_fronts_come_before_backs_where_the_stack_is_turned_by_hand():
    assert in_order("aAbBcC", "both") == list("aAbBcC")
    assert in_order("aAbBcC", "by hand") == list("abcABC")
    assert in_order("aAbBcC", "by hand, last first") == list("abcCBA")


def test_two_a5_pages_fill_an_a4_sheet_and_nothing_is_cut_off():
    made = imposed(8, A5, "a4", "both", booklet=True)
    assert (made.width, made.height, made.cut) == (297.0, 210.0, False)
    assert [(spot.page, spot.x) for spot in made.sides[0]] == [(8, 0.5), (1, 148.5)]


def test_small_cards_share_a_sheet_with_marks_to_cut_at():
    made = imposed(9, A7, "a4", "one", booklet=False)
    assert made.cut and [len(side) for side in made.sides] == [8, 1]


@pytest.mark.parametrize(("size", "booklet"), [("a4", True), ((300.0, 100.0), False)])
def test_a_sheet_that_is_too_small_is_told(size, booklet):
    with pytest.raises(BadPaper, match="too small"):
        imposed(4, PAGE_SIZES.get(size, size) if isinstance(size, str) else size, "a4", "both", booklet)
