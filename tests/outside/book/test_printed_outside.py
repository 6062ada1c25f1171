"""Pages to print by other people's tools: their own coordinates (PDFium), qpdf, and poppler. Skipped where one is missing."""

import shutil
import subprocess
from dataclasses import replace
from datetime import date
from itertools import pairwise
from pathlib import Path

import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from keeper.book import press
from keeper.book.printed.imposing import imposed
from keeper.book.printed.laying_out import lay_out_pages, lay_out_sheets
from keeper.days import last_of_month, nights
from keeper.review.printed.leaves import PAGE_SIZES, leaf
from keeper.review.printed.pages import (
    AskedOf,
    MonthParts,
    NightRow,
    PrintedCards,
    PrintedMonth,
    PrintedNights,
    PrintedYear,
    RulerPage,
    TrackerColumn,
)

MAY = date(2027, 5, 1)
INK = "#1f2a44"
MM = 25.4 / 72

Way = list[tuple[float, float]]


def a_month(paper, filled: bool = False, readings: int = 4, **parts) -> PrintedMonth:
    said = (("Memory", "The harbour master came down with his lamp. " * 3),) if filled else ()
    names = ("mood", "stress", "sleep", "swam", "tea", "walked", "coffee", "headache", "piano")[:readings]
    return PrintedMonth(
        MAY, paper, INK, "en", tuple(NightRow(night, said, "Riga" if filled else "") for night in nights(MAY, last_of_month(MAY))),
        MonthParts(**parts), tuple(TrackerColumn(name, ("7",) * 31 if filled else ()) for name in names), filled,
        question="What did the cold teach?",
    )  # fmt: skip


def every_kind_of_page() -> dict[str, object]:
    asked = (AskedOf("Gratitude"), AskedOf("Reflection", "What did the cold teach?"))
    cards = tuple(NightRow(MAY.replace(year=year), (("Memory", "In tune."),)) for year in range(2020, 2026))
    return {
        "month": a_month(leaf("a5")), "dots": a_month(leaf("a5", ground="dots")), "filled": a_month(leaf("a4"), True),
        "year": PrintedYear(2028, leaf("half-letter"), INK, "en", "swam"),
        "nights": PrintedNights(((MAY, asked, ("mood",)),), leaf("a6", 8), INK, "en"),
        "cards": PrintedCards(MAY, cards, leaf("a7", 0), INK, "en"), "ruler": RulerPage(leaf("a5", facing=True), INK),
    }  # fmt: skip


def made(work, folder: Path, paper: str = "", booklet: bool = False) -> Path:
    folder.mkdir(exist_ok=True)
    laid = lay_out_pages(work, folder, None)
    pdf, pages, told = press.print_plainly(laid)
    assert told == ()
    if paper:
        on = imposed(pages, (work.leaf.width, work.leaf.height), paper, "both", booklet)
        pdf = press.print_sheets(lay_out_sheets(laid, pdf, on))
    (folder / "made.pdf").write_bytes(pdf)
    return folder / "made.pdf"


def ways(page) -> list[Way]:
    """The points of every path of a page, in millimetres from its upper left corner."""
    high = page.get_height()
    return [
        [((a * x + c * y + e) * MM, (high - (b * x + d * y + f)) * MM) for x, y in _points(one.raw)]
        for one in page.get_objects(filter=(pdfium.FPDF_PAGEOBJ_PATH,), max_depth=1)
        for a, b, c, d, e, f in [one.get_matrix().get()]
    ]


def _points(path) -> list[tuple[float, float]]:
    found = []
    for number in range(pdfium.FPDFPath_CountSegments(path)):
        x, y = pdfium.c_float(), pdfium.c_float()
        pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(path, number), x, y)
        found.append((x.value, y.value))
    return found


def level(found: list[Way], least: float) -> list[Way]:
    return [way for way in found if len(way) == 2 and abs(way[0][1] - way[1][1]) < 0.01 and abs(way[1][0] - way[0][0]) >= least]


def upright(found: list[Way], least: float = 0.0) -> list[Way]:
    return [way for way in found if len(way) == 2 and abs(way[0][0] - way[1][0]) < 0.01 and abs(way[1][1] - way[0][1]) >= least]


def heights(found: list[Way]) -> list[float]:
    return sorted({round(way[0][1], 3) for way in found})


@pytest.mark.parametrize("name", [name for name in PAGE_SIZES if name != "a7"])
def test_pages_are_as_large_as_they_are_called(tmp_path, name):
    pdf = pypdfium2.PdfDocument(made(a_month(leaf(name)), tmp_path))
    for page in pdf:
        assert (page.get_width() * MM, page.get_height() * MM) == pytest.approx(PAGE_SIZES[name], abs=0.02)


