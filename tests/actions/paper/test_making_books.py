"""Making the book of a year from a real keeper: what is in it, what is not, and where it goes."""

import io
import os
from dataclasses import replace
from datetime import UTC, date, datetime

import pytest
from on_paper.notebook_pages import saved
from PIL import Image
from sample_pictures import jpeg_bytes, quarters

from keeper.actions import writing
from keeper.actions.months import shown as months
from keeper.actions.paper import making as book
from keeper.actions.paper.contents import book_of, sheet_of
from keeper.actions.paper.making import BookParts
from keeper.actions.paper.notebook import page_to_print
from keeper.actions.photos import kept as photos
from keeper.actions.scans import bringing as scans
from keeper.actions.years import shown as years
from keeper.actions.years import sitting as year_sitting
from keeper.clock import StoppedClock
from keeper.errors import CannotWrite, Stopped, UnknownThing
from keeper.model import Place, Reading, Tracker
from keeper.store import lines, nights, resting, trackers
from keeper.store.photos import known as kept_photos
from keeper.store.places import named as places

YEAR = 2026
CLOCK = StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=UTC))
TOO_FEW = "Themes can be found from 30 lines on, and there are 22; they are left out."


@pytest.fixture
def year(store, clock):
    """A keeper with lines in February and March, two places, readings and a goal."""
    riga = places.add(store, Place("", "Riga", "", "LV", 56.95, 24.11))
    visby = places.add(store, Place("", "Visby", "", "SE", 57.64, 18.29))
    for month in (2, 3):
        for day in range(1, 11):
            night = date(YEAR, month, day)
            writing.write_line(store, night, "memory", f"Memory {month}-{day} with Ilze.", clock)
            nights.set_place(store, night, (riga if day < 6 else visby).id, "said", "2026-01-01T00:00:00Z")
        writing.write_line(store, date(YEAR, month, 3), "reflection", f"Answer {month}.", clock)
        writing.ask_question(store, date(YEAR, month, 1), f"Question {month}?")
    months.add_goal(store, date(YEAR, 2, 1), "Swim twice")
    months.write_words(store, date(YEAR, 2, 1), "A cold month.")
    tracker = trackers.add(store, Tracker("", "sleep", "hours", 0, 12, "h", "higher", date(YEAR, 2, 1)))
    trackers.note(store, [Reading(date(YEAR, 2, day), tracker, 6.5) for day in (1, 2, 4)])
    with store.writing() as connection:
        connection.execute("INSERT INTO person VALUES ('i', 'Ilze')")
    return store


def texts(made) -> list[str]:
    return [line.text for month in made.months for night in month.nights for line in night.lines]


def test_a_part_of_a_year_gives_the_months_that_hold_something(year):
    made = book_of(year, YEAR, BookParts())
    assert [month.month.month for month in made.months] == [2, 3]
    assert (made.title, made.nights, made.lines, made.language) == ("2026", 20, 22, "en")
    assert len(texts(made)) == 22 and texts(made)[0] == "Memory 2-1 with Ilze."
    february = made.months[0]
    assert (february.question, february.words, february.goals[0].text) == ("Question 2?", "A cold month.", "Swim twice")
    assert [(one.name, one.nights) for one in february.places] == [("Riga", 5), ("Visby", 5)]
    assert [night.place for night in february.nights][:6] == ["Riga", "", "", "", "", "Visby"]
    assert february.readings[0].values[:5] == (6.5, 6.5, None, 6.5, None)


def test_pages_of_the_notebook_stand_with_their_month_if_wished(year, clock, tmp_path):
    saved(Image.new("RGB", (60, 90), "white"), tmp_path / "book" / "page.png")
    scans.bring(year, [tmp_path / "book"], date(YEAR, 2, 1), date(YEAR, 2, 12), clock)
    assert book_of(year, YEAR, BookParts()).notebook == frozenset()
    wished = BookParts(notebook=True)
    made = book_of(year, YEAR, wished)
    assert [len(month.notebook) for month in made.months] == [1, 0] and made.months[0].notebook[0].caption == "1 to 12 Feb 2026"
    page = page_to_print(year, made.months[0].notebook[0].id, 45)
    with Image.open(io.BytesIO(page)) as drawn:
        assert drawn.format == "JPEG" and drawn.size == (30, 45)
    # What of a page of handwriting rests, nobody can tell.
    writing.rest_line(year, lines.one(year, date(YEAR, 2, 5), "memory").id)
    assert book_of(year, YEAR, wished).notebook == frozenset()
    assert len(book_of(year, YEAR, replace(wished, resting=True)).notebook) == 1


