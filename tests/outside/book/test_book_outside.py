"""The book against other people's tools: qpdf, poppler, exiftool, FreeType. Skipped where one is missing."""

import json
import re
import shutil
import subprocess
import unicodedata
from datetime import date
from pathlib import Path

import pytest
from PySide6.QtGui import QRawFont
from sample_pictures import exif, jpeg_bytes, quarters, with_exif

from keeper.actions import writing
from keeper.actions.paper import making as book
from keeper.actions.photos import kept as photos
from keeper.book.coverage import letters_of
from keeper.book.paging import LEAST_ROWS
from keeper.clock import Clock
from keeper.shipped import resource
from keeper.store import lines, people, resting
from keeper.study.people import speaks_of

YEAR = 2025

LINES = {
    1: "The kettle sang, and #nobody *minded* the $5 or the @ sign \\ at all.",
    2: "A difficulty of extraordinary administrative incomprehensibility was unquestionably straightened out today.",
    3: "Grüße aus Kraków, Łódź, Ærø and Þingvellir.",
    4: "今天下雨了，我坐在窗边喝茶。",
    5: "Донау — Привет, Ελλάδα.",
    28: "The last line of a month, which has to be found after all the others.",
}


def tool(name: str) -> str:
    found = shutil.which(name)
    if not found:
        pytest.skip(f"{name} is not installed.")
    return found


def output(*command: str | Path) -> str:
    done = subprocess.run([str(part) for part in command], capture_output=True, timeout=200)
    assert done.returncode == 0, done.stderr.decode()
    return done.stdout.decode("utf-8", "replace")


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A book of two months, with photos that know where they were taken."""
    from datetime import datetime
    from zoneinfo import ZoneInfo

    from keeper.actions.opening import open_or_begin
    from keeper.clock import StoppedClock

    folder = tmp_path_factory.mktemp("book")
    clock = StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")
    with open_or_begin(folder / "keeper") as store:
        for month in (2, 3):
            for day, text in LINES.items():
                writing.write_line(store, date(2026, month, day), "memory", f"{text} {month}", clock)
            file = folder / f"{month}.jpg"
            notes = exif(f"2026:0{month}:03 12:00:00", "+02:00", 6, 56.9, 24.1)
            file.write_bytes(with_exif(jpeg_bytes(quarters(4000, 3000), 88), notes))
            photos.take_in(store, file, clock)
        yield book.make_book(store, 2026, book.BookParts(), folder / "book.pdf", clock), store


def test_qpdf_finds_nothing_wrong(made):
    assert "No syntax or stream encoding errors" in output(tool("qpdf"), "--check", made[0].path)


def bare(text: str) -> str:
    """Letters and digits alone: words are parted at line ends, and spaces stretched."""
    return "".join(letter for letter in unicodedata.normalize("NFC", text) if unicodedata.category(letter)[0] in "LNS")


def test_every_line_is_found_in_the_text_in_order(made):
    text = bare(output(tool("pdftotext"), "-enc", "UTF-8", made[0].path, "-"))
    at = 0
    written = [line.text for line in lines.between(made[1], date(2026, 1, 1), date(2026, 12, 31))]
    assert len(written) == 2 * len(LINES)
    for line in written:
        at = text.index(bare(line), at) + 1


def rows(leaf: str) -> int:
    return sum(1 for row in leaf.splitlines() if row.strip())


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    """The demo's book of 2025, and its keeper."""
    from keeper.actions.opening import lay_out_demo, open_kept

    folder = tmp_path_factory.mktemp("demo")
    with open_kept(lay_out_demo(folder / "demo")) as store:
        writing.rest_line(store, lines.between(store, date(YEAR, 5, 1), date(YEAR, 5, 31))[3].id)
        parts = book.BookParts(themes=False)
        yield book.make_book(store, YEAR, parts, folder / "demo.pdf", Clock()), store


