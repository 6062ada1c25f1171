"""Of who rests nothing is brought up, on whatever page: the one rule, asked by all."""

import ast
import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from keeper.actions import finding, people, reading, word_pictures, writing
from keeper.actions import resting as acts
from keeper.actions.months import shown as months
from keeper.actions.paper import contents as book_contents
from keeper.actions.places import known as places
from keeper.actions.remembering import bringing_up
from keeper.actions.themes import asking as themes
from keeper.actions.years import shown as years
from keeper.actions.years import sitting as year_sitting
from keeper.model import Photo, Reading, Tracker
from keeper.review.book import BookParts
from keeper.store import resting, trackers
from keeper.store.photos import known as photos
from keeper.store.themes import lines as theme_lines
from keeper.study.awake import Awake

ROOT = Path(__file__).resolve().parents[2] / "keeper"
MAY, JUNE = date(2026, 5, 1), date(2026, 6, 1)
NAME = "Oddny"


@pytest.fixture
def keeper(store, clock):
    """A year in which every thing a person can write names Oddny once, and something else once."""
    writing.set_place(store, date(2026, 5, 1), "Visby", clock)
    writing.set_place(store, date(2026, 5, 2), f"{NAME}\u2019s boat house", clock)
    for day, text in ((1, "The piano was flat."), (2, "Bread from the harbour."), (3, f"{NAME} sang on the quay.")):
        writing.write_line(store, date(2026, 5, day), "memory", text, clock)
        writing.write_line(store, date(2025, 5, day), "reflection", text, clock)
    writing.write_line(store, date(2026, 6, 1), "memory", "A new month.", clock)
    months.ask_question(store, MAY, f"What would {NAME} say?")
    months.write_words(store, MAY, f"The month of {NAME}.")
    months.write_words(store, JUNE, "A month of ferries.")
    goal = months.add_goal(store, MAY, "Swim")
    months.close_goal(store, MAY, goal.id, "done", f"with {NAME}")
    months.add_goal(store, MAY, f"Write to {NAME}")
    months.add_goal(store, MAY, "Tune the hall")
    for number, caption in ((1, f"{NAME} laughing"), (2, "The quay")):
        photo = photos.add(store, Photo("", f"{number:064x}", "jpg", 10, 40, 30, caption=caption))
        photos.attach(store, date(2026, 5, number), photo.id)
        months.choose_photo(store, MAY if number == 1 else JUNE, photo.id)
    trackers.add(store, Tracker("t", f"Calls to {NAME}", "count", None, None, "", "neither", MAY))
    trackers.add(store, Tracker("s", "Sleep", "hours", None, None, "h", "higher", MAY))
    trackers.note(store, [Reading(MAY, name, 7.0) for name in ("t", "s")])
    with store.writing():
        for number, name in ((1, f"bread, {NAME}"), (2, f"{NAME}, quay")):
            store.connection.execute(
                "INSERT INTO theme (number, id, name, begun_at) VALUES (?, ?, ?, 'then')", (number, f"id {number}", name)
            )
            store.connection.execute(
                "INSERT INTO theme_line SELECT id, ?, 0.9 FROM line WHERE night IN (?, ?)",
                (number, f"2025-05-0{number}", f"2026-05-0{number}"),
            )
    ours = year_sitting.closing_questions()
    year_sitting.answer(store, 2026, ours[0], f"{NAME} was there.")
    year_sitting.answer(store, 2026, ours[1], "The bridge held.")
    year_sitting.ask_more(store, 2026, f"What of {NAME}?")
    return store


PAGES = {
    "month": lambda store: months.month_page(store, MAY),
    "side by side": lambda store: months.side_by_side(store, [MAY, JUNE]),
    "every year": lambda store: months.same_month_every_year(store, MAY),
    "photos to choose": lambda store: months.photos_to_choose(store, MAY),
    "year": lambda store: years.year_page(store, 2026),
    "month of the sitting": lambda store: year_sitting.month_step(store, 2026, 5),
    "page of a night": lambda store: reading.night_page(store, MAY, MAY).question,
    "closing questions": lambda store: year_sitting.closing(store, 2026),
    "lines to choose": lambda store: years.lines_to_choose(store, 2026, 5),
    "looking back": lambda store: [bringing_up.looking_back(store, date(2026, month, 3)) for month in (5, 6)],
    "book": lambda store: book_contents.book_of(store, 2026, BookParts()),
    "book of chosen lines": lambda store: book_contents.book_of(store, 2026, BookParts(lines="chosen")),
    "printed month": lambda store: book_contents.sheet_of(store, MAY, BookParts(), False),
    "themes": themes.themes_view,
    "a theme": lambda store: themes.theme_view(store, 1),
    "names of themes": themes.names,
    "themes to find": finding.theme_names,
    "picture of words": lambda store: word_pictures.picture_of_year(store, 2026),
    "photos of a place": lambda store: places.photos_at(store, _visby(store)),
    "themes of a place": lambda store: places.themes_at(store, _visby(store)),
}


