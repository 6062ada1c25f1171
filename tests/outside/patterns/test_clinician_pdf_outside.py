"""The clinician's page against other people's tools: qpdf and poppler. Skipped where one is missing."""

import re
import shutil
import subprocess
import tempfile
from datetime import date, timedelta
from pathlib import Path

import pytest

from keeper.actions.clinician import chosen, contents, making
from keeper.actions.clinician.chosen import Chosen
from keeper.book.clinician import LETTERS, TRIED
from keeper.cautions import OF_THE_BODY
from keeper.model import Act, Reading, Tracker
from keeper.review.clinician.page import ClinicianPage, ClinicianReading, PatternSaid
from keeper.review.clinician.wording import method
from keeper.store import trackers

LAST = date(2026, 11, 14)
NAMES = ("mood", "sleep", "tea & toast", "back ache <left>", "Grüße aus Łódź")
LONGEST = "reading with the longest name of all (40"
MANY = tuple(f"reading number {n} with a name that is rather long for it" for n in range(11))


def output(*command: str | Path) -> str:
    if not shutil.which(str(command[0])):
        pytest.skip(f"{command[0]} is not installed.")
    done = subprocess.run([str(part) for part in command], capture_output=True, timeout=200)
    assert done.returncode == 0, done.stderr.decode()
    return done.stdout.decode("utf-8", "replace")


@pytest.fixture
def keeper(store):
    for place, name in enumerate((*NAMES, *MANY)):
        form, ends = ("mark", (None, None)) if place in (2, 3) else ("scale", (0.0, 10.0))
        trackers.add(store, Tracker(name, name, form, *ends, "", "neither", date(2025, 1, 1), body=place == 0), Act("Readings"))
    nights = [LAST - timedelta(n) for n in range(400)]
    noted = [Reading(night, name, float((night.day + place) % (2 if place in (2, 3) else 9)))
             for place, name in enumerate((*NAMES, *MANY)) for night in nights if night.day % 6]  # fmt: skip
    trackers.note(store, noted, Act("Readings"))
    return store


def made(keeper, target: Path, nights: int, names: tuple[str, ...]) -> making.BookMade:
    return making.make_page(keeper, Chosen(LAST - timedelta(nights - 1), LAST, names), target, LAST)


def test_a_reader_of_pdfs_finds_what_is_on_it(keeper, tmp_path):
    target = tmp_path / "page.pdf"
    assert made(keeper, target, 90, NAMES).pages == 1
    text = " ".join(output("pdftotext", "-layout", target, "-").split())
    assert "Readings, 17 August 2026 to 14 November 2026" in text and "90 nights." in text
    for words in (*NAMES, "Counts", "Nights noted", "75 of 90", "Cautions", "Sep", "Oct"):
        assert words in text
    assert " ".join(OF_THE_BODY.split()) in text.replace("- ", "")
    assert "noted night by night by the person" in text


def test_it_is_sound_and_tagged(keeper, tmp_path):
    target = tmp_path / "page.pdf"
    made(keeper, target, 90, NAMES)
    assert "No syntax or stream encoding errors" in output("qpdf", "--check", target)
    told = output("pdfinfo", target)
    assert re.search(r"Tagged:\s+yes", told) and re.search(r"Page size:\s+595\S* x 841\S* pts \(A4\)", told)
    assert re.search(r"Title:\s+Readings, 17 August 2026 to 14 November 2026", told)


def test_sixteen_readings_have_room_on_two_pages(keeper, tmp_path):
    target = tmp_path / "page.pdf"
    assert made(keeper, target, 400, (*NAMES, *MANY)).pages == 2
    text = " ".join(output("pdftotext", "-layout", target, "-").split())
    assert text.count("1 of 2") == text.count("2 of 2") == 1
    assert all(f"reading number {n}" in text for n in range(11)) and "Cautions" in text


def test_lower_strips_save_a_page(tmp_path, monkeypatch):
    def pages(high: float) -> int:
        monkeypatch.setattr(making, "TRIED", ((high, LETTERS, 2),))
        return making.proof_page(None, None, passing(tmp_path), LAST).pages

    work = full(7, 3, "mood")
    monkeypatch.setattr(making, "page_of", lambda *_: work)
    assert [pages(high) for high in (13.0, 9.0)] == [2, 1]
    monkeypatch.setattr(making, "TRIED", TRIED)
    assert making.proof_page(None, None, passing(tmp_path), LAST).pages == 1


def test_the_most_there_can_be_has_room_on_two_pages(tmp_path, monkeypatch):
    monkeypatch.setattr(making, "page_of", lambda *_: full(chosen.MOST_READINGS, contents.MOST_SAID, LONGEST))
    assert making.proof_page(None, None, passing(tmp_path), LAST).pages == 2


def passing(tmp_path: Path) -> Path:
    return Path(tempfile.mkdtemp(dir=tmp_path))


def full(readings: int, sentences: int, name: str) -> ClinicianPage:
    """A page of readings, and sentences of three rows with two below each."""
    unit = "a unit of 20 letters" if name == LONGEST else ""
    its = [Tracker(str(n), name, "amount", None, None, unit, "neither", date(2025, 1, 1)) for n in range(readings)]
    made = tuple(ClinicianReading(one, tuple(float(n % 7) for n in range(400)), 0.0, 10.0, "line") for one in its)
    said = (PatternSaid("After nights of this, that was on average lower than others. " * 4, "From nights. " * 16),) * sentences
    return ClinicianPage(LAST - timedelta(399), LAST, made, said, "", method(True, True), (OF_THE_BODY,))


def test_one_night_is_a_page_too(keeper, tmp_path):
    target = tmp_path / "page.pdf"
    assert made(keeper, target, 2, NAMES).pages == 1
    assert "2 nights" in output("pdftotext", "-layout", target, "-")


def test_letters_that_no_typeface_has_are_told(keeper, tmp_path):
    trackers.add(keeper, Tracker("odd", "\U00013000 odd", "scale", 0.0, 10.0, "", "neither", date(2025, 1, 1)), Act("Readings"))
    trackers.note(keeper, [Reading(LAST, "odd", 5.0)], Act("Readings"))
    told = made(keeper, tmp_path / "page.pdf", 30, ("odd",))
    assert "No typeface of the book has these letters" in told.left_out[0]
