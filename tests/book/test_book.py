"""What is handed to typst, and what comes of it: hostile words, missing letters, sizes, maps."""

import json
from dataclasses import replace
from datetime import date
from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from keeper.book import press
from keeper.book.coverage import faces
from keeper.book.laying_out import lay_out, page_size, pixels_for, printed_size
from keeper.book.letters import SIGN, Compositor, runs_left
from keeper.errors import Stopped, UnreadablePhoto
from keeper.review.book import (
    Book,
    BookClosing,
    BookLine,
    BookMonth,
    BookNight,
    BookPhoto,
    BookPlace,
    BookStrip,
    IndexEntry,
    MonthSheet,
)
from keeper.shipped import resource

HOSTILE = (
    "#set text(red) #import \"@preview/x:1\" #panic() $x^2$ @label <lab> *bold* _it_ `raw` \\ // /* = - + ~ --",
    "היום ירד גשם, 2026 #1 $5.",
    "اليوم أمطرت السماء (جدًا) 123.",
    "今天下雨了。謝謝，臺灣。ありがとう 감사",
    "🎹 👩‍👩‍👧‍👦 ❤️ 🇫🇮 ☀ ♪ → ✓",
    "he said שלום to me",
    "bidi \u202eevil\u202c \u2066isolate\u2069 \ufeff bom",
    "bell \x07 nul \x00 esc \x1b private \ue000 lone \ud800 last",
    "Thai ไทย, mark a\u20dd, x\u0335\u0300",
    "w" * 300,
    "One.\n\nTwo.\r\nThree.\u2028Four.",
)


def picture(wide: int = 400, high: int = 300) -> bytes:
    out = BytesIO()
    Image.new("RGB", (wide, high), (90, 120, 150)).save(out, "JPEG")
    return out.getvalue()


def a_month(month: date = date(2026, 3, 1), **changed) -> BookMonth:
    nights = tuple(
        BookNight(month.replace(day=day), (BookLine(month.replace(day=day), "memory", text, "en"),))
        for day, text in enumerate(HOSTILE, 1)
    )
    return BookMonth(**{"month": month, "kept": len(nights), "nights": nights, **changed})


def a_book(*months: BookMonth, **changed) -> Book:
    usual = {"year": 2026, "title": "2026", "name": "", "size": "a5", "ink": "#1f2a44", "language": "en",
             "nights": 11, "lines": 11}  # fmt: skip
    return Book(**{**usual, "months": months or (a_month(),), **changed})


def laid(work, folder: Path, give=lambda photo_id, side: picture()):
    folder.mkdir(exist_ok=True)
    return lay_out(work, folder, give, lambda *_: None, lambda: False)


@pytest.fixture(scope="module")
def letters() -> Compositor:
    return Compositor(faces(resource("fonts")))


def test_hostile_words_are_set_as_they_are_and_the_book_is_archival(tmp_path):
    pdf, count, told = press.print_pdf(laid(a_book(), tmp_path))
    assert b"pdfaid:part" in pdf and count >= 3
    assert [sentence[:28] for sentence in told] == ["No typeface of the book has ", "Marks that turn the directio"]


@pytest.mark.parametrize("where", ["title", "name", "question", "words", "goal", "place", "theme", "caption", "tracker", "index", "closing"])
def test_hostile_words_do_no_harm_wherever_they_stand(tmp_path, where):
    from keeper.model import Goal
    from keeper.review.book import BookTheme

    all_ = " ".join(HOSTILE)
    of = {
        "question": {"question": all_}, "words": {"words": all_}, "goal": {"goals": (Goal("", all_, "done", all_),)},
        "place": {"places": (BookPlace(all_, 3),)}, "theme": {"themes": (BookTheme(all_, 4),)},
        "caption": {"photo": BookPhoto("p", 400, 300, all_)},
        "tracker": {"readings": (BookStrip(all_, all_, "scale", 0, 10, (1.0,) * 31),)},
    }.get(where, {})  # fmt: skip
    whole = {
        "title": {"title": all_}, "name": {"name": all_}, "closing": {"closing": (BookClosing(all_, all_),)},
        "index": {"places": (IndexEntry(all_, all_, ((date(2026, 3, 1), date(2026, 3, 2)),)),)},
    }.get(where, {})  # fmt: skip
    pdf, _, told = press.print_pdf(laid(a_book(a_month(**of), **whole), tmp_path))
    assert pdf.startswith(b"%PDF") and not any("archival" in sentence for sentence in told)


