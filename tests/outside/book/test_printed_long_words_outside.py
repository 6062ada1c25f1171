"""Pages to print with long words on them, by their own coordinates (PDFium): nothing stands upon anything else."""

from dataclasses import replace
from datetime import date

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from zxingcpp import BarcodeFormat, read_barcodes

from keeper.book import press
from keeper.book.printed.laying_out import lay_out_pages
from keeper.book.printed.months import tables
from keeper.days import last_of_month, nights
from keeper.model import Goal
from keeper.review.printed.leaves import leaf
from keeper.review.printed.pages import AskedOf, NightRow, PrintedMonth, PrintedNights, TrackerColumn

MAY = date(2027, 5, 1)
INK = "#1f2a44"
MM = 25.4 / 72
LONG = "What did the Donaudampfschifffahrtsgesellschaft say to the harbour, and how long did it go on about it tonight? " * 2


def set_(work, folder):
    pdf, _, told = press.print_plainly(lay_out_pages(work, folder, None))
    assert told == ()
    return pypdfium2.PdfDocument(pdf)


def a_month(size: str, **more) -> PrintedMonth:
    rows = tuple(NightRow(night) for night in nights(MAY, last_of_month(MAY)))
    return PrintedMonth(MAY, leaf(size), INK, "en", rows, **more)


def boxes(page) -> list[tuple[str, float, float, float, float]]:
    """Pieces of text with left, top, right and bottom, in millimetres from the upper left corner."""
    text, high = page.get_textpage(), page.get_height()
    found = [text.get_rect(number) for number in range(text.count_rects())]
    return [(text.get_text_bounded(*at), at[0] * MM, (high - at[3]) * MM, at[2] * MM, (high - at[1]) * MM) for at in found]


def rules(page) -> list[tuple[float, float, float]]:
    """Level ways of at least 40 mm: left, right, how far down."""
    found = []
    for one in page.get_objects(filter=(pdfium.FPDF_PAGEOBJ_PATH,), max_depth=1):
        left, bottom, right, top = (side * MM for side in one.get_bounds())
        if right - left > 40 and top - bottom < 0.5:
            found.append((left, right, page.get_height() * MM - top))
    return found


@pytest.mark.parametrize("size", ["a6", "a5"])
def test_what_a_night_asks_stands_below_one_another_however_long_it_is(tmp_path, size):
    asked = tuple(AskedOf(f"Kind {number}", LONG) for number in range(6))
    names = tuple(f"a reading with a long name {number}" for number in range(12))
    pdf = set_(PrintedNights(((MAY, asked, names),), leaf(size), INK, "en"), tmp_path)
    heads = []
    for page in pdf:
        its = sorted(boxes(page), key=lambda box: box[2])
        for at, (text, _, top, _, _) in enumerate(its):
            if text.startswith("Kind "):
                heads.append(text.strip())
                assert top >= max((box[4] for box in its[:at]), default=0) - 0.6
                # Two rows at least to write on, before anything else is said.
                after = [box[2] for box in its[at + 1 :] if box[0].startswith("Kind ") or box[0].startswith("a reading")]
                below = after[0] if after else page.get_height() * MM
                assert sum(top < down < below for _, _, down in rules(page)) >= 2
    assert heads == [f"Kind {number}" for number in range(6)]
    assert sum(page.get_textpage().get_text_range().count("a reading") for page in pdf) == 12


@pytest.mark.parametrize("goals", [0, 3, 6])
def test_rows_for_goals_end_above_the_code(tmp_path, goals):
    work = a_month("a6", goals=tuple(Goal(str(number), f"Goal {number}", "set") for number in range(goals)), question="What sang?")
    pdf = set_(work, tmp_path)
    corner = work.leaf.height - work.leaf.margin - 10.5
    assert all(down < corner for page in pdf for _, _, down in rules(page))


def test_every_page_has_its_code_where_the_question_needs_room(tmp_path):
    pdf = set_(a_month("a6", question=LONG * 2, goals=tuple(Goal(str(n), f"Goal {n}", "set") for n in range(9))), tmp_path)
    assert len(pdf) > 1 + len(tables(a_month("a6")))
    said = [[one.text for one in read_barcodes(page.render(scale=3).to_pil(), formats=BarcodeFormat.QRCode)] for page in pdf]
    assert said == [[f"KD1/2027-05/{number}"] for number in range(1, len(pdf) + 1)]


def test_long_names_keep_to_their_columns_and_below_the_month(tmp_path):
    names = ("Selbsteinschätzungsgesamtpunktzahl Nummer", "hours practised on the upright downstairs", "mood")
    work = a_month("a6", columns=tuple(TrackerColumn(name) for name in names))
    page = set_(work, tmp_path)[len(tables(work)) - 1]
    its = boxes(page)
    month = next(box for box in its if box[0].startswith("May"))
    others = [box for box in its if box[4] < 30 and box[3] - box[1] < 8 and box is not month and box[1] > 20]
    assert others and all(box[2] > month[4] for box in others)


def test_a_filled_month_says_on_each_page_which_it_is(tmp_path):
    work = a_month("a6", filled=True)
    rows = tuple(replace(row, lines=(("Memory", "In tune. " * 30),)) for row in work.rows)
    pdf = set_(replace(work, rows=rows), tmp_path)
    assert len(pdf) > 2
    for number, page in enumerate(pdf, 1):
        assert "May 2027" in page.get_textpage().get_text_range(), number