def _visby(store) -> str:
    return next(one.place.id for one in places.places_view(store).places if one.place.name == "Visby")


@pytest.mark.parametrize("page", PAGES.values(), ids=PAGES)
def test_no_page_tells_of_who_rests(keeper, page):
    assert NAME.lower() in repr(page(keeper)).lower()
    people.rest_by_name(keeper, NAME)
    # Words of a picture may be in small letters.
    assert NAME.lower() not in repr(page(keeper)).lower()


def test_a_month_tells_that_something_rests_and_all_of_it_when_asked(keeper):
    whole = months.month_page(keeper, MAY)
    people.rest_by_name(keeper, NAME)
    view = months.month_page(keeper, MAY)
    assert view.holds_back and view.rests == {"question", "words", "goals", "photo"}
    assert [goal.text for goal in view.page.goals] == ["Tune the hall"]
    asked = months.month_page(keeper, MAY, with_resting=True)
    assert asked.holds_back and (asked.page, asked.photo, asked.series) == (whole.page, whole.photo, whole.series)
    assert [one.name for one in asked.themes] == [one.name for one in whole.themes]
    assert not months.month_page(keeper, JUNE).holds_back


def test_what_is_held_back_of_a_month_stays_when_another_part_is_changed(keeper):
    whole = months.month_page(keeper, MAY).page
    people.rest_by_name(keeper, NAME)
    months.add_goal(keeper, MAY, "Swim more")
    months.choose_photo(keeper, MAY, None)
    page = months.month_page(keeper, MAY, with_resting=True).page
    assert page.goals[:3] == whole.goals and (page.question, page.words) == (whole.question, whole.words)


def test_of_two_spans_the_shorter_woken_leaves_the_longer_at_rest(keeper):
    longer, shorter = (MAY, date(2026, 5, 20)), (MAY, date(2026, 5, 2))
    for span in (longer, shorter):
        acts.rest_span(keeper, *span)
    acts.wake_span(keeper, *shorter)
    assert [(one.first, one.last) for one in acts.what_rests(keeper)] == [longer]
    assert resting.nights(keeper, MAY, JUNE) == {date(2026, 5, day) for day in (1, 2, 3)}
    acts.rest_span(keeper, date(2026, 4, 20), date(2026, 5, 20))
    acts.wake_span(keeper, *longer)
    assert [one.first for one in acts.what_rests(keeper)] == [date(2026, 4, 20)]
    acts.rest_span(keeper, *shorter)
    acts.wake_span(keeper, date(2026, 4, 20), date(2026, 5, 20))
    assert [(one.first, one.last) for one in acts.what_rests(keeper)] == [shorter]


def test_a_theme_that_only_lines_at_rest_have_tells_no_place_of_them(keeper):
    assert dict(theme_lines.places_of(keeper, 1, 9)) == {"Visby": 1}
    acts.rest_span(keeper, MAY, MAY)
    assert theme_lines.places_of(keeper, 1, 9) == ()


def test_a_theme_is_found_by_the_name_that_is_shown_and_by_its_whole_name(keeper):
    people.rest_by_name(keeper, NAME)
    assert dict(themes.names(keeper)) == {1: "bread"}
    assert [themes.named(keeper, name) for name in ("bread", f"bread, {NAME}", NAME)] == [1, 1, 2]


def test_a_photo_is_awake_while_one_of_its_nights_is():
    rule, photo = Awake(nights={MAY}), Photo("p", "", "", 0)
    assert not rule.photo(photo, [MAY]) and rule.photo(photo, [MAY, JUNE]) and rule.photo(photo)
    assert not rule.photo(replace(photo, resting=True), [JUNE])
    assert Awake(("Oddny",), {MAY}, everything=True).photo(replace(photo, resting=True, caption="Oddny"), [MAY])


# that there is one rule


def _uses(path: Path, name: str) -> bool:
    text = path.read_text("utf-8")
    # To parse all modules takes seconds; few have the name at all.
    return name in text and name in _names_used(ast.parse(text))


def _names_used(tree: ast.Module) -> set[str]:
    names = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)}
    imported = {one.name for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) for one in node.names}
    return names | imported | {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}


@pytest.mark.parametrize(
    ("name", "where"),
    [("speaks_of", {"study/people.py", "study/awake.py"}), ("told_name", {"study/people.py", "study/awake.py"}),
     # A search is narrowed by what rests, or does not, where the person says so.
     ("resting_names", {"store/people.py", "actions/awake.py", "store/finding/narrowing.py"})],
)  # fmt: skip
def test_who_rests_is_asked_by_the_rule_alone(name, where):
    used = {str(path.relative_to(ROOT)) for path in ROOT.rglob("*.py") if _uses(path, name)}
    assert used <= where | {"store/people.py"}


def test_which_nights_rest_is_said_in_one_place():
    said = [str(path.relative_to(ROOT)) for path in ROOT.rglob("*.py")
            if re.search(r"what = 'span' AND .*BETWEEN", path.read_text("utf-8"))]  # fmt: skip
    assert said == ["store/resting.py"]