def test_rows_of_nights_are_equally_high_and_keep_to_the_margins(tmp_path):
    work = a_month(leaf("a5", 14))
    page = pypdfium2.PdfDocument(made(work, tmp_path))[1]
    rules = level(ways(page), 5)
    rows = heights(rules)
    # The head's rule, and one below each of 31 nights.
    assert len(rows) == 32
    apart = [after - before for before, after in pairwise(rows)]
    assert apart == pytest.approx([apart[0]] * 31, abs=0.01) and apart[0] >= 5
    assert min(way[0][0] for way in rules) == pytest.approx(14, abs=0.06)
    assert max(way[1][0] for way in rules) == pytest.approx(148 - work.leaf.margin, abs=0.06)


def test_columns_of_readings_are_equally_wide(tmp_path):
    page = pypdfium2.PdfDocument(made(a_month(leaf("a4"), readings=6), tmp_path))[1]
    at = sorted({round(way[0][0], 2) for way in upright(ways(page), 5)})
    assert len(at) == 7
    assert [after - before for before, after in pairwise(at[1:])] == pytest.approx([7.5] * 5, abs=0.02)


def test_the_room_for_a_photo_is_50_by_76_mm(tmp_path):
    page = pypdfium2.PdfDocument(made(a_month(leaf("a5")), tmp_path))[0]
    arms = [way for way in ways(page) if len(way) == 2 and max(abs(way[0][0] - way[1][0]), abs(way[0][1] - way[1][1])) == pytest.approx(4, abs=0.01)]
    corners = [way[0] for way in arms]
    assert len(arms) == 8
    assert max(x for x, _ in corners) - min(x for x, _ in corners) == pytest.approx(50, abs=0.01)
    assert max(y for _, y in corners) - min(y for _, y in corners) == pytest.approx(76, abs=0.01)


def test_dots_are_5_mm_apart_and_rows_stand_on_them(tmp_path):
    page = pypdfium2.PdfDocument(made(a_month(leaf("a5", ground="dots")), tmp_path))[1]
    rows = [way[0::2] for way in ways(page) if len(way) > 10]
    assert len(rows) == 32
    for row in rows:
        assert [after[0] - before[0] for before, after in pairwise(row)] == pytest.approx([5] * (len(row) - 1), abs=0.01)
    down = sorted(row[0][1] for row in rows)
    assert [after - before for before, after in pairwise(down)] == pytest.approx([5] * 31, abs=0.01)
    assert heights(level(ways(page), 5)) == pytest.approx(down, abs=0.02)


def test_the_rulers_of_a_test_print_are_true(tmp_path):
    page = pypdfium2.PdfDocument(made(RulerPage(leaf("a5"), INK, pages=1), tmp_path))[0]
    found = ways(page)
    ticks = [way for way in upright(found) if 1.9 < abs(way[1][1] - way[0][1]) < 5.1]
    top = min(way[0][1] for way in ticks)
    across = sorted(way[0][0] for way in ticks if abs(way[0][1] - top) < 0.01)
    assert len(across) == 101 and across[-1] - across[0] == pytest.approx(100, abs=0.05)
    assert [after - before for before, after in pairwise(across)] == pytest.approx([1] * 100, abs=0.01)
    eighths = sorted(way[0][0] for way in upright(found) if abs(way[0][1] - top - 11) < 0.01)
    assert [after - before for before, after in pairwise(eighths)] == pytest.approx([25.4 / 8] * 24, abs=0.01)
    down = sorted(way[0][1] for way in level(found, 1.9) if abs(way[1][0] - way[0][0]) < 5.1 and abs(way[0][0] - 12) < 0.01)
    assert len(down) == 101 and down[-1] - down[0] == pytest.approx(100, abs=0.01)


def test_fronts_and_backs_have_the_margin_for_holes_at_the_same_side(tmp_path):
    pdf = pypdfium2.PdfDocument(made(a_month(leaf("a6", 16, facing=True), readings=0), tmp_path))
    edges = [(min(x for way in level(ways(page), 40) for x, _ in way), max(x for way in level(ways(page), 40) for x, _ in way)) for page in pdf]
    assert len(edges) == 3
    assert edges[0][0] == pytest.approx(16, abs=0.06)
    assert edges[2][0] == pytest.approx(16, abs=0.06)
    assert edges[1][1] == pytest.approx(105 - 16, abs=0.06)


def test_a_booklet_s_pages_stand_where_the_table_says_at_their_own_size(tmp_path):
    """Of eight pages: 8 and 1, 2 and 7, 6 and 3, 4 and 5; by pdftotext, each half of the sheet apart."""
    tool = shutil.which("pdftotext") or pytest.skip("pdftotext is not installed.")
    file = made(RulerPage(leaf("a5", facing=True), INK, pages=8), tmp_path, "a4", booklet=True)
    told = []
    for side in range(1, 5):
        for x in (0, 421):
            crop = ("-f", str(side), "-l", str(side), "-x", str(x), "-y", "0", "-W", "420", "-H", "600", "-r", "72")
            text = subprocess.run([tool, *crop, file, "-"], capture_output=True, text=True, check=True, timeout=200).stdout
            told.append(int(text.split("Page ")[1].split()[0]))
    assert told == [8, 1, 2, 7, 6, 3, 4, 5]
    page = pypdfium2.PdfDocument(file)[0]
    assert (page.get_width() * MM, page.get_height() * MM) == pytest.approx((297, 210), abs=0.02)


