"""Finding lines by their words."""

import re
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from keeper.model import KINDS, Moment, Place
from keeper.store import lines, nights, resting, search
from keeper.store.folding import bare, folded, folded_or_none
from keeper.store.places import named as places
from keeper.store.search import Sought, find, marked

NIGHT = date(2026, 11, 14)
MOMENT = Moment(datetime(2026, 11, 14, 20, tzinfo=UTC), 120, "Europe/Riga")
ANY = st.text(max_size=40)
KEPT = st.text(st.characters(exclude_categories=["Cc", "Cs"]), min_size=1, max_size=60).filter(str.strip)


def keep(store, text: str, night: date = NIGHT, kind: str = "memory") -> None:
    """Keep a line."""
    lines.keep(store, night, kind, text, MOMENT)


def answers(store, typed: str = "", **narrowed) -> list[str]:
    """The texts that answer, in order."""
    return [found.line.text for found in find(store, Sought(typed, **narrowed))]


@pytest.fixture
def harbour(store):
    """A keeper with a few lines at two places."""
    for name, first in (("Riga", 0), ("L\u00fcbeck", 5)):
        place = places.add(store, Place("", name))
        for day in range(first, first + 5):
            nights.set_place(store, NIGHT - timedelta(days=day), place.id, "said", "2026-11-14T20:00:00.000000Z")
    keep(store, "The ferry was late; the tuner was later.")
    keep(store, "Late ferries, early coffee.", NIGHT - timedelta(days=2), "gratitude")
    keep(store, "Tuned the upright: its felt was moth food.", NIGHT - timedelta(days=6))
    keep(store, "What did the sea do? It waited, ferry or no ferry.", NIGHT - timedelta(days=7), "reflection")
    return store


@given(ANY, st.booleans())
@example('"', False)
@example('""', True)
@example("! " * 3000, False)
@example("!" * 60_000, False)
@example("\ud800 \x00 *", False)
@example("NEAR( a:b ^c -d {e} OR", True)
@example("w " * 3000, True)
@example("\u65e5" * 3000, False)
def test_whatever_is_typed_no_error_comes(harbour, typed, best):
    sought = Sought(typed, best_first=best)
    found = find(harbour, sought)
    assert len(found) == search.count(harbour, sought)
    assert search.nights(harbour, sought) == {one.line.night for one in found}


@given(KEPT)
@example("na\u00efve \u00c6r\u00f8 \u0141\u00f3d\u017a stra\u00dfe \u0130stanbul")
@example("\u0928\u092e\u0938\u094d\u0924\u0947 \u0e2a\u0e27\u0e31\u0e2a\u0e14\u0e35 \u65e5\u8a18 \ud55c\uad6d\uc5b4")
@example("\U0001f3b9\U0001f3bb tuned \u00bd way")
@example("it's \u201cquoted\u201d _so_ a_b 50% c\\d \u2019tis")
def test_every_word_of_a_line_finds_it(store, text):
    keep(store, text)
    for piece in text.split():
        # A quote mark groups words; it is not itself looked for.
        if piece.replace('"', ""):
            assert text in answers(store, piece), piece
    assert text in answers(store, text) or not text.replace('"', "").strip()


@given(st.text("abcdefghij\u00e9\u00f6\u00f8", min_size=2, max_size=12), st.data())
def test_a_prefix_finds_and_an_exact_word_does_not(store, word, data):
    keep(store, f"Said {word}zz again.")
    assert answers(store, word[: data.draw(st.integers(1, len(word)))])
    assert not answers(store, f'"{word}"')
    assert answers(store, f'"{word}zz again"')
    assert not answers(store, f'"again {word}zz"')


def test_capitals_and_accents_do_not_matter(harbour):
    keep(harbour, "\u00c6r\u00f8 was n\u00e6r \u0141\u00f3d\u017a, said Zo\u00eb.", NIGHT - timedelta(days=9))
    for typed in ("aero", "\u00e6r\u00d8", "lodz", "ZOE", "zoe\u0308", "naer"):
        assert len(answers(harbour, typed)) == 1, typed


def test_scripts_without_spaces_are_found_within(harbour):
    keep(harbour, "\u4eca\u65e5\u306f\u6d77\u3067\u6cf3\u3044\u3060\u3002", NIGHT - timedelta(days=9))
    keep(harbour, "\u0e27\u0e31\u0e19\u0e19\u0e35\u0e49\u0e27\u0e48\u0e32\u0e22\u0e19\u0e49\u0e33", NIGHT - timedelta(days=10))
    assert len(answers(harbour, "\u6d77")) == 1
    assert len(answers(harbour, "\u6cf3\u3044\u3060")) == 1
    assert len(answers(harbour, "\u0e27\u0e48\u0e32\u0e22")) == 1
    assert answers(harbour, "\u5c71") == []


def test_signs_without_letters_are_found(harbour):
    keep(harbour, "Tuned \U0001f3b9 twice; 50% off & 100_000 left :-)", NIGHT - timedelta(days=9))
    for typed in ("\U0001f3b9", "%", "&", ":-)", "_", "tuned \U0001f3b9", "100_000"):
        assert len(answers(harbour, typed)) == 1, typed
    assert answers(harbour, "\U0001f3bb") == []


