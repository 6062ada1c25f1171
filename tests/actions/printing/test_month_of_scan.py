"""A page that was printed, written on and scanned finds its month by itself."""

import io
from datetime import date

import pypdfium2
import pytest
import segno
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageDraw, ImageFilter

from keeper.actions.printing import making
from keeper.actions.printing.marks import PageMark, mark_of, month_of
from keeper.actions.printing.wanted import MonthParts, PagesWanted
from keeper.book.printed import marking

MAY = date(2027, 5, 1)


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    """The pages of a month on A5 and A6, as pictures of 150 dots to the inch."""
    from keeper.actions.opening import open_or_begin

    folder = tmp_path_factory.mktemp("printed")
    found = {}
    with open_or_begin(folder / "keeper") as store:
        for size in ("a5", "a6"):
            made = making.make_pages(store, PagesWanted("month", MAY, MAY.replace(day=31), size), folder / f"{size}.pdf")
            found[size] = [page.render(scale=150 / 72).to_pil().convert("RGB") for page in pypdfium2.PdfDocument(made.path)]
    return found


def as_file(picture: Image.Image, kind: str = "JPEG", **how) -> bytes:
    with io.BytesIO() as file:
        picture.save(file, kind, **how)
        return file.getvalue()


def test_each_page_tells_its_month_and_which_of_its_sheets_it_is(printed, tmp_path):
    for pages in printed.values():
        assert [mark_of(as_file(page)) for page in pages] == [PageMark(MAY, number) for number in range(1, len(pages) + 1)]
    file = tmp_path / "scan.png"
    file.write_bytes(as_file(printed["a5"][1], "PNG"))
    assert month_of(file) == MAY


@pytest.mark.parametrize("turned", [3, -4, 90, 177, 270])
def test_a_scan_may_be_turned_blurred_and_written_on(printed, turned):
    page = printed["a5"][1].copy()
    ImageDraw.Draw(page).line([(60, 200), (600, 240), (90, 260)], fill="navy", width=4)
    scan = page.rotate(turned, expand=True, fillcolor="white", resample=Image.Resampling.BICUBIC)
    scan = scan.filter(ImageFilter.GaussianBlur(1.1))
    assert month_of(as_file(scan, quality=55)) == MAY


def test_a_page_photographed_small_and_dim_is_found_too(printed):
    page = printed["a6"][0]
    dim = Image.eval(page, lambda value: 70 + value // 3)
    desk = Image.new("RGB", (page.width * 2, page.height * 2), (60, 45, 30))
    desk.paste(dim, (page.width // 2, page.height // 3))
    assert month_of(as_file(desk, quality=70)) == MAY


def test_nothing_but_the_month_the_sheet_and_a_version_is_in_the_code(printed, tmp_path):
    from keeper.exchange.codes import codes_in

    file = tmp_path / "page.png"
    file.write_bytes(as_file(printed["a5"][0], "PNG"))
    assert codes_in(file) == ("KD1/2027-05/1",)


@pytest.mark.parametrize("said", ["https://example.org/", "KD2/2027-05/1", "KD1/2027-13/1", "KD1/0000-01/1", "kd1/2027-05/1", "KD1/2027-05", "\u2603" * 40])
def test_any_other_code_is_of_no_month(said):
    with io.BytesIO() as file:
        segno.make(said).save(file, kind="png", scale=6)
        assert month_of(file.getvalue()) is None


@pytest.mark.parametrize("bad", [b"", b"no picture", b"\x89PNG\r\n\x1a\n" + b"\0" * 90, b"%PDF-1.7\n"])
def test_what_is_no_picture_is_of_no_month(bad, tmp_path):
    assert month_of(bad) is None
    assert month_of(tmp_path) is None and month_of(tmp_path / "gone.jpg") is None


def test_two_pages_of_different_months_in_one_picture_are_of_neither(printed):
    both = Image.new("RGB", (1200, 500), "white")
    for at, text in ((0, "KD1/2027-05/1"), (600, "KD1/2027-06/1")):
        with io.BytesIO() as file:
            segno.make_qr(text).save(file, kind="png", scale=8, border=6)
            both.paste(Image.open(file).convert("RGB"), (at, 0))
    assert month_of(as_file(both, "PNG")) is None
    assert month_of(as_file(both.crop((0, 0, 600, 500)), "PNG")) == MAY


def test_a_month_may_be_printed_without_a_code(store, tmp_path):
    parts = MonthParts(marks=False)
    made = making.make_pages(store, PagesWanted("month", MAY, MAY.replace(day=31), parts=parts), tmp_path / "m.pdf")
    picture = pypdfium2.PdfDocument(made.path)[0].render(scale=2).to_pil().convert("RGB")
    assert month_of(as_file(picture)) is None


@given(st.dates(date(1800, 1, 1), date(2999, 12, 1)), st.integers(1, 99))
def test_what_is_spelt_is_read_again(day, sheet):
    mark = PageMark(day.replace(day=1), sheet)
    assert marking.read(marking.spelt(mark)) == mark
    # Version 1 of the code is 21 squares wide (ISO/IEC 18004, table 1).
    assert [len(row) for row in marking.modules(mark)] == [21] * 21


@given(st.text(max_size=40) | st.from_regex(r"KD\d{1,3}/\d{4}-\d{2}/\d{1,3}"))
def test_whatever_a_code_says_is_a_month_or_none(said):
    found = marking.read(said)
    assert found is None or found.month.day == 1
