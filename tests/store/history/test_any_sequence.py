"""Whatever is done, taken back to the beginning, leaves what there was; done again, the end."""

from contextlib import suppress
from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from whole_keeper import content

from keeper.actions import opening, people, resting, writing
from keeper.actions.months import goals
from keeper.actions.months import shown as months
from keeper.actions.opening import open_again
from keeper.actions.photos import kept as photos
from keeper.actions.places import known as places
from keeper.actions.places import merging, towns, where_between
from keeper.actions.themes import deciding
from keeper.actions.years import sitting
from keeper.errors import CannotTurn, KeeperError
from keeper.model import KINDS, Photo, Reading, Tracker
from keeper.store import month_pages, trackers, year_pages
from keeper.store.history import turning
from keeper.store.photos import known
from keeper.store.places import merges
from keeper.store.places import named as kept_places

FIRST = date(2026, 11, 8)

WORDS = st.sampled_from(["", "A string broke at the church in Ystad.", "Fog, and a good fire.", "\u0160um mora", "\u5915\u98ef"])
NIGHTS = st.integers(0, 6).map(lambda days: FIRST + timedelta(days=days))
MONTHS = st.sampled_from([date(2026, 10, 1), date(2026, 11, 1)])
NAMES = st.sampled_from(["Ystad", "L\u00fcbeck", "Visby", "Turku"])
NUMBER = st.integers(0, 5)


def one_of(found, number):
    """One of what there is, whichever; whoever asks for none does nothing."""
    if not found:
        raise KeeperError("none")
    return found[number % len(found)]


def place(store, number):
    return one_of(kept_places.every(store), number).id


def photo(store, number):
    return one_of(known.every(store), number).id


def goal(store, month, number):
    return one_of(month_pages.one(store, month).goals, number).id


def new_photo(store, clock, number, night):
    with store.writing():
        made = known.add(store, Photo("", f"{number:064d}", "jpg", 100, latitude=54.1 + number / 3, longitude=1 / 3))
        known.attach(store, night, made.id)


def note(store, number, night, value):
    found = trackers.every(store)
    its = found[0].id if found else trackers.add(store, Tracker("", "sleep", "hours", 0, 24, "h", "higher", FIRST))
    trackers.note(store, [Reading(night, its, value)])


ACTS = {
    "line": (lambda s, c, night, kind, text: writing.write_line(s, night, kind, text, c), NIGHTS, st.sampled_from(KINDS), WORDS),
    "draft": (lambda s, c, night, kind, text: writing.keep_draft(s, night, kind, text or "x", c), NIGHTS, st.sampled_from(KINDS), WORDS),
    "where": (lambda s, c, night, name: towns.set_where(s, night, name, c), NIGHTS, NAMES | st.just("")),
    "span": (lambda s, c, name, over: where_between.say_between(s, FIRST, FIRST + timedelta(3), name, c, FIRST + timedelta(9), over),
             NAMES, st.booleans()),
    "rename": (lambda s, c, n, name: places.rename(s, place(s, n), name), NUMBER, NAMES),
    "position": (lambda s, c, n, typed: places.set_coordinates(s, place(s, n), typed), NUMBER, st.sampled_from(["", "54.1, 13.2"])),
    "on the way": (lambda s, c, n, way: places.set_on_the_way(s, place(s, n), way), NUMBER, st.booleans()),
    "merge": (lambda s, c, a, b: merging.merge(s, place(s, a), place(s, b), c), NUMBER, NUMBER),
    "apart": (lambda s, c, n: merging.take_apart(s, one_of(merges.into(s, place(s, n)), n).id), NUMBER),
    "rest place": (lambda s, c, n: places.rest_place(s, place(s, n)), NUMBER),
    "question": (lambda s, c, month, text: writing.ask_question(s, month, text), MONTHS, WORDS),
    "month words": (lambda s, c, month, text: months.write_words(s, month, text), MONTHS, WORDS),
    "goal": (lambda s, c, month, text: goals.add_goal(s, month, text), MONTHS, WORDS),
    "goal closed": (lambda s, c, month, n, what: goals.close_goal(s, month, goal(s, month, n), what), MONTHS, NUMBER,
                    st.sampled_from(goals.OUTCOMES)),
    "goal out": (lambda s, c, month, n: goals.take_out_goal(s, month, goal(s, month, n)), MONTHS, NUMBER),
    "photo": (lambda s, c, n, night: new_photo(s, c, n, night), NUMBER, NIGHTS),
    "photo out": (lambda s, c, n: photos.take_out(s, photo(s, n)), NUMBER),
    "photo away": (lambda s, c, n, night: photos.take_from(s, night, photo(s, n)), NUMBER, NIGHTS),
    "caption": (lambda s, c, n, text: photos.write_caption(s, photo(s, n), text), NUMBER, WORDS),
    "turn": (lambda s, c, n: photos.turn(s, photo(s, n), 1), NUMBER),
    "chosen": (lambda s, c, n, night: photos.choose_for_night(s, night, photo(s, n), c), NUMBER, NIGHTS),
    "month photo": (lambda s, c, n, month: months.choose_photo(s, month, photo(s, n)), NUMBER, MONTHS),
    "person": (lambda s, c, name: people.add(s, name), NAMES),
    "rest": (lambda s, c, name: people.rest_by_name(s, name), NAMES),
    "nobody": (lambda s, c, name: people.take_out(s, people.named(s, name).id if people.named(s, name) else ""), NAMES),
    "rest span": (lambda s, c, night: resting.rest_span(s, FIRST, night), NIGHTS),
    "setting": (lambda s, c, name: opening.change_settings(s, {"ink": name, "page": name}), st.sampled_from(["sepia", "plum"])),
    "word": (lambda s, c, word: deciding.leave_word_out(s, word, c), NAMES),
    "word in": (lambda s, c, word: deciding.let_word_in(s, word, c), NAMES),
    "answer": (lambda s, c, text, words: sitting.answer(s, 2026, text or "Where?", words), WORDS, WORDS),
    "reworded": (lambda s, c, text, new: sitting.reword_question(s, 2026, text, new), WORDS, WORDS),
    "settled": (lambda s, c, month: sitting.settle_month(s, 2026, month, month + 1), st.integers(1, 12)),
    "closed": (lambda s, c: sitting.close_year(s, 2026),),
    "reached": (lambda s, c, at: year_pages.reach(s, 2026, at), st.integers(1, 12)),
    "reading": (lambda s, c, n, night, value: note(s, n, night, value), NUMBER, NIGHTS,
                st.sampled_from([0.1 + 0.2, 7.5, 1 / 3, 1e-300, 123456789.123456789])),
}  # fmt: skip

