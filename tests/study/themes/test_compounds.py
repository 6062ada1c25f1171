"""Words written together: parted where their parts are words of the lines, left alone where they are not."""

import random
from collections import Counter
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lines_abroad import german_diary

from keeper.study.language.words import content_words
from keeper.study.themes.compounds import parted, parts, with_parts
from keeper.study.themes.fitted import Speech
from keeper.study.themes.nouns import ThemeLine
from keeper.study.themes.rebuilding import rebuild, redraw

SEEN = {"pilz": 4, "suppe": 3, "stein": 2, "essen": 5, "hafen": 1, "konzert": 2, "brot": 6}


@pytest.mark.parametrize(
    ("stem", "found"),
    [
        ("pilzsuppe", ("pilz", "suppe")), ("steinpilz", ("stein", "pilz")), ("pilzkorb", ("pilz",)),
        ("brotzeit", ("brot",)), ("klavierkonzert", ("konzert",)), ("konzertspilz", ("konzert", "pilz")),
        ("vergessen", ()), ("hafenmole", ()), ("pilz", ()), ("laterne", ()),
    ],
)  # fmt: skip
def test_a_word_is_parted_where_its_parts_stand_by_themselves(stem, found):
    assert parts(stem, SEEN) == found


@given(st.lists(st.lists(st.text("abn", min_size=1, max_size=12), max_size=5), max_size=12))
def test_parting_loses_no_line_and_makes_only_words_of_the_lines(docs):
    seen = Counter(stem for doc in docs for stem in set(doc))
    after = parted(docs, seen)
    assert list(map(bool, after)) == list(map(bool, docs))
    assert {stem for doc in after for stem in doc} <= seen.keys()


def test_parts_come_in_the_persons_spelling():
    docs = [content_words(text, languages=("de",)) for text in ("Viele Pilze.", "Nur Pilze hier.", "Warme Pilzsuppe.")]
    assert [word.spelling for word in with_parts(docs)[2]] == ["Warme", "Pilzsuppe", "Pilze"]


def themes_of(rows, seed):
    lines = [ThemeLine(f"{subject} {at}", text, date(2024, 1, 1)) for at, (subject, text) in enumerate(rows)]
    random.Random(seed).shuffle(lines)
    return lines, rebuild(lines, speech=Speech(("de", "en")))


@pytest.mark.parametrize("seed", [1, 2])
def test_thirteen_nights_of_mushrooms_are_a_theme_of_mushrooms(seed):
    found = themes_of(german_diary(), seed)[1].themes
    (mushrooms,) = [one for one in found if any(line.startswith("mushrooms") for line, _ in one.members)]
    assert len(mushrooms.members) == 13
    assert mushrooms.name.startswith("Pilze")


def test_a_new_line_of_a_word_written_together_finds_its_theme():
    lines, found = themes_of(german_diary(), 1)
    theme = next(one for one in found.themes if one.name.startswith("Pilze"))
    assert found.fitted.place("Pilzomelett mit Waldpilzen.").theme == theme.id
    again = redraw(found, lines)
    assert theme.name in [one.name for one in again.themes]