def test_pages_on_a_sheet_are_as_large_as_by_themselves(tmp_path):
    """By pdftoppm, 254 dots to the inch: the ruler on a sheet of A4 is a hundred millimetres long."""
    tool = shutil.which("pdftoppm") or pytest.skip("pdftoppm is not installed.")
    from PIL import Image

    file = made(RulerPage(leaf("a5", 0), INK, pages=1), tmp_path, "letter")
    subprocess.run([tool, "-r", "254", "-gray", "-png", file, tmp_path / "p"], check=True, timeout=200)
    picture = Image.open(min(tmp_path.glob("p-*.png"))).convert("L")
    dark = lambda x, y: picture.getpixel((x, y)) < 160  # noqa: E731
    wide, high = picture.size
    begins = lambda y: [x for x in range(1, wide) if dark(x, y) and not dark(x - 1, y)]  # noqa: E731
    # The row of ticks that are one millimetre, ten dots, apart.
    at = next(found for y in range(200, high // 2, 4) if len(found := begins(y)) == 101)
    assert at[-1] - at[0] == pytest.approx(1000, abs=2)


def test_the_code_is_half_a_millimetre_to_each_square_with_white_round_it(tmp_path):
    page = pypdfium2.PdfDocument(made(a_month(leaf("a5")), tmp_path))[0]
    squares = [way for way in ways(page) if len(way) >= 4 and 0.4 < max(y for _, y in way) - min(y for _, y in way) < 0.6]
    left, right = min(x for way in squares for x, _ in way), max(x for way in squares for x, _ in way)
    assert right - left == pytest.approx(10.5, abs=0.02)
    # ISO/IEC 18004, 5.3.8: four squares of quiet zone.
    below = max(way[0][1] for way in level(ways(page), 20))
    assert min(y for way in squares for _, y in way) - below >= 2.0 and 148 - right >= 2.0


@pytest.mark.parametrize("name", every_kind_of_page())
def test_each_print_is_sound_and_says_what_it_is(tmp_path, name):
    checker = shutil.which("qpdf") or pytest.skip("qpdf is not installed.")
    reader = shutil.which("pdftotext") or pytest.skip("pdftotext is not installed.")
    work = every_kind_of_page()[name]
    for number, file in enumerate((made(work, tmp_path / "plain"), made(work, tmp_path / "sheets", "a4"))):
        checked = subprocess.run([checker, "--check", file], capture_output=True, text=True, timeout=200)
        assert checked.returncode == 0, (number, checked.stdout)
        text = subprocess.run([reader, file, "-"], capture_output=True, text=True, timeout=200).stdout
        says = {"year": "2028", "nights": "Saturday 1 May 2027", "cards": "2020", "ruler": "Test print"}.get(name, "May 2027")
        assert says in text
    assert b"pdfuaid" in (tmp_path / "plain" / "made.pdf").read_bytes()


@pytest.mark.parametrize("size", ["a6", "a5", "half-letter", "a4", "letter", "100 x 160", "170 x 240"])
def test_a_month_has_as_many_pages_as_it_says_on_every_size(tmp_path, size):
    """No table runs over to a page of its own: each sheet has its code."""
    from keeper.book.printed.months import tables

    one, other = ("ruled", "dots") if size in ("a6", "half-letter", "letter", "170 x 240") else ("dots", "ruled")
    for readings, ground in ((0, one), (4, other), (9, one)):
        work = a_month(leaf(size, ground=ground), readings=readings)
        pdf = pypdfium2.PdfDocument(made(work, tmp_path / ground))
        assert len(pdf) == 1 + len(tables(work))
        rows = [row.date for one in tables(work) if one.line for row in one.rows]
        assert rows == [row.date for row in work.rows]


def test_a_filled_month_has_every_word_however_long(tmp_path):
    reader = shutil.which("pdftotext") or pytest.skip("pdftotext is not installed.")
    long = " ".join(f"word{number}" for number in range(900))
    work = a_month(leaf("a6", 8), True, readings=2)
    rows = (replace(work.rows[0], lines=(("Memory", long),)), *work.rows[1:])
    text = subprocess.run([reader, made(replace(work, rows=rows), tmp_path), "-"], capture_output=True, text=True, timeout=200).stdout
    assert {f"word{number}" for number in range(900)} <= set(text.split())
