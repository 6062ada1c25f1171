"""Pages to send: what is on them, and what is not."""

import re
import shutil
import subprocess
from base64 import b64decode
from datetime import UTC, date, datetime
from io import BytesIO
from itertools import pairwise

import html5lib
import pytest
import tinycss2
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from sample_pictures import exif, jpeg_bytes, quarters, with_exif

from keeper.actions import people, writing
from keeper.actions.months import shown as months
from keeper.actions.photos import kept as photos
from keeper.actions.places import known as known_places
from keeper.actions.printing import making as printing
from keeper.actions.printing.wanted import MonthParts, PagesWanted
from keeper.actions.sending.making import SentWanted, UnknownFormat, make_sent, sent_page
from keeper.book.sent.markup import standing_alone
from keeper.errors import CannotWrite, Stopped, UnknownThing
from keeper.model import Reading, Tracker
from keeper.review.book import BookLine
from keeper.review.sent import SentNight, SentPage, SentPart, SentTable
from keeper.store import nights, resting, trackers
from keeper.store.places import named as places
from keeper.store.themes import found, keeping

MAY = date(2026, 5, 1)
TOWN = "Zzyzxhafen"
LATITUDE, LONGITUDE = "56.9496", "24.1052"
HTML = "{http://www.w3.org/1999/xhtml}"


@pytest.fixture
def filled(store, clock, tmp_path):
    """A month with a line a night at a place, a photo, goals, readings, a person."""
    for day in range(1, 11):
        night = MAY.replace(day=day)
        writing.write_line(store, night, "memory", f"Ilze sang on evening {day}, and the tide came in.", clock)
        writing.set_place(store, night, TOWN, clock)
    place = places.named(store, TOWN)
    known_places.set_coordinates(store, place.id, f"{LATITUDE}, {LONGITUDE}")
    months.ask_question(store, MAY, "What sang?")
    months.write_words(store, MAY, "A month of <b>tides</b> & kettles.")
    months.add_goal(store, MAY, "Swim twice")
    file = tmp_path / "a.jpg"
    file.write_bytes(with_exif(jpeg_bytes(quarters(90, 60)), exif(latitude=float(LATITUDE), longitude=float(LONGITUDE))))
    photo = photos.take_in(store, file, clock, MAY.replace(day=2)).photo
    photos.write_caption(store, photo.id, "The harbour wall")
    months.choose_photo(store, MAY, photo.id)
    people.add(store, "Ilze, Ilzite")
    mood = trackers.add(store, Tracker("", "mood", "scale", 0, 10, "", "higher", MAY, body=True), None)
    trackers.note(store, [Reading(MAY, mood, 7.0)], None)
    return store


def parsed(made: bytes):
    """The page as html5lib's strict parser has it: it raises on whatever the HTML standard calls an error."""
    return html5lib.HTMLParser(strict=True).parse(made)


def all_text(made: bytes) -> str:
    return "".join(parsed(made).itertext())


def page_of(store, folder, what: str, name: str = "", ending: str = ".html", **more) -> bytes:
    wanted = SentWanted(what, MAY if what in ("month", "year") else None, name, **more)
    return make_sent(store, wanted, folder / f"page{ending}").path.read_bytes()


def text_of(made: bytes, folder) -> str:
    tool = shutil.which("pdftotext") or pytest.skip("pdftotext is not installed.")
    (folder / "read.pdf").write_bytes(made)
    done = subprocess.run([tool, "-enc", "UTF-8", folder / "read.pdf", "-"], capture_output=True, timeout=200, check=True)
    return done.stdout.decode("utf-8")


SENT = (("month", ""), ("year", ""), ("place", TOWN), ("person", "Ilze"))


@pytest.mark.parametrize(("what", "name"), SENT)
def test_a_page_stands_alone_and_is_sound_html(filled, tmp_path, what, name):
    made = page_of(filled, tmp_path, what, name)
    tree = parsed(made)
    assert made.startswith(b"<!DOCTYPE html>") and tree.get("lang") == "en"
    assert not list(tree.iter(f"{HTML}script")) and not list(tree.iter(f"{HTML}a")) and not list(tree.iter(f"{HTML}link"))
    assert not re.search(rb"https?://|@import|url\(", made)
    assert "default-src 'none'" in next(one.get("content") for one in tree.iter(f"{HTML}meta") if one.get("http-equiv"))
    assert len(list(tree.iter(f"{HTML}main"))) == 1 and next(tree.iter(f"{HTML}title")).text
    for image in tree.iter(f"{HTML}img"):
        assert image.get("alt") and image.get("src").startswith("data:image/jpeg;base64,")


@pytest.mark.parametrize(("what", "name"), SENT)
def test_headings_are_in_order(filled, tmp_path, what, name):
    """WCAG 2.2, technique H42 and G141: one of the first rank, and none is passed over."""
    ranks = [int(one.tag[-1]) for one in parsed(page_of(filled, tmp_path, what, name)).iter() if re.fullmatch(rf"{HTML}h[1-6]", str(one.tag))]
    assert ranks[0] == 1 and ranks.count(1) == 1 and len(ranks) > 2
    assert all(after <= before + 1 for before, after in pairwise(ranks))


