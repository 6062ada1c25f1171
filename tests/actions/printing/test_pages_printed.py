"""Pages to print, gathered from a real keeper."""

from datetime import date

import pytest
from pypdfium2 import PdfDocument
from sample_pictures import jpeg_bytes, quarters

from keeper.actions import kinds, opening, people, writing
from keeper.actions.months import shown as months
from keeper.actions.photos import kept as photos
from keeper.actions.printing import making
from keeper.actions.printing.contents import printed
from keeper.actions.printing.wanted import BadPaper, MonthParts, PagesWanted
from keeper.book.letters import Compositor
from keeper.book.printed.others import of_year
from keeper.errors import CannotWrite, Stopped, UnknownThing, UnreadableText
from keeper.model import Reading, Tracker
from keeper.store import nights, trackers

MAY = date(2026, 5, 1)
END = date(2026, 5, 31)


@pytest.fixture
def filled(store, clock):
    """A month with lines, readings, a question and goals."""
    for day in (1, 2, 4):
        writing.write_line(store, MAY.replace(day=day), "memory", f"The kettle sang on evening {day}.", clock)
    months.ask_question(store, MAY, "What sang?")
    months.add_goal(store, MAY, "Swim twice")
    mood = trackers.add(store, Tracker("", "mood", "scale", 0, 10, "", "higher", MAY, body=True), None)
    tea = trackers.add(store, Tracker("", "tea", "mark", None, None, "", "neither", MAY.replace(day=2)), None)
    slept = trackers.add(store, Tracker("", "slept", "hours", None, None, "h", "higher", date(2025, 1, 1), date(2026, 5, 3)), None)
    noted = [(mood, 2, 7.0), (tea, 2, 1.0), (slept, 1, 7.5)]
    trackers.note(store, [Reading(MAY.replace(day=day), one, value) for one, day, value in noted], None)
    return store


def of(store, what: str, first: date = MAY, last: date = END, **more):
    return printed(store, PagesWanted(what, first, last, **more))[0]


def test_a_month_to_fill_in_has_every_night_and_what_is_noted_on_any_of_them(filled):
    trackers.add(filled, Tracker("", "later", "count", None, None, "", "neither", date(2026, 6, 1)), None)
    made = of(filled, "month")
    assert [row.date.day for row in made.rows] == list(range(1, 32)) and not any(row.lines for row in made.rows)
    assert [(one.name, one.values) for one in made.columns] == [("mood", ()), ("tea", ()), ("slept", ())]
    assert made.question == "What sang?" and [one.text for one in made.goals] == ["Swim twice"]
    bare = of(filled, "month", parts=MonthParts(question=False, goals=False, readings=False))
    assert (bare.question, bare.goals, bare.columns) == ("", (), ())


def test_a_month_ahead_can_be_printed_before_anything_is_kept(store):
    made = of(store, "month", date(2030, 2, 1), date(2030, 2, 28))
    assert len(made.rows) == 28 and made.columns == ()


def test_a_filled_month_has_what_was_kept(filled, clock, tmp_path):
    file = tmp_path / "a.jpg"
    file.write_bytes(jpeg_bytes(quarters(90, 60)))
    photo = photos.take_in(filled, file, clock, MAY).photo
    months.choose_photo(filled, MAY, photo.id)
    made = of(filled, "filled")
    assert [text for row in made.rows for _, text in row.lines] == [f"The kettle sang on evening {day}." for day in (1, 2, 4)]
    by_name = {one.name: one.values for one in made.columns}
    assert (by_name["mood"][:3], by_name["slept"][0]) == (("", "7", ""), "7:30")
    # A mark left empty on a night that was kept is a no; before it began, and on a night not kept, it is nothing.
    assert by_name["tea"][:4] == ("", "yes", "", "no")
    assert made.photo.id == photo.id and of(filled, "filled", parts=MonthParts(photo=False)).photo is None


def test_places_are_gathered_only_where_they_are_asked_for(filled, clock):
    writing.set_place(filled, MAY, "Liep\u0101ja", clock)
    for what, parts, told in (("filled", MonthParts(), ""), ("filled", MonthParts(places=True), "Liep\u0101ja")):
        assert of(filled, what, parts=parts).rows[0].place == told


def test_what_rests_is_not_printed_unless_it_is_brought_in(filled, clock):
    writing.write_line(filled, MAY.replace(day=6), "memory", "Maren rang.", clock)
    writing.rest_line(filled, nights.one(filled, MAY).lines[0].id)
    people.add(filled, "Maren")
    people.rest_by_name(filled, "Maren")
    said = lambda made: [text for row in made.rows for _, text in row.lines]  # noqa: E731
    assert said(of(filled, "filled")) == [f"The kettle sang on evening {day}." for day in (2, 4)]
    assert len(said(of(filled, "filled", resting=True))) == 4
    later = MAY.replace(year=2027)
    cards = of(filled, "cards", later.replace(day=6), later.replace(day=6)).cards
    assert [text for card in cards for _, text in card.lines] == ["The kettle sang on evening 4."]
    months.ask_question(filled, MAY, "What did Maren say?")
    assert of(filled, "month").question == ""