def test_all_words_must_be_there_in_any_order(harbour):
    assert answers(harbour, "late ferr") == answers(harbour, "ferr late")
    assert len(answers(harbour, "late ferr")) == 2
    assert answers(harbour, "late moth") == []


def test_a_quote_that_is_still_open_is_no_quote_yet(harbour):
    assert answers(harbour, '"ferry was l') == answers(harbour, "ferry was l") != []
    assert answers(harbour, '"ferry was l"') == []
    assert len(answers(harbour, '"ferry was late"')) == 1


def test_newest_first_unless_the_best_is_wanted(harbour):
    found = [one.line.night for one in find(harbour, Sought("ferr"))]
    assert found == sorted(found, reverse=True)
    assert answers(harbour, "ferry", best_first=True)[0].startswith("What did the sea do?")
    assert sorted(answers(harbour, "ferry", best_first=True)) == sorted(answers(harbour, "ferry"))


def test_controls_narrow_with_words_and_without(harbour):
    riga, lubeck = places.named(harbour, "riga"), places.named(harbour, "lubeck")
    assert len(answers(harbour)) == 4
    assert [len(answers(harbour, kinds=(kind,))) for kind in KINDS] == [1, 2, 1]
    assert len(answers(harbour, places=(riga.id,))) == len(answers(harbour, places=(lubeck.id,))) == 2
    assert len(answers(harbour, "ferr", places=(lubeck.id,))) == 1
    assert len(answers(harbour, "ferr", kinds=("gratitude",))) == 1
    assert len(answers(harbour, first=NIGHT - timedelta(days=2))) == 2
    assert len(answers(harbour, "ferr", last=NIGHT - timedelta(days=2))) == 2
    assert answers(harbour, first=NIGHT, last=NIGHT - timedelta(days=1)) == []


@given(st.sampled_from(["", "ferr", "late", "%", "the", "zzz"]), st.sampled_from(["", *KINDS]),
       st.none() | st.integers(0, 9), st.none() | st.integers(0, 9), st.booleans())  # fmt: skip
def test_the_count_is_of_all_that_answer(harbour, typed, kind, first, last, at_riga):
    sought = Sought(
        typed,
        kind,
        places.named(harbour, "Riga").id if at_riga else "",
        first=None if first is None else NIGHT - timedelta(days=first),
        last=None if last is None else NIGHT - timedelta(days=last),
    )
    assert search.count(harbour, sought) == len(find(harbour, sought))


def test_places_come_with_the_lines(harbour):
    assert [one.place_name for one in find(harbour, Sought("tuned"))] == ["L\u00fcbeck"]
    keep(harbour, "Tuned nowhere.", NIGHT - timedelta(days=40))
    assert [one.place_name for one in find(harbour, Sought("nowhere"))] == [""]


def test_a_resting_line_is_still_found_and_said_to_rest(harbour):
    (moth,) = find(harbour, Sought("moth"))
    resting.rest(harbour, "line", moth.line.id)
    assert [one.line.resting for one in find(harbour, Sought("moth"))] == [True]


def test_pages_of_answers_follow_one_another(harbour):
    pages = [find(harbour, Sought(), limit=1, skip=n)[0].line.text for n in range(4)]
    assert pages == answers(harbour)
    assert find(harbour, Sought(), limit=1, skip=4) == ()


def test_a_changed_line_is_found_by_its_new_words_only(harbour):
    keep(harbour, "The boat was punctual.")
    assert len(answers(harbour, "punctual")) == 1
    assert answers(harbour, "tuner") == []


@given(KEPT, ANY)
def test_marks_lie_within_the_text(text, typed):
    for start, end in marked(text, typed):
        assert 0 <= start < end <= len(text)


@pytest.mark.parametrize(
    ("text", "typed", "shown"),
    [
        ("The ferry, the FERRIES.", "ferr", ["ferry", "FERRIES"]),
        ("A ferry, ferries.", '"ferry"', ["ferry"]),
        ("\u00c6r\u00f8 and aero", "aero", ["\u00c6r\u00f8", "aero"]),
        ("old told", "old", ["old"]),
        ("\u4eca\u65e5\u306f\u6d77\u3067", "\u6d77", ["\u6d77"]),
        ("late ferry", "ferr late", ["late", "ferry"]),
        ("a ferry was late", '"ferry was"', ["ferry was"]),
        ("nothing here", "moth", []),
    ],
)
def test_what_was_sought_is_marked(text, typed, shown):
    assert [text[start:end] for start, end in marked(text, typed)] == shown


@given(st.text(st.characters(max_codepoint=127)))
def test_a_name_of_plain_letters_is_bared_as_any_other(text):
    # The stroke goes the way of all scripts, and leaves an o at the end.
    assert bare(text) == " ".join(bare(text + " \u00f8").split()[:-1])


@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=40))
def test_folding_twice_is_folding_once(text):
    assert re.sub(" +", " ", folded(folded(text))) == re.sub(" +", " ", folded(text))
    assert folded_or_none(text) in (None, folded(text))