@settings(max_examples=25)
@given(st.text(st.characters(exclude_categories=[]), min_size=1, max_size=40))
def test_no_text_stops_a_book(tmp_path_factory, text):
    night = date(2026, 3, 1)
    month = BookMonth(night, 1, question=text, nights=(BookNight(night, (BookLine(night, "memory", text),), text),))
    pdf, _, _ = press.print_pdf(laid(a_book(month), tmp_path_factory.mktemp("any")))
    assert b"pdfaid:part" in pdf


def test_letters_without_a_face_are_told_and_stand_as_a_sign(letters):
    fresh = Compositor(letters.faces)
    assert fresh.paragraphs("Thai \u0e44, yes.")[0]["t"] == f"Thai {SIGN}, yes."
    assert set(fresh.missing) == {"\u0e44"}
    assert fresh.paragraphs("a\u20dd")[0]["t"] == f"a{SIGN}"
    assert fresh.paragraphs("e\u0301 n\u0303")[0]["t"] == "e\u0301 n\u0303"


def test_a_letter_that_typst_refuses_is_put_aside_and_the_book_made(tmp_path, monkeypatch):
    work = a_book(a_month(words="plain q letter"))
    made = laid(work, tmp_path)
    real, calls = press._compiled, []

    def refusing(compiler, standards):
        from typst import TypstError

        calls.append(standards)
        if len(calls) == 1:
            error = TypstError("no")
            error.message = 'PDF/A-2a error: the text `"q"` could not be displayed with font `"X"`'
            raise error
        return real(compiler, standards)

    monkeypatch.setattr(press, "_compiled", refusing)
    pdf, _, told = press.print_pdf(made)
    assert pdf.startswith(b"%PDF") and "q (U+0071)" in " ".join(told)


@pytest.mark.parametrize(
    ("text", "left"), [("abc", False), ("שלום abc", True), ("123 مرحبا", True), ("abc שלום", False), ("123", False), ("", False)]
)
def test_a_paragraph_runs_the_way_of_its_first_letter(text, left):
    assert runs_left(text) is left


def test_paragraphs_keep_their_words_and_languages(letters):
    made = Compositor(letters.faces).paragraphs("First  one.\n\nשלום.\n今日は。", "de")
    assert [(one["t"], one["r"], one["l"]) for one in made] == [
        ("First  one.", False, "de"), ("שלום.", True, "he"), ("今日は。", False, "ja")
    ]  # fmt: skip


def test_long_words_can_be_broken_and_lose_nothing(letters):
    word = "https://example.org/" + "x" * 100
    shown = Compositor(letters.faces).paragraphs(word)[0]["t"]
    assert "\u200b" in shown and shown.replace("\u200b", "") == word


def test_a_name_that_runs_left_is_held_together(letters):
    assert Compositor(letters.faces).plain("ירושלים 1") == "\u2068ירושלים 1\u2069"


@pytest.mark.parametrize(("wide", "high"), [(4000, 3000), (3000, 4000), (1000, 1000), (8000, 1000)])
@pytest.mark.parametrize("size", ["a5", "a4", "half-letter"])
def test_photos_fill_their_space_uncut_at_300_dots(size, wide, high):
    photo = BookPhoto("p", wide, high)
    work = a_book(size=size)
    across, up = printed_size(photo, work)
    box = page_size(work)["photo"]
    assert across <= box[0] + 1e-9 and up <= box[1] + 1e-9
    assert across / up == pytest.approx(wide / high)
    assert pixels_for(photo, across, up) / (max(across, up) / 25.4) == pytest.approx(300, abs=2)


@pytest.mark.parametrize(("wide", "high", "printed"), [(400, 300, (76, 50)), (300, 400, (50, 76)), (300, 300, (50, 76))])
def test_a_small_photo_is_50_by_76(wide, high, printed):
    photo = BookPhoto("p", wide, high)
    sheet = MonthSheet(a_month(photo=photo), "a5", "#1f2a44", "en", small_photo=True)
    assert printed_size(photo, sheet) == printed
    assert pixels_for(photo, *printed) >= max(printed) / 25.4 * 300