def test_a_year_s_weeks_begin_as_the_person_s_do(filled):
    assert of(filled, "year").week_begins == 0
    opening.change_settings(filled, {"week_begins": "Sunday"})
    made = of(filled, "year", ticked="  swam   far ")
    assert (made.year, made.week_begins, made.ticked) == (2026, 6, "swam far")
    january = of_year(made, None, Compositor([frozenset(range(32, 127))]))["months"][0]["days"]
    # By the calendar: 4, 11, 18 and 25 January 2026 are Sundays.
    assert [day["day"] for day in january if day["begins"]] == ["4", "11", "18", "25"]


def test_cards_are_of_that_day_or_of_the_nearest_which_is_told(filled):
    day = MAY.replace(year=2027, day=4)
    made, told = printed(filled, PagesWanted("cards", day, day))
    assert [card.date for card in made.cards] == [MAY.replace(day=4)] and told == ()
    assert made.cards[0].lines == (("Memory", "The kettle sang on evening 4."),)
    made, told = printed(filled, PagesWanted("cards", day.replace(day=6), day.replace(day=6)))
    assert [card.date.day for card in made.cards] == [4] and "nearest" in told[0]
    with pytest.raises(UnknownThing, match="earlier year"):
        of(filled, "cards", date(2027, 9, 1), date(2027, 9, 1))


def test_a_night_s_page_asks_for_what_the_night_asks_for(filled):
    dream = kinds.add(filled, "A dream", MAY.replace(day=3), prompt="What of it is left?")
    made = of(filled, "nights", MAY.replace(day=2), MAY.replace(day=4))
    asked = {night.day: [one.title for one in its] for night, its, _ in made.nights}
    assert asked == {2: ["Gratitude", "Memory", "Reflection"], 3: ["Gratitude", "Memory", "Reflection", "A dream"],
                     4: ["Gratitude", "Memory", "Reflection", "A dream"]}  # fmt: skip
    prompts = {one.title: one.prompt for one in made.nights[1][1]}
    assert (prompts["Reflection"], prompts["A dream"]) == ("What sang?", "What of it is left?") and dream
    assert [names for *_, names in made.nights] == [("mood", "tea", "slept"), ("mood", "tea", "slept"), ("mood", "tea")]
    with pytest.raises(UnknownThing, match="366"):
        of(filled, "nights", date(2020, 1, 1), date(2022, 1, 1))


@pytest.mark.parametrize(
    ("what", "more", "error"),
    [("filled", {"first": date(2019, 1, 1), "last": date(2019, 1, 31)}, UnknownThing), ("month", {"size": "a7"}, BadPaper),
     ("month", {"size": "a6", "holes": 35.0}, BadPaper), ("year", {"ticked": "x" * 61}, UnreadableText),
     ("month", {"size": "a4", "paper": "a4", "booklet": True}, BadPaper)],
)  # fmt: skip
def test_what_cannot_be_printed_is_told_and_nothing_is_left(filled, tmp_path, what, more, error):
    wanted = PagesWanted(**{"what": what, "first": MAY, "last": END, **more})
    with pytest.raises(error):
        making.make_pages(filled, wanted, tmp_path / "p.pdf")
    assert not list(tmp_path.glob("*p.pdf*"))


def test_pages_are_made_with_progress_and_can_be_stopped(filled, tmp_path):
    heard = []
    wanted = PagesWanted("month", MAY, END, sides="by hand", booklet=True)
    made = making.make_pages(filled, wanted, tmp_path / "p.pdf", lambda share, words: heard.append(share))
    # Two pages on one sheet: its front, and its back.
    assert made.pages == 2 and "short edge" in made.left_out[0] and made.left_out[1:] == (making.FOR_THE_PRINTER,)
    assert PdfDocument(made.path).get_metadata_value("Title") == "May 2026"
    assert heard == sorted(heard) and heard[-1] == 1.0
    before = made.path.read_bytes()
    for stops in range(4):
        asked = iter([False] * stops)
        with pytest.raises(Stopped):
            making.make_pages(filled, wanted, tmp_path / "p.pdf", stopped=lambda asked=asked: next(asked, True))
    assert made.path.read_bytes() == before and [file.name for file in tmp_path.glob("*p.pdf*")] == ["p.pdf"]
    with pytest.raises(CannotWrite):
        making.make_pages(filled, wanted, tmp_path / "gone" / "p.pdf")


def test_a_damaged_photo_leaves_its_room_and_is_told(filled, clock, tmp_path):
    file = tmp_path / "a.jpg"
    file.write_bytes(jpeg_bytes(quarters(90, 60)))
    months.choose_photo(filled, MAY, photos.take_in(filled, file, clock, MAY).photo.id)
    next(filled.folder.glob("photos/**/*.jpg")).write_bytes(b"broken")
    made = making.make_pages(filled, PagesWanted("filled", MAY, END), tmp_path / "p.pdf")
    assert made.left_out[0].startswith("A photo was left out.")


def test_any_script_can_be_printed(filled, clock, tmp_path):
    for day, text in enumerate(("\u05e9\u05dc\u05d5\u05dd \u05e2\u05d5\u05dc\u05dd", "\u6771\u4eac\u306e\u591c", "\u041f\u0440\u0438\u0432\u0435\u0442", "#set page(width: 1cm) $x$ *a*"), 10):
        writing.write_line(filled, MAY.replace(day=day), "memory", text, clock)
    made = making.make_pages(filled, PagesWanted("filled", MAY, END, size="a6", holes=8), tmp_path / "p.pdf")
    assert made.left_out == ()
    day = MAY.replace(year=2027, day=12)
    assert making.make_pages(filled, PagesWanted("cards", day, day, paper="a4"), tmp_path / "c.pdf").pages == 1