def test_its_style_is_sound_and_prints(filled, tmp_path):
    style = next(parsed(page_of(filled, tmp_path, "month")).iter(f"{HTML}style")).text
    rules = tinycss2.parse_stylesheet(style, skip_comments=True, skip_whitespace=True)
    assert not [rule for rule in rules if rule.type == "error"]
    inner = [tinycss2.parse_blocks_contents(rule.content) for rule in rules if rule.type == "qualified-rule"]
    assert inner and not [one for part in inner for one in part if one.type == "error"]
    queries = [tinycss2.serialize(rule.prelude).strip() for rule in rules if rule.type == "at-rule"]
    assert "print" in queries and "(prefers-color-scheme: dark)" in queries


def test_what_a_month_has_is_on_it_in_both_forms(filled, tmp_path):
    html, pdf = all_text(page_of(filled, tmp_path, "month")), text_of(page_of(filled, tmp_path, "month", ending=".pdf"), tmp_path)
    for told in (html, pdf):
        flat = " ".join(told.split())
        for said in ("May 2026", "10 nights kept", "What sang?", "A month of <b>tides</b> & kettles.", "Swim twice", "The harbour wall",
                     "Friday 1 May 2026", "Ilze sang on evening 1, and the tide came in.", "Memory"):  # fmt: skip
            assert said in flat, said


def test_photos_carry_nothing_but_pixels(filled, tmp_path):
    source = next(parsed(page_of(filled, tmp_path, "month")).iter(f"{HTML}img")).get("src")
    with Image.open(BytesIO(b64decode(source.partition(",")[2]))) as picture:
        assert picture.size == (90, 60) and not picture.getexif() and not {"exif", "xmp", "icc_profile", "comment"} & set(picture.info)
    pdf = page_of(filled, tmp_path, "month", ending=".pdf")
    assert b"Exif" not in pdf


@pytest.mark.parametrize("ending", [".html", ".pdf"])
@pytest.mark.parametrize(("what", "name"), SENT)
def test_no_position_is_told_unless_asked(filled, tmp_path, what, name, ending):
    read = all_text if ending == ".html" else lambda made: text_of(made, tmp_path)
    plain, asked = (read(page_of(filled, tmp_path, what, name, ending, positions=positions)) for positions in (False, True))
    for position in (LATITUDE, LONGITUDE, LATITUDE[:5], LONGITUDE[:5]):
        assert position not in plain
    assert plain.count(TOWN) == (1 if what == "place" and ending == ".pdf" else 2 if what == "place" else 0)
    assert TOWN in asked
    if what != "person":
        assert LATITUDE in asked and LONGITUDE in asked


@pytest.mark.parametrize("what", ["filled", "month", "cards", "nights", "year", "ruler"])
def test_no_position_is_in_a_print_unless_asked(filled, tmp_path, what):
    night = MAY.replace(year=2027, day=3) if what == "cards" else MAY
    wanted = PagesWanted(what, night, night if what in ("cards", "nights") else MAY.replace(day=31))
    told = text_of(printing.make_pages(filled, wanted, tmp_path / "p.pdf").path.read_bytes(), tmp_path)
    assert TOWN not in told and LATITUDE[:5] not in told
    if what in ("filled", "cards"):
        asked = PagesWanted(what, wanted.first, wanted.last, parts=MonthParts(places=True))
        assert TOWN in text_of(printing.make_pages(filled, asked, tmp_path / "p.pdf").path.read_bytes(), tmp_path)


def test_readings_are_told_only_when_asked(filled, tmp_path):
    assert "mood" not in all_text(page_of(filled, tmp_path, "month"))
    for what in ("month", "year"):
        told = all_text(page_of(filled, tmp_path, what, readings=True))
        assert "mood" in told and "A record, not a diagnosis" in told


@pytest.mark.parametrize("rests", ["line", "span", "place", "person"])
def test_what_rests_is_left_out_unless_asked(filled, tmp_path, rests):
    if rests == "line":
        writing.rest_line(filled, nights.one(filled, MAY.replace(day=4)).lines[0].id)
    elif rests == "span":
        resting.rest_span(filled, MAY.replace(day=4), MAY.replace(day=6))
    elif rests == "place":
        known_places.rest_place(filled, places.named(filled, TOWN).id)
    else:
        people.rest_by_name(filled, "Ilze")
    month = all_text(page_of(filled, tmp_path, "month"))
    assert "evening 4," not in month and ("evening 1," in month) == (rests in ("line", "span"))
    assert "evening 4," in all_text(page_of(filled, tmp_path, "month", resting=True))
    for what, name in (("place", TOWN), ("person", "Ilze")):
        try:
            told = all_text(page_of(filled, tmp_path, what, name))
        except UnknownThing as error:
            told = ""
            assert "rest" in str(error)
        assert "evening 4," not in told
        assert "evening 4," in all_text(page_of(filled, tmp_path, what, name, resting=True))


