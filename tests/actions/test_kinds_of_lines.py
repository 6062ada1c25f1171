"""Kinds of lines as the person has them: no line, no search and no theme is changed by a name, an order or an end."""

from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from soundness import whole
from theme_keeper import fill_with_themes

from keeper.actions import finding, kinds, reading, writing
from keeper.actions.finding import Sought
from keeper.actions.months import shown as months
from keeper.actions.themes import asking as themes
from keeper.actions.themes import placing
from keeper.errors import AlreadyKept, KeeperError, TooManyKinds, UnknownThing, UnreadableDate, UnreadableText
from keeper.model import MOST_KINDS, QUESTION_KIND
from keeper.review.night import kinds_asked
from keeper.store import Store, lines
from keeper.store.themes import found as kept_themes

NIGHT = date(2026, 11, 14)
SPAN = (date(1990, 1, 1), date(2100, 1, 1))
NAMES = st.text(st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp"]), max_size=70)
NIGHTS = st.one_of(st.none(), st.dates(NIGHT - timedelta(days=40), NIGHT + timedelta(days=40)))
WHICH = st.integers(0, 30)

DONE = st.one_of(
    st.tuples(st.just("rename"), WHICH, NAMES),
    st.tuples(st.just("prompt"), WHICH, NAMES),
    st.tuples(st.just("order"), WHICH, WHICH),
    st.tuples(st.just("leave out"), WHICH),
    st.tuples(st.just("take up"), WHICH),
    st.tuples(st.just("span"), WHICH, NIGHTS, NIGHTS),
    st.tuples(st.just("add"), NAMES, NIGHTS, NIGHTS),
)


def do(store: Store, what: str, *about) -> None:
    """One thing a person does in the settings; what is refused changes nothing."""
    keys = [kind.key for kind in kinds.every(store)]
    if what == "add":
        name, began, ended = about
        kinds.add(store, name, began or NIGHT, ended)
        return
    key = keys[about[0] % len(keys)]
    if what == "rename":
        kinds.rename(store, key, about[1])
    elif what == "prompt":
        kinds.prompt(store, key, about[1])
    elif what == "order":
        keys.insert(about[1] % len(keys), keys.pop(about[0] % len(keys)))
        kinds.order(store, keys)
    elif what == "leave out":
        kinds.leave_out(store, key, NIGHT)
    elif what == "take up":
        kinds.take_up(store, key, NIGHT)
    else:
        kinds.set_span(store, key, *about[1:], NIGHT)


def what_lines_say(store: Store) -> tuple:
    """Lines, what is found by their words and kinds, and their themes: all but what kinds are called."""
    kept = {line.id: line for line in lines.between(store, *SPAN)}
    found = [[one.line.id for one in finding.find(store, sought, limit=500)] for sought in (
        Sought("the"), Sought("the", best_first=True), Sought("the", kinds=("gratitude",)), Sought(kinds=("memory",)))]  # fmt: skip
    placed = store.rows("SELECT * FROM theme_line ORDER BY line_id"), store.rows("SELECT * FROM theme_base ORDER BY line_id")
    return kept, store.rows("SELECT number, id FROM line ORDER BY number"), found, placed, kept_themes.every(store)


@pytest.fixture
def full(store, clock):
    """A keeper with themes, and lines of each of four kinds on one night."""
    fill_with_themes(store)
    dream = kinds.add(store, "A dream", NIGHT)
    for kind in ("gratitude", "memory", "reflection", dream.key):
        writing.write_line(store, NIGHT, kind, f"The harbour, seen again: {kind}", clock)
    return store


@settings(max_examples=25)
@given(st.lists(DONE, max_size=12))
def test_names_order_and_ends_change_no_line_no_search_and_no_theme(full, acts):
    before = what_lines_say(full)
    for what, *about in acts:
        numbers = {kind.key: kind.number for kind in kinds.every(full)}
        was = kinds.every(full)
        try:
            do(full, what, *about)
        except KeeperError as refusal:
            assert str(refusal).endswith((".", "?")) and kinds.every(full) == was
        assert {kind.key: kind.number for kind in kinds.every(full)}.items() >= numbers.items()
    assert what_lines_say(full) == before and whole(full)


@settings(max_examples=25)
@given(st.lists(DONE, max_size=14), st.dates(NIGHT - timedelta(days=60), NIGHT + timedelta(days=60)))
def test_begin_and_end_hold_on_every_night_and_no_night_asks_for_more_than_eight(store, acts, night):
    for what, *about in acts:
        try:
            do(store, what, *about)
        except KeeperError:
            continue
    every = kinds.every(store)
    within = [kind for kind in every if (kind.began or night) <= night <= (kind.ended or night)]
    assert list(kinds.asked_on(store, night)) == (within or list(every[:1]))
    assert 1 <= len(kinds.asked_on(store, night)) <= MOST_KINDS
    assert any(kind.asked_on(NIGHT) for kind in every)
    titles = [reading.same_letters(kind.title) for kind in every]
    assert len(set(titles)) == len(titles) and all(titles)


def test_the_page_of_a_night_has_the_kinds_in_force_and_those_of_which_it_has_words(store, clock):
    dream = kinds.add(store, "A dream", NIGHT)
    writing.write_line(store, NIGHT, "memory", "The crane.", clock)
    writing.keep_draft(store, NIGHT, "gratitude", "half a", clock)
    for key in ("memory", "gratitude"):
        kinds.leave_out(store, key, NIGHT)
    shown = reading.night_page(store, NIGHT, NIGHT).kinds
    assert [kind.key for kind in shown] == ["gratitude", "memory", QUESTION_KIND, dream.key]
    later = reading.night_page(store, NIGHT + timedelta(days=1), NIGHT).kinds
    assert [kind.key for kind in later] == [QUESTION_KIND, dream.key]
    earlier = reading.night_page(store, NIGHT - timedelta(days=1), NIGHT).kinds
    assert [kind.key for kind in earlier] == ["gratitude", "memory", QUESTION_KIND]


def test_the_answer_to_the_question_is_that_whatever_it_is_called(store, clock):
    writing.ask_question(store, NIGHT, "What did I hear?")
    kinds.rename(store, QUESTION_KIND, "Overheard")
    kinds.order(store, [QUESTION_KIND])
    line = writing.write_line(store, NIGHT, QUESTION_KIND, "A gull.", clock)
    assert line.kind_title == "Overheard" and line.kind_in_sentence == "“Overheard”"
    assert [one.text for one in months.month_page(store, NIGHT).answers] == ["A gull."]


@pytest.mark.parametrize(("name", "error", "says"), [
    ("", UnreadableText, "needs a name"), ("  \t ", UnreadableText, "needs a name"), ("x" * 61, UnreadableText, "60 characters"),
    ("GRATITUDE", AlreadyKept, "“Gratitude” already"), ("a  Dréam", AlreadyKept, "“A dream” already"),
])  # fmt: skip
def test_an_empty_a_long_and_a_doubled_name_are_told_of(store, name, error, says):
    kinds.add(store, "A dream", NIGHT)
    for act in (lambda: kinds.add(store, name, NIGHT), lambda: kinds.rename(store, "memory", name)):
        with pytest.raises(error, match=says):
            act()
    assert [kind.title for kind in kinds.every(store)] == ["Gratitude", "Memory", "Reflection", "A dream"]


def test_the_ninth_is_refused_until_one_is_left_out_and_comes_only_where_there_is_room(store):
    for number in range(5):
        kinds.add(store, f"Kind {number}", NIGHT)
    with pytest.raises(TooManyKinds, match="at most eight"):
        kinds.add(store, "A ninth", NIGHT)
    # Before the five there were three.
    kinds.add(store, "Of last year", NIGHT - timedelta(days=400), NIGHT - timedelta(days=300))
    with pytest.raises(TooManyKinds):
        kinds.add(store, "On and on", NIGHT - timedelta(days=400))
    kinds.leave_out(store, "memory", NIGHT)
    ninth = kinds.add(store, "A ninth", NIGHT)
    with pytest.raises(TooManyKinds):
        kinds.take_up(store, "memory", NIGHT)
    kinds.leave_out(store, ninth.key, NIGHT)
    kinds.take_up(store, "memory", NIGHT)
    assert len(kinds.asked_on(store, NIGHT)) == MOST_KINDS


def test_the_last_one_stays_and_no_kind_ends_before_it_begins(store):
    kinds.leave_out(store, "memory", NIGHT)
    kinds.leave_out(store, "reflection", NIGHT)
    with pytest.raises(UnknownThing, match="at least one kind stays"):
        kinds.leave_out(store, "gratitude", NIGHT)
    with pytest.raises(UnreadableDate, match="before it begins"):
        kinds.add(store, "A dream", NIGHT, NIGHT - timedelta(days=1))
    assert [kind.key for kind in kinds.asked_on(store, NIGHT)] == ["gratitude"]


def test_the_programs_own_word_makes_the_name_the_programs_again(store):
    kinds.rename(store, "memory", "Seen")
    kinds.rename(store, "memory", " Memory ")
    assert kinds.every(store)[1].name == "" and kinds.every(store)[1].in_sentence == "the memory"


def test_a_kind_is_meant_by_its_name_or_how_that_begins(store):
    dream = kinds.add(store, "A dream", NIGHT)
    kinds.add(store, "Gratis", NIGHT + timedelta(days=1))
    kinds.rename(store, "memory", "Größe")
    every = kinds.every(store)

    def meant(word: str) -> str:
        return kinds.meant(every, word, NIGHT).key

    assert [meant(word) for word in ("gratitude", "grat", "A DREAM", "a", "grosse", "reflection", "m", "memory")] == [
        "gratitude", "gratitude", dream.key, dream.key, "memory", "reflection", "memory", "memory"]  # fmt: skip
    for word in ("", "x", "gratitudes", "gr"):
        with pytest.raises(UnknownThing, match="gratitude, Größe, reflection, A dream, Gratis"):
            meant(word)


def test_lines_of_a_kind_that_is_out_of_themes_leave_them_and_come_home(store, clock):
    fill_with_themes(store)
    of_kind = {line.id for line in lines.between(store, *SPAN) if line.kind == "gratitude"}
    before = dict(store.rows("SELECT line_id, theme FROM theme_line"))
    assert of_kind == before.keys()
    kinds.put_in_themes(store, "gratitude", True)
    assert dict(store.rows("SELECT line_id, theme FROM theme_line")) == before
    kinds.put_in_themes(store, "gratitude", False)
    assert store.rows("SELECT * FROM theme_line") == [] and kept_themes.unplaced(store, 9) == []
    writing.write_line(store, NIGHT, "gratitude", "The harbour again.", clock)
    assert placing.place_new(store) == 0 and kept_themes.new_count(store) == 0
    line = writing.write_line(store, NIGHT, "memory", "The harbour again.", clock)
    assert placing.place_new(store) == 1
    themes.rebuild_themes(store, clock)
    assert {row[0] for row in store.rows("SELECT line_id FROM theme_base")} <= {line.id}
    kinds.put_in_themes(store, "gratitude", True)
    themes.rebuild_themes(store, clock)
    assert dict(store.rows("SELECT line_id, theme FROM theme_line")).keys() >= of_kind


def test_where_no_kind_can_be_read_there_is_somewhere_to_write(store, clock):
    with store.writing() as connection:
        connection.execute("UPDATE kind SET key = substr(key || hex(zeroblob(40)), 1, 36)")
        connection.execute("UPDATE kind SET key = x'00' || key WHERE number < 3")
    assert reading.night_page(store, NIGHT, NIGHT).kinds == reading.BEGUN_WITH


def test_a_night_that_asks_for_nothing_asks_for_the_first_of_all(store):
    kinds.add(store, "A dream", NIGHT)
    every = [kind for kind in kinds.every(store) if kind.name]
    assert kinds_asked(every, NIGHT - timedelta(days=1)) == tuple(every)
