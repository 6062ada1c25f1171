"""What gives way on a month's page, on one that is only counted; test_book.py sets real ones."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.book.one_page import READABLE, SMALLEST, fit_one_page
from keeper.review.book import BookLine, BookMonth, BookNight, BookStrip, MonthSheet

MARCH = date(2026, 3, 1)


class CountedPage:
    """Stands for a sheet laid out: a line is as high as its letters, a reading as high or half as high."""

    def __init__(self, nights: list[int], readings: int, room: float) -> None:
        made = tuple(
            BookNight(MARCH.replace(day=day), tuple(BookLine(MARCH, "memory", f"{day}.{n}") for n in range(lines)))
            for day, lines in enumerate(nights, 1)
        )
        strips = tuple(BookStrip(f"tracker {n}", "", "mark", 0, 1, ()) for n in range(readings))
        self.work = MonthSheet(BookMonth(MARCH, len(made), nights=made, readings=strips), "a5", "#1f2a44", "en")
        self.room, self.scale, self.flat, self.lacking = room, 1.0, False, ""
        self.left_out: tuple[str, ...] = ()
        self.whole = self.texts()

    def write(self) -> None:
        self.written = (self.work.month, self.scale, self.flat, self.lacking)

    def texts(self) -> list[str]:
        return [line.text for night in self.work.month.nights for line in night.lines]

    def height(self) -> float:
        readings = len(self.work.month.readings) * (0.5 if self.flat else 1.0)
        return round(self.scale * (len(self.texts()) + readings + bool(self.lacking)), 6)

    def fit(self) -> "CountedPage":
        fit_one_page(self, lambda: 1 if self.height() <= self.room else 2)
        assert self.written == (self.work.month, self.scale, self.flat, self.lacking)
        return self


@pytest.mark.parametrize(
    ("room", "scale", "flat", "readings", "lines", "said"),
    [
        (10.0, 1.0, False, 4, 6, ""), (9.0, 0.9, False, 4, 6, ""), (8.0, 0.8, False, 4, 6, ""),
        (6.4, 0.8, True, 4, 6, ""), (5.6, 0.8, False, 0, 6, "the readings"),
        (4.8, 0.8, False, 0, 5, "the readings and 1 of 6 lines"), (0.8, 0.8, False, 0, 0, "the readings and 6 lines"),
        (0.7, 0.7, False, 0, 0, "the readings and 6 lines"),
    ],
)  # fmt: skip
def test_letters_get_smaller_then_readings_give_way_and_lines_last(room, scale, flat, readings, lines, said):
    page = CountedPage([2, 1, 3], 4, room).fit()
    assert (page.scale, page.flat, len(page.work.month.readings), len(page.texts())) == (scale, flat, readings, lines)
    assert page.lacking == (f"There was no room for {said}." if said else "")
    assert page.left_out == ((page.lacking,) if said else ())


@given(st.lists(st.integers(1, 3), max_size=31), st.integers(0, 9), st.floats(0.7, 60))
def test_no_line_is_left_out_that_had_room(nights, readings, room):
    page = CountedPage(nights, readings, room).fit()
    shown = page.texts()
    assert page.height() <= room and shown == page.whole[: len(shown)]
    assert page.scale >= READABLE or (page.scale == SMALLEST and not shown)
    if shown != page.whole:
        assert not page.work.month.readings
        assert round(READABLE * (len(shown) + 2), 6) > room, "one more, and the sentence on the rest"