def test_a_person_s_lines_are_found_by_every_spelling_and_as_words_of_their_own(filled, clock, tmp_path):
    writing.write_line(filled, date(2026, 6, 1), "memory", "Ilzite came by train.", clock)
    writing.write_line(filled, date(2026, 6, 2), "memory", "The Ilzensee froze.", clock)
    told = all_text(page_of(filled, tmp_path, "person", "ilzite"))
    assert "came by train" in told and "evening 10," in told and "froze" not in told
    with pytest.raises(UnknownThing):
        page_of(filled, tmp_path, "person", "Nobody")


def with_a_theme(store, ids: list[str]) -> None:
    """Let these lines be a theme, as if they had been found to be one."""
    every = found.plain_lines(store)
    its = [(row[0], 1 if row[0] in ids else None, 0.5) for row in every]
    build = found.Build("one", datetime(2026, 11, 14, 21, tzinfo=UTC), len(every), True, 0.9, "decided", "speech", 1)
    one = found.KeptTheme(1, "Tides, evening", True, False, 0.5, (("tide", 1.0),))
    base = {line_id: number for line_id, number, _ in its}
    keeping.keep(store, found.Outcome(build, b"", [one], its, base, {1: ("tide",)}, {row[0]: row[1] for row in every}))


def test_a_theme_has_its_lines_in_the_order_of_time(filled, tmp_path):
    ids = [nights.one(filled, MAY.replace(day=day)).lines[0].id for day in (7, 2, 5)]
    with_a_theme(filled, ids)
    writing.rest_line(filled, ids[2])
    tree = parsed(page_of(filled, tmp_path, "theme", "tides"))
    assert [one.get("datetime") for one in tree.iter(f"{HTML}time")] == ["2026-05-02", "2026-05-07"]
    assert next(tree.iter(f"{HTML}h1")).text == "Tides, evening" and TOWN not in all_text(page_of(filled, tmp_path, "theme", "tides"))
    assert "evening 5," in all_text(page_of(filled, tmp_path, "theme", "tides", resting=True))


@pytest.mark.parametrize(("what", "name"), [("month", ""), ("year", ""), ("theme", "none"), ("place", "Nowhere"), ("person", "Nobody"), ("person", " ")])
def test_what_is_not_kept_is_told(store, tmp_path, what, name):
    with pytest.raises(UnknownThing):
        sent_page(store, SentWanted(what, MAY, name))
    assert not list(tmp_path.glob("page*"))


def test_only_known_forms_are_made_and_a_file_gives_way_to_a_whole_one_only(filled, tmp_path):
    with pytest.raises(UnknownFormat, match="html"):
        page_of(filled, tmp_path, "month", ending=".docx")
    target = tmp_path / "page.html"
    target.write_text("before")
    asked = iter((False, False, True))
    with pytest.raises(Stopped):
        make_sent(filled, SentWanted("month", MAY), target, stopped=lambda: next(asked, True))
    assert target.read_text() == "before" and [file.name for file in tmp_path.glob("*page*")] == ["page.html"]
    with pytest.raises(CannotWrite, match="cannot be put"):
        make_sent(filled, SentWanted("month", MAY), tmp_path / "gone" / "page.html")


def test_a_photo_that_is_damaged_is_left_out_and_told(filled, tmp_path):
    next(filled.folder.glob("photos/**/*.jpg")).write_bytes(b"broken")
    made = make_sent(filled, SentWanted("month", MAY), tmp_path / "page.html")
    assert made.left_out[0].startswith("A photo was left out.") and b"<img" not in made.path.read_bytes()
    assert make_sent(filled, SentWanted("month", MAY), tmp_path / "page.pdf").left_out


HOSTILE = st.text(max_size=60) | st.sampled_from(
    ["</style><script>alert(1)</script>", "]]>", "<!--", "--><img src=x onerror=y>", "&lt;&amp;", "\x00\x0b\ufffe", "\ud800", "\u202eabc", "<svg/onload=1>"]
)


@given(HOSTILE, HOSTILE, HOSTILE)
def test_a_person_s_words_are_never_markup(title, said, cell):
    line = BookLine(MAY, "memory", said or "x", "fr", title)
    table = SentTable("Middles", ("Reading", "Middle"), ((cell, said),), cell)
    parts = (SentPart(said or "x", (cell,), ((title, said),), (), (SentNight(MAY, (line,), cell),), table),)
    tree = parsed(standing_alone(SentPage(title or "x", cell, parts, "#1f2a44", "en"), lambda photo: None))
    known = {"html", "head", "meta", "title", "style", "body", "main", "h1", "h2", "h3", "p", "section", "dl", "dt", "dd", "table", "caption",
             "thead", "tbody", "tr", "th", "td", "article", "time"}  # fmt: skip
    tags = [str(one.tag).removeprefix(HTML) for one in tree.iter()]
    # The one round the table is ours.
    assert set(tags) <= known | {"div"} and tags.count("div") == 1