def test_map_and_index_follow_the_places(year):
    made = book_of(year, YEAR, BookParts())
    assert {spot.name for spot in made.map.spots} == {"Riga", "Visby"}
    assert made.map.land and len(made.map.ways) == 1
    assert all(0 <= spot.at[0] <= made.map.width and 0 <= spot.at[1] <= made.map.height for spot in made.map.spots)
    # The way over the open nights of late February is drawn, not counted.
    assert made.kilometres == pytest.approx(2 * 360, rel=0.02)
    assert [(entry.name, entry.spans[0]) for entry in made.places] == [
        ("Riga", (date(YEAR, 2, 1), date(YEAR, 2, 5))), ("Visby", (date(YEAR, 2, 6), date(YEAR, 2, 10))),
    ]  # fmt: skip
    assert [(entry.name, len(entry.spans)) for entry in made.people] == [("Ilze", 20)]


def test_parts_that_are_not_wanted_are_not_in_it(year):
    off = BookParts(photos=False, map=False, themes=False, readings=False, index=False, month_pages=False)
    made = book_of(year, YEAR, off)
    february = made.months[0]
    assert (made.map, made.places, made.people) == (None, (), ())
    assert not (february.question or february.words or february.goals or february.places or february.readings)
    assert len(texts(made)) == 22


def test_chosen_lines_are_those_of_the_sitting_and_answers_stand_apart(year):
    wanted = BookParts(lines="chosen")
    proposed = book_of(year, YEAR, wanted)
    assert 2 <= len(texts(proposed)) <= 10
    old = years.lines_to_choose(year, YEAR, 2)
    shown = {line.text for line in old} & set(texts(proposed))
    gone = next(line for line in old if line.text in shown)
    new = next(line for line in old if line.text not in texts(proposed) and line.kind == "memory")
    years.replace_line(year, YEAR, 2, gone.id, new.id)
    sat = book_of(year, YEAR, wanted)
    assert new.text in texts(sat) and gone.text not in texts(sat)
    answers = [line.text for line in sat.months[1].answers]
    assert ("Answer 3." in answers) != ("Answer 3." in texts(sat))
    assert book_of(year, YEAR, replace(wanted, answers=False)).months[1].answers == ()


def test_closing_answers_are_in_it(year):
    year_sitting.answer(year, YEAR, "What stays?", "The tea.")
    assert [(one.question, one.answer) for one in book_of(year, YEAR, BookParts()).closing] == [("What stays?", "The tea.")]


@pytest.mark.parametrize("what", ["line", "span", "place", "person"])
def test_what_rests_is_left_out_unless_brought_in(year, what):
    if what == "line":
        writing.rest_line(year, nights.one(year, date(YEAR, 2, 2)).lines[0].id)
    elif what == "span":
        resting.rest_span(year, date(YEAR, 2, 1), date(YEAR, 2, 28))
    elif what == "place":
        resting.rest(year, "place", places.named(year, "Visby").id)
    else:
        resting.rest(year, "person", "i")
    gone = {"line": 1, "span": 11, "place": 10, "person": 20}[what]
    made = book_of(year, YEAR, BookParts())
    assert len(texts(made)) == 22 - gone
    if what == "place":
        assert "Visby" not in {entry.name for entry in made.places} | {spot.name for spot in made.map.spots}
    if what == "person":
        assert made.people == ()
    assert len(texts(book_of(year, YEAR, BookParts(resting=True)))) == 22


def test_the_month_page_s_photo_and_captions_are_used(year, clock, tmp_path):
    file = tmp_path / "a.jpg"
    file.write_bytes(jpeg_bytes(quarters(90, 60)))
    photo = photos.take_in(year, file, clock, date(YEAR, 2, 2)).photo
    photos.write_caption(year, photo.id, "The harbour")
    made = book_of(year, YEAR, BookParts())
    assert (made.months[0].photo.id, made.months[0].photo.caption) == (photo.id, "The harbour")
    photos.rest_photo(year, photo.id)
    assert book_of(year, YEAR, BookParts()).months[0].photo is None


