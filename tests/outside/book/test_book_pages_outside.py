"""What stands on the pages of a book, as poppler's pdftotext and pdftoppm see them. Skipped where they are missing."""

import json
import re
import shutil
import subprocess
from datetime import date
from itertools import pairwise

import pytest
from PIL import Image

from keeper.book import press
from keeper.book.laying_out import lay_out
from keeper.model import Goal
from keeper.review.book import (
    SIZES,
    Book,
    BookClosing,
    BookLine,
    BookMap,
    BookMonth,
    BookNight,
    BookPlace,
    BookStrip,
    MonthSheet,
)
from keeper.review.map_names import MapPlace, named

MAY = date(2026, 5, 1)
SAID = "The harbour master came down with his lamp and wanted the overture. "


def made(work: Book | MonthSheet, folder):
    pdf, *_ = press.print_pdf(lay_out(work, folder, None, lambda *_: None, lambda: False))
    (folder / "b.pdf").write_bytes(pdf)
    return folder / "b.pdf"


def leaves(file, *more: str) -> list[str]:
    tool = shutil.which("pdftotext")
    if not tool:
        pytest.skip("pdftotext is not installed.")
    done = subprocess.run([tool, "-enc", "UTF-8", *more, file, "-"], capture_output=True, timeout=200, check=True)
    return done.stdout.decode("utf-8").removesuffix("\f").split("\f")


def a_book(*months: BookMonth, **more) -> Book:
    return Book(**{"year": 2026, "title": "2026", "name": "", "size": "a5", "ink": "#1f2a44", "language": "en",
                   "months": months, "nights": 1, "lines": 3, **more})  # fmt: skip


def a_night(day: int, *lines: tuple[str, str]) -> BookNight:
    night = MAY.replace(day=day)
    return BookNight(night, tuple(BookLine(night, kind, text, "en", kind.capitalize()) for kind, text in lines))


def test_a_night_that_goes_on_overleaf_repeats_its_date(tmp_path):
    long = a_night(9, ("memory", SAID * 90), ("reflection", SAID * 30))
    file = made(a_book(BookMonth(MAY, 2, nights=(a_night(8, ("memory", "In tune.")), long))), tmp_path)
    pages = leaves(file, "-layout")[2:]
    assert len(pages) >= 4 and "Fri 8" in " ".join(pages[0].split())
    for number, page in enumerate(pages):
        told = " ".join(page.split())
        assert told.count("Sat 9") == 1, number


def test_a_date_never_stands_alone_at_the_foot_of_a_page(tmp_path):
    for rows in range(25, 40):
        folder = tmp_path / str(rows)
        folder.mkdir()
        first = a_night(1, ("memory", "\n".join(["In tune."] * rows)))
        file = made(a_book(BookMonth(MAY, 3, nights=(first, a_night(8, ("memory", SAID * 2)), a_night(9, ("memory", SAID))))), folder)
        for page in leaves(file, "-layout")[2:]:
            told = " ".join(page.split())
            if "Fri 8" in told:
                assert "harbour" in told.split("Fri 8")[1].split("Sat 9")[0], rows


@pytest.mark.parametrize("size", SIZES)
def test_each_line_has_the_word_of_its_kind_and_answers_stand_further_in(tmp_path, size):
    night = a_night(9, ("gratitude", "Alpha."), ("memory", "Beta."), ("reflection", "Gamma."))
    file = made(a_book(BookMonth(MAY, 1, nights=(night,)), size=size), tmp_path)
    page = leaves(file, "-layout")[2]
    at = {}
    for word, said in (("Gratitude", "Alpha."), ("Memory", "Beta."), ("Reflection", "Gamma.")):
        row = next(row for row in page.splitlines() if said in row)
        assert word in row
        at[said] = row.index(said)
    assert at["Alpha."] == at["Beta."] < at["Gamma."]


def test_weight_and_slope_are_real_faces(tmp_path):
    """By pdffonts: the slanted face is one that was drawn so, and the word of gratitude is heavier."""
    night = a_night(9, ("gratitude", "Alpha."), ("memory", "Beta."), ("reflection", "Gamma."))
    file = made(a_book(BookMonth(MAY, 1, nights=(night,))), tmp_path)
    tool = shutil.which("pdffonts") or pytest.skip("pdffonts is not installed.")
    fonts = subprocess.run([tool, file], capture_output=True, text=True, check=True).stdout
    assert "SourceSerif4-It" in fonts and "SourceSans3-Semibold" in fonts.replace("SemiBold", "Semibold")


