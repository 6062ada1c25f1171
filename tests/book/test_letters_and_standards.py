"""Marks that turn writing round, and the standards that a book claims and falls back on."""

import pytest
from test_book import a_book, a_month, laid

from keeper.book import press
from keeper.book.coverage import faces
from keeper.book.letters import Compositor
from keeper.review.book import BookLine, BookNight
from keeper.shipped import resource

TURNING = [0x202A, 0x202B, 0x202C, 0x202D, 0x202E, 0x2066, 0x2067, 0x2068, 0x2069]
"""The explicit marks of direction: Unicode Annex 9, table 1, embeddings, overrides, isolates and their ends."""


@pytest.mark.parametrize("mark", TURNING, ids=[f"U+{mark:04X}" for mark in TURNING])
def test_each_mark_that_turns_the_direction_is_left_out_and_counted(mark):
    letters = Compositor(faces(resource("fonts")))
    assert letters.paragraphs(f"a{chr(mark)}gpj.exe")[0]["t"] == "agpj.exe"
    assert letters.plain(f"a{chr(mark)}gpj.exe") == "agpj.exe"
    assert letters.turned == 2 and not letters.missing


def test_marks_of_order_that_turn_nothing_stay():
    letters = Compositor(faces(resource("fonts")))
    assert letters.paragraphs("12\u200f\u200e3")[0]["t"] == "12\u200f\u200e3" and not letters.turned


def short_book(folder):
    day = a_month().month
    return laid(a_book(a_month(nights=(BookNight(day, (BookLine(day, "memory", "In tune."),)),))), folder)


def claimed(pdf: bytes) -> tuple[bool, bool, bool]:
    """Whether it says it is of part 2, of level A or B, and accessible (ISO 19005-2 6.6.4, ISO 14289-1 5)."""
    return b"<pdfaid:part>2<" in pdf, b"<pdfaid:conformance>A<" in pdf, b"<pdfuaid:part>1<" in pdf


def test_a_book_claims_pdf_a_2a_and_ua_1(tmp_path):
    pdf, _, told = press.print_pdf(short_book(tmp_path))
    assert claimed(pdf) == (True, True, True) and told == ()


def refusing(monkeypatch, *standards):
    from typst import TypstError

    real, asked = press._compiled, []

    def compiled(compiler, wanted):
        asked.append(wanted)
        if wanted in standards:
            error = TypstError("no")
            error.message = "missing document title"
            raise error
        return real(compiler, wanted)

    monkeypatch.setattr(press, "_compiled", compiled)
    return asked


def test_where_the_first_cannot_be_it_is_2b_and_still_archival(tmp_path, monkeypatch):
    asked = refusing(monkeypatch, ("a-2a", "ua-1"))
    pdf, _, told = press.print_pdf(short_book(tmp_path))
    assert asked == [("a-2a", "ua-1"), ("a-2b",)] and told == ()
    assert b"<pdfaid:part>2<" in pdf and b"<pdfaid:conformance>B<" in pdf


def test_where_neither_can_be_the_book_is_made_and_says_so(tmp_path, monkeypatch):
    asked = refusing(monkeypatch, ("a-2a", "ua-1"), ("a-2b",))
    pdf, _, told = press.print_pdf(short_book(tmp_path))
    assert asked[-1] == () and pdf.startswith(b"%PDF") and b"pdfaid" not in pdf
    assert told == ("It is not an archival PDF (PDF/A): something in it does not allow that.",)


@pytest.mark.parametrize(
    ("problem", "letters"),
    [
        ('the text `"\\u{2192}"` could not be displayed with font `"X"`', "\u2192"),
        ('the text `"a\\u{2192}\\u{1F3B9}"` could not be displayed with font `"X"`', "a\u2192\U0001f3b9"),
        ('codepoint `"\\u{1f3b9}"`', "\U0001f3b9"),
        ('the text `"q"` could not be displayed with font `"X"`', "q"),
    ],
)
def test_letters_that_typst_names_by_their_number_are_put_aside_too(tmp_path, monkeypatch, problem, letters):
    """Typst tells of a letter as Rust spells it: by itself, or as ``\\u{2192}``."""
    from typst import TypstError

    day = a_month().month
    night = BookNight(day, (BookLine(day, "memory", "a q b \u2192 c \U0001f3b9"),))
    made = laid(a_book(a_month(nights=(night,))), tmp_path)
    real, failed = press._compiled, []

    def compiled(compiler, wanted):
        if not failed:
            failed.append(wanted)
            error = TypstError("no")
            error.message = f"PDF/A-2a error: {problem}"
            raise error
        return real(compiler, wanted)

    monkeypatch.setattr(press, "_compiled", compiled)
    pdf, _, told = press.print_pdf(made)
    assert made.letters.refused == set(letters) and claimed(pdf) == (True, True, True)
    assert all(f"U+{ord(letter):04X}" in told[0] for letter in letters)
