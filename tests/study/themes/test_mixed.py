"""Themes whose lines have little in common: what they are called, and which of them are told as such."""

from datetime import date
from itertools import product

import numpy as np

from keeper.study.language.words import content_words
from keeper.study.themes.decisions import decided
from keeper.study.themes.fitted import Speech
from keeper.study.themes.naming import Term, theme_names
from keeper.study.themes.nouns import ThemeLine
from keeper.study.themes.shown import MIXED_SURE, Rows, dressed, middles_of
from keeper.study.themes.weighing.usage import Usage, usage

NIGHT = date(2026, 11, 14)


def test_a_mixed_theme_is_not_said_by_one_bare_word():
    texts = ["Oiled the lever twice tonight", "The lever again", "Wept over a broken lever"] * 2
    docs = [content_words(text) for text in texts]
    terms = {1: [Term(next(word.stem for word in docs[1]), "lever", 1.0)]}
    used = {1: usage(texts, docs, ("en",), texts[0])}
    assert theme_names(terms, None, used)[1] == "lever"
    assert theme_names(terms, None, used, {1})[1] == texts[0]


def test_a_mixed_theme_says_a_fainter_second_thing():
    usages = {1: Usage(frozenset({"lever", "handle"}), shares={"lever": 0.4, "handle": 0.1}, told=True, line="a line")}
    terms = {1: [Term("lever", "lever", 1.0), Term("handle", "handle", 0.5)]}
    assert theme_names(terms, None, usages)[1] == "lever"
    assert theme_names(terms, None, usages, {1})[1] == "lever, handle"


def test_lines_that_name_one_person_are_not_told_as_mixed():
    lines = [
        ThemeLine(f"p{i}", f"{start} Frau Petersen {end}", NIGHT)
        for i, (start, end) in enumerate(product(("Saw", "With", "Told"), ("on the stairs", "about the rent", "and her candle")))
    ]
    others = [ThemeLine(f"o{i}", text, NIGHT) for i, text in enumerate(["The lever slipped", "A lever in the bag", "Oiled the lever"] * 3)]
    sure = sure_of(lines + others, {1: lines, 2: others}, mixed={1, 2})
    assert sure[1] > MIXED_SURE >= sure[2] > 0


def sure_of(lines, themes, mixed):
    """Theme -> how sure it is when dressed, with all its lines at one point."""
    home = {line.id: theme for theme, its in themes.items() for line in its}
    points = np.array([np.eye(2, dtype=np.float32)[home[line.id] - 1] for line in lines])
    words = Speech(names=("Frau Petersen",)).heard_lines(lines)
    rows = Rows([line.id for line in lines], words, points, points, [line.text for line in lines], ("en",))
    found, _ = dressed(rows, decided(rows.ids, points, home, (), points, {}), middles_of(rows, home), 1.0, mixed)
    return {theme.id: theme.sure for theme in found}