def test_a_book_is_made_and_tells_how_far_it_is(year, tmp_path):
    told = []
    made = book.make_book(year, YEAR, BookParts(), tmp_path / "b.pdf", CLOCK, lambda share, words: told.append(share))
    assert made.path.read_bytes().startswith(b"%PDF") and made.pages >= 4 and made.left_out == (TOO_FEW,)
    assert told == sorted(told) and told[-1] == 1.0
    assert [file.name for file in tmp_path.iterdir() if file.is_file()] == ["b.pdf"]


def test_a_photo_whose_file_is_gone_is_left_out_and_told(year, clock, tmp_path):
    file = tmp_path / "a.jpg"
    file.write_bytes(jpeg_bytes(quarters(90, 60)))
    photo = photos.take_in(year, file, clock, date(YEAR, 2, 2)).photo
    kept_photos.file_of(year, photo).unlink()
    made = book.make_book(year, YEAR, BookParts(), tmp_path / "b.pdf", CLOCK)
    assert len(made.left_out) == 2 and made.left_out[1].startswith("A photo was left out.")


def test_stopped_leaves_the_file_that_was_there(year, tmp_path):
    target = tmp_path / "b.pdf"
    target.write_text("before")
    asked = iter([False, True, True, True, True])
    with pytest.raises(Stopped):
        book.make_book(year, YEAR, BookParts(), target, CLOCK, stopped=lambda: next(asked))
    assert target.read_text() == "before"


@pytest.mark.parametrize("target", ["none/b.pdf", "folder"])
def test_a_place_that_takes_no_file_is_told(year, tmp_path, target):
    (tmp_path / "folder").mkdir()
    with pytest.raises(CannotWrite, match=r"^The book cannot be put into"):
        book.make_book(year, YEAR, BookParts(), tmp_path / target, CLOCK)
    with pytest.raises(CannotWrite, match=r"^The month\u2019s page cannot be put into"):
        book.make_month_sheet(year, date(YEAR, 2, 1), tmp_path / target, CLOCK)
    assert not list(tmp_path.glob(".*part"))


def test_a_folder_that_may_not_be_written_is_told(year, tmp_path, unprivileged):
    closed = tmp_path / "closed"
    closed.mkdir()
    proof_folder = tmp_path / "proof"
    proof_folder.mkdir()
    proof = book.proof_book(year, YEAR, BookParts(), proof_folder, CLOCK)
    closed.chmod(0o555)
    unprivileged()
    if os.access(closed, os.W_OK, effective_ids=True):
        pytest.skip("Nothing is forbidden here.")
    with pytest.raises(CannotWrite):
        book.save(proof, closed / "b.pdf")


def test_a_year_of_which_nothing_is_kept_makes_no_book(year, tmp_path):
    with pytest.raises(UnknownThing, match="2019"):
        book.make_book(year, 2019, BookParts(), tmp_path / "b.pdf", CLOCK)
    with pytest.raises(UnknownThing, match="2026-07"):
        book.make_month_sheet(year, date(YEAR, 7, 1), tmp_path / "b.pdf", CLOCK)


@pytest.mark.parametrize("size", book.SIZES)
@pytest.mark.parametrize("lines", book.LINES)
def test_every_size_can_be_made(year, tmp_path, size, lines):
    assert book.make_book(year, YEAR, BookParts(size=size, lines=lines), tmp_path / "b.pdf", CLOCK).pages >= 4


def test_the_sheet_of_a_month(year, tmp_path):
    made = book.make_month_sheet(year, date(YEAR, 2, 14), tmp_path / "m.pdf", CLOCK, small_photo=True)
    assert made.pages == 1
    assert sheet_of(year, date(YEAR, 2, 14), BookParts(), False).month.month == date(YEAR, 2, 1)


def test_pages_of_a_draft_can_be_looked_at(year, tmp_path):
    proof = book.proof_book(year, YEAR, BookParts(), tmp_path, CLOCK)
    pictures = book.picture_pages(proof, 30)
    assert len(pictures) == proof.pages and all(one.read_bytes().startswith(b"\x89PNG") for one in pictures)
    assert list(pictures) == sorted(pictures)
