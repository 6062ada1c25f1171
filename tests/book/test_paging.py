"""Parts of a book that would end with a page of a few rows."""

from datetime import date

import pytest
from test_book import a_book, laid, picture

from keeper.book import press
from keeper.book.laying_out import page_size
from keeper.book.paging import LEAST_ROWS, PartSet, fit_pages, is_scant, parts_of
from keeper.review.book import BookClosing, BookLine, BookMonth, BookNight, BookPhoto, BookPlace

SIZE = {"text": 10, "top": 21}
ROW = 4.69
MAY = date(2026, 5, 1)
SAID = "The harbour master came down with his lamp and wanted the overture. "


def told(key: str, last: int, down: float) -> list[dict]:
    ends = {"first": (1, 21.0), "last": (last, down)}
    return [{"part": key, "end": end, "page": page, "y": y} for end, (page, y) in ends.items()]


@pytest.mark.parametrize(("last", "rows", "scant"), [(2, 0, True), (2, 2, True), (2, 4, True), (2, 5, False), (1, 2, False)])
def test_a_part_is_scant_that_goes_over_with_a_few_rows(last, rows, scant):
    assert is_scant(PartSet("a", 1, last, 21 + rows * ROW - 2), SIZE) is scant


def test_scant_parts_are_set_tighter_until_they_fit_and_others_stay():
    written = []

    def set_anew():
        fits = written[-1] if written else {}
        scant = fits.get("a", 1) > 0.92
        return [*told("a", 2 if scant else 1, 25 if scant else 180), *told("b", 2, 90)]

    assert fit_pages(SIZE, written.append, set_anew) == {"a": 0.91}
    assert written == [{"a": 0.97}, {"a": 0.94}, {"a": 0.91}]


def test_what_cannot_be_tighter_is_set_wider():
    written = []

    def set_anew():
        wide = bool(written) and written[-1].get("a", 1) > 1.1
        return told("a", 2, 60 if wide else 25)

    assert fit_pages(SIZE, written.append, set_anew) == {"a": 1.13}


def test_what_no_distance_mends_stays_as_it_was():
    written = []
    assert fit_pages(SIZE, written.append, lambda: told("a", 2, 25)) == {} == written[-1]


def rows_of_last_pages(work, folder) -> tuple[dict[str, float], dict[str, int]]:
    """How many rows stand on the last page of each part, and how many pages each has."""
    made = laid(work, folder, lambda *_: picture())
    press.print_pdf(made)
    parts = parts_of(press._parts(press._compiler(made)))
    size = page_size(work)
    return {one.key: (one.down - size["top"]) / ROW for one in parts}, {one.key: one.last - one.first + 1 for one in parts}


@pytest.mark.parametrize("lines", range(30, 42))
def test_no_month_ends_with_a_page_of_two_rows(tmp_path, lines):
    nights = tuple(
        BookNight(MAY.replace(day=1 + n % 31), (BookLine(MAY, "memory", "In tune.", "en"),)) for n in range(lines)
    )
    month = BookMonth(MAY, len(nights), places=(BookPlace("Visby", 31),), nights=nights)
    rows, pages = rows_of_last_pages(a_book(month), tmp_path)
    assert pages["month 2026-05"] == 1 or rows["month 2026-05"] > LEAST_ROWS - 1


@pytest.mark.parametrize("sentences", [40, 41, 42, 43, 44, 45])
def test_nor_do_words_beside_a_photo_or_answers_at_the_year_s_end(tmp_path, sentences):
    nights = tuple(BookNight(MAY.replace(day=n), (BookLine(MAY, "memory", SAID, "en"),)) for n in range(1, 9))
    photo = BookPhoto("p", 400, 300, "A caption.")
    month = BookMonth(MAY, 8, photo=photo, words=SAID * (sentences - 34), nights=nights)
    closing = (BookClosing("What stays?", SAID * sentences),)
    rows, pages = rows_of_last_pages(a_book(month, closing=closing), tmp_path)
    for part in ("opening 2026-05", "nights 2026-05", "closing"):
        assert pages[part] == 1 or rows[part] > LEAST_ROWS - 1, part


def test_months_of_a_line_or_two_share_a_page(tmp_path):
    def month(number: int, lines: int) -> BookMonth:
        nights = [date(2026, number, day) for day in range(1, lines + 1)]
        return BookMonth(nights[0], lines, nights=tuple(BookNight(one, (BookLine(one, "memory", "In tune."),)) for one in nights))

    def pages(*lines: int) -> int:
        book = a_book(*(month(number, count) for number, count in enumerate(lines, 1)))
        return press.print_pdf(laid(book, tmp_path / str(lines)))[1]

    # The title and its back, then the months.
    assert (pages(1, 1, 2), pages(1, 9, 1), pages(1)) == (3, 5, 3)