def test_slanted_letters_stand_no_further_apart_in_one_row_than_in_another(tmp_path):
    """By pdftotext -bbox: where each word begins and ends, in points."""
    night = a_night(9, ("reflection", "The saddler came to see how his strap had borne the fall and would name no price. " * 6))
    month = BookMonth(MAY, 1, question="Who came to see the strap and would not say what it had cost him to mend it? " * 2, nights=(night,))
    told = leaves(made(a_book(month), tmp_path), "-bbox")[0]
    words = [
        (float(left), float(top), float(right), word)
        for left, top, right, word in re.findall(r'xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax=".*?">(.*?)<', told)
    ]
    gaps = [
        after[0] - before[2] for before, after in pairwise(words)
        if before[3].islower() and after[3].islower() and abs(after[1] - before[1]) < 0.1
    ]  # fmt: skip
    said = [gap for gap in gaps if gap > 0]
    assert len(said) > 80 and max(said) < 2.7


def test_the_month_s_question_and_own_words_are_labelled(tmp_path):
    month = BookMonth(MAY, 1, question="What came?", words="A cold month.", nights=(a_night(9, ("memory", "Beta."),),))
    for work in (a_book(month), MonthSheet(month, "a5", "#1f2a44", "en")):
        folder = tmp_path / type(work).__name__
        folder.mkdir()
        told = " ".join(leaves(made(work, folder))[-1].split())
        assert "The month\u2019s question What came?" in told and "In a few words A cold month." in told


def test_the_days_stand_below_the_strips(tmp_path):
    strips = tuple(BookStrip(name, "h", "hours", 0, 12, (7.0,) * 28) for name in ("sleep", "walked"))
    month = BookMonth(date(2026, 2, 1), 1, readings=strips)
    file = made(a_book(month), tmp_path)
    row = leaves(file, "-layout")[2].splitlines()
    days = [line.split() for line in row if line.split()[:2] == ["1", "5"]]
    assert days == [["1", "5", "10", "15", "20", "25"]]


def test_marks_of_ours_are_typographic_and_the_person_s_stay(tmp_path):
    own = "'Twas \"warm\" -- and Maren's."
    month = BookMonth(
        MAY, 1, question=own, words=own, goals=(Goal("", own, "done", own),), places=(BookPlace(own, 1),),
        nights=(a_night(9, ("memory", own), ("gratitude", own)),),
    )  # fmt: skip
    file = made(a_book(month, closing=(BookClosing(own, own),), title=own, name=own), tmp_path)
    told = " ".join(" ".join(leaves(file)).split())
    times = told.count("Twas")
    assert told.count(own) >= 9 and "The month\u2019s question" in told
    assert (told.count("'"), told.count('"')) == (2 * times, 2 * times)
    data = json.loads((tmp_path / "book.json").read_text("utf-8"))
    assert not [word for word in data["words"].values() if set(word) & set("'\"")]


def test_no_line_runs_through_a_name(tmp_path):
    """By pdftoppm: a name in the middle of a journey stands on a rim of white."""
    tool = shutil.which("pdftoppm") or pytest.skip("pdftoppm is not installed.")
    from keeper.review.book import MapSpot, MapWay

    way = MapWay((((5.0, 60.0), (100.0, 60.0)),), 9)
    box = (40.0, 58.55, 22.0, 2.9)
    spot = MapSpot((20.0, 60.0), "Stralsund nowhere", 4, 0.74, box, "left")
    file = made(a_book(BookMonth(MAY, 1), map=BookMap(112, 132, (), (way,), (spot,))), tmp_path)
    subprocess.run([tool, "-r", "254", "-gray", "-f", "2", "-l", "2", "-png", file, tmp_path / "p"], check=True)
    picture = Image.open(next(tmp_path.glob("p-*.png"))).convert("L")
    # Ten dots to the millimetre; the map's corner is found by where the journey begins.
    dark = lambda x, y: picture.getpixel((x, y)) < 150  # noqa: E731
    wide, high = picture.size
    y = next(y for y in range(high // 3, high) if sum(dark(x, y) for x in range(wide)) > 600)
    left = next(x for x in range(wide) if dark(x, y + 1))
    name = range(left + 352, left + 352 + 190)
    gaps = [x for x in name if not dark(x, y + 1)]
    assert len(gaps) > 0.35 * len(name)
    rest = range(left + 650, left + 900)
    assert all(dark(x, y + 1) for x in rest)


def test_every_name_is_on_the_map_or_below_it(tmp_path):
    places = [MapPlace((50 + n % 6 * 2.0, 60 + n // 6 * 2.0), f"Somewhere {n:02}", 40 - n) for n in range(36)]
    spots = named(places, (), 112, 132)
    assert any(spot.number for spot in spots)
    file = made(a_book(BookMonth(MAY, 1), map=BookMap(112, 132, (), (), spots)), tmp_path)
    told = " ".join(" ".join(leaves(file)).split())
    assert [place.name for place in places if place.name not in told] == []