SOMETHING = st.sampled_from(sorted(ACTS)).flatmap(lambda name: st.tuples(st.just(name), *ACTS[name][1:]))
WHO = st.integers(0, 1)


def do(store, clock, name, *told):
    with suppress(KeeperError):
        ACTS[name][0](store, clock, *told)


def sound(store):
    assert store.rows("PRAGMA foreign_key_check") == []
    assert store.rows("PRAGMA integrity_check") == [("ok",)]
    assert store.rows("SELECT * FROM undoing") == []


def begin_anew(store):
    """Nothing done yet, whatever is there."""
    with store.unnoted() as connection:
        for table in ("act", "change"):
            connection.execute(f"DELETE FROM {table}")
    return content(store)


def turned_all(stores, which) -> int:
    """Everything turned that can be, by one process and the other in turn."""
    many = 0
    while (number := which(stores[many % 2])) is not None:
        turning.turn(stores[many % 2], number)
        many += 1
    return many


@settings(max_examples=2 * settings().max_examples)
@given(st.lists(st.tuples(WHO, SOMETHING), max_size=14), st.lists(st.tuples(WHO, SOMETHING), max_size=24))
def test_undone_to_the_beginning_and_done_again_by_two_processes(store, folder, clock, before, after):
    with open_again(folder) as other:
        both = (store, other)
        for who, what in before:
            do(both[who], clock, *what)
        beginning = begin_anew(store)
        for who, what in after:
            do(both[who], clock, *what)
        end = content(store)
        many = turned_all(both, turning.next_undone)
        assert content(other) == beginning
        assert turned_all(both, turning.next_redone) == many
        assert content(other) == end
        turned_all(both, turning.next_undone)
        assert content(store) == beginning
        sound(store)


@settings(max_examples=2 * settings().max_examples)
@given(st.lists(SOMETHING, max_size=12), st.lists(st.tuples(st.booleans(), NUMBER, SOMETHING), max_size=14))
def test_any_act_undone_whichever_and_done_again_is_as_it_was(store, clock, before, after):
    """What an act that nothing leans on changed is as before; what was done since is not touched."""
    for what in before:
        do(store, clock, *what)
    begin_anew(store)
    for new, number, what in after:
        if new:
            do(store, clock, *what)
            continue
        numbers = [row[0] for row in store.rows("SELECT number FROM act ORDER BY number")]
        if not numbers:
            continue
        chosen, here = numbers[number % len(numbers)], content(store)
        try:
            turning.turn(store, chosen)
        except CannotTurn as why:
            assert str(why).endswith(".") and content(store) == here
            continue
        turned = content(store)
        turning.turn(store, chosen)
        assert content(store) == here
        turning.turn(store, chosen)
        assert content(store) == turned
    sound(store)