def test_a_photo_that_cannot_be_read_is_left_out_and_told(tmp_path):
    def broken(photo_id, side):
        raise UnreadablePhoto("\u201ca.jpg\u201d is cut short.")

    _, _, told = press.print_pdf(laid(a_book(a_month(photo=BookPhoto("p"))), tmp_path, broken))
    assert told[0] == "A photo was left out. \u201ca.jpg\u201d is cut short."


def test_stop_is_heeded_between_photos(tmp_path):
    months = tuple(a_month(date(2026, n, 1), photo=BookPhoto(str(n))) for n in (1, 2, 3))
    asked = []

    def progress(share, words):
        asked.append(words)
        if len(asked) == 2:
            raise Stopped("Stopped.")

    with pytest.raises(Stopped):
        lay_out(a_book(*months), tmp_path, lambda *_: picture(), progress, lambda: False)
    assert asked == ["Photo 1 of 3", "Photo 2 of 3"]


def test_a_sheet_is_always_one_page(tmp_path):
    photo = BookPhoto("p", 300, 400, "A caption. " * 6)
    strips = tuple(BookStrip(f"tracker {n}", "h", "hours", 0, 12, (None, *(7.0,) * 30)) for n in range(9))
    month = a_month(photo=photo, question="What?", words="Many words. " * 60, readings=strips)
    for small in (False, True):
        folder = tmp_path / str(small)
        _, count, told = press.print_pdf(laid(MonthSheet(month, "a5", "#1f2a44", "en", small), folder))
        assert count == 1 and any("no room" in sentence for sentence in told)


def overfull(lines: int) -> MonthSheet:
    strips = tuple(BookStrip(f"tracker {n}", "h", "hours", 0, 12, (None, *(7.0,) * 30)) for n in range(5))
    text = "The ice went out with a long low note. " * 3
    days = [date(2026, 3, day) for day in range(1, lines + 1)]
    nights = tuple(BookNight(day, (BookLine(day, "memory", text, "en"),)) for day in days)
    month = a_month(photo=BookPhoto("p", 400, 300), question="What was light?", readings=strips, nights=nights)
    return MonthSheet(month, "a5", "#1f2a44", "en")


@pytest.mark.parametrize("lines", [7, 9])
def test_on_a_sheet_that_is_somewhat_full_every_line_has_room(tmp_path, lines):
    made = laid(overfull(lines), tmp_path)
    _, count, told = press.print_pdf(made)
    assert (count, told, made.lacking) == (1, (), "") and made.scale < 1
    assert made.work.month == overfull(lines).month


def test_a_sheet_far_too_full_leaves_no_line_out_that_had_room_and_says_so(tmp_path):
    made = laid(overfull(31), tmp_path)
    _, count, told = press.print_pdf(made)
    shown = len(made.work.month.nights)
    assert count == 1 and told == (f"There was no room for the readings and {31 - shown} of 31 lines.",)
    assert json.loads((tmp_path / "book.json").read_text("utf-8"))["lacking"] == told[0]
    made.work = replace(made.work, month=replace(made.work.month, nights=overfull(31).month.nights[: shown + 1]))
    made.write()
    assert press._pages(press._compiler(made)) == 2


def test_a_month_that_cannot_be_set_is_called_a_page(tmp_path, monkeypatch):
    from typst import TypstError

    def refusing(compiler, standards):
        error = TypstError("no")
        error.message = "no"
        raise error

    monkeypatch.setattr(press, "_compiled", refusing)
    with pytest.raises(press.CannotTypeset, match=r"^The month\u2019s page could not be set"):
        press.print_pdf(laid(overfull(1), tmp_path / "page"))
    with pytest.raises(press.CannotTypeset, match=r"^The book could not be set"):
        press.print_pdf(laid(a_book(), tmp_path / "book"))


def test_the_data_is_json_and_nothing_of_the_computer_is_in_it(tmp_path):
    made = laid(a_book(a_month(photo=BookPhoto("p"))), tmp_path)
    data = json.loads((tmp_path / "book.json").read_text("utf-8"))
    assert data["chapters"][0][0]["photo"]["file"] == "photo-1.jpg"
    pdf, _, _ = press.print_pdf(made)
    assert str(tmp_path).encode() not in pdf


def test_no_template_reaches_for_the_network():
    for template in resource("book").glob("*.typ"):
        assert "@preview" not in template.read_text("utf-8")