def test_the_book_of_the_demo_has_every_line_in_order(demo):
    """All that is awake, night by night, as pdftotext (poppler) reads it, and nothing of what rests."""
    made, store = demo
    # In the order of the document, which is what a reader for the blind follows; else poppler guesses at columns.
    text = bare(output(tool("pdftotext"), "-raw", "-enc", "UTF-8", made.path, "-"))
    asleep_nights = resting.nights(store, date(YEAR, 1, 1), date(YEAR, 12, 31))
    speaks = speaks_of(people.resting_names(store))
    at, awake, asleep = 0, [], []
    for line in lines.between(store, date(YEAR, 1, 1), date(YEAR, 12, 31)):
        rests = line.resting or line.night in asleep_nights or speaks(line.text)
        (asleep if rests else awake).append(line.text)
    assert len(awake) > 480 and asleep
    for line in awake:
        at = text.index(bare(line), at) + 1
    assert not [line for line in asleep if bare(line) in text]


def test_the_book_of_the_demo_is_sound_archival_and_ends_no_month_with_a_scant_page(demo):
    """By qpdf and exiftool (ISO 19005-2, ISO 14289-1), and the rows of each page by pdftotext."""
    assert "No syntax or stream encoding errors" in output(tool("qpdf"), "--check", demo[0].path)
    told = json.loads(output(tool("exiftool"), "-json", "-G1", demo[0].path))[0]
    assert (told["XMP-pdfaid:Part"], told["XMP-pdfaid:Conformance"], told["XMP-pdfuaid:Part"]) == (2, "A", 1)
    leaves = output(tool("pdftotext"), "-enc", "UTF-8", "-layout", demo[0].path, "-").split("\f")[:-1]
    assert len(leaves) == demo[0].pages
    scant = [number for number, leaf in enumerate(leaves, 1) if rows(leaf) < LEAST_ROWS + 2]
    # The title, the map, and the openings of months, which have a photo; the head and the number are rows too.
    assert [number for number in scant if number > 2 and " kept\n" not in leaves[number - 1]] == []


def test_images_are_printed_at_300_dots_to_the_inch(made):
    rows = output(tool("pdfimages"), "-list", made[0].path).splitlines()[2:]
    assert len(rows) == 2
    for row in rows:
        across, up = (int(part) for part in row.split()[-4:-2])
        assert 297 <= across <= 303 and 297 <= up <= 303


def test_no_position_is_left_in_the_book_or_its_images(made, tmp_path):
    exiftool, pdfimages = tool("exiftool"), tool("pdfimages")
    output(pdfimages, "-all", made[0].path, tmp_path / "image")
    files = [made[0].path, *tmp_path.glob("image*")]
    assert len(files) == 3
    for file in files:
        told = json.loads(output(exiftool, "-json", "-a", "-G1", "-ee", file))[0]
        assert not [name for name in told if "GPS" in name or name.startswith(("IFD0", "ExifIFD", "MakerNotes"))]


def test_it_claims_to_be_archival_and_accessible(made):
    told = json.loads(output(tool("exiftool"), "-json", "-G1", made[0].path))[0]
    assert told["XMP-pdfaid:Part"] == 2 and str(told["XMP-pdfaid:Conformance"]).upper() == "A"
    assert str(told["XMP-pdfuaid:Part"]) == "1"
    assert "Tagged:          yes" in output(tool("pdfinfo"), made[0].path)


def test_all_fonts_are_embedded(made):
    rows = output(tool("pdffonts"), made[0].path).splitlines()[2:]
    assert rows and all(re.search(r" yes yes yes +\d+ +\d+$", row) for row in rows)


def test_the_letters_of_each_face_are_those_that_freetype_finds(qapp):
    """FreeType is what Qt reads typefaces with; fontTools, which the book asks, reads them in a way of its own."""
    files = sorted(resource("fonts").rglob("*.ttf"))
    assert len(files) >= 12
    planes = [letter for letter in range(0x21, 0x30000) if unicodedata.category(chr(letter))[0] not in "CZ"]
    for file in files:
        face = QRawFont(str(file), 12)
        expected = {letter for letter in planes if face.supportsCharacter(letter)}
        assert len(expected) > 400
        assert letters_of(file) & set(planes) == expected, file.name

