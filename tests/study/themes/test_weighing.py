"""What was found is weighed: leftovers, second themes, and the words of names."""

import random
from dataclasses import replace
from functools import lru_cache

import numpy as np
from diary_lines import diary, shuffled

from keeper.study.language.words import content_words
from keeper.study.one_core import on_one_core
from keeper.study.themes.fitted import Fitted, Middles, Speech
from keeper.study.themes.learning import grouped, learn
from keeper.study.themes.naming import Term, known_by, theme_names
from keeper.study.themes.nouns import NONE_EARLIER, TakeOut, ThemeLine
from keeper.study.themes.rebuilding import rebuild, redraw
from keeper.study.themes.weighing.found_again import found_again, usual
from keeper.study.themes.weighing.seconds import beside, second_of
from keeper.study.themes.weighing.usage import LONGEST, Usage, shortened, usage


@lru_cache(maxsize=2)
def both_subjects():
    """240 lines of six subjects, and six that are half about the sea, half about bread; with their themes."""
    lines, _ = diary(240)
    two = ["Swam in cold water, baked a rye loaf", "Flour and dough before the tide and waves", "Butter and bread on the jetty by the sea"]
    lines = [*lines, *(ThemeLine(f"two{i}", two[i % 3], lines[i].night) for i in range(6))]
    return lines, rebuild(lines)


@lru_cache(maxsize=1)
@on_one_core
def learned(count=240):
    lines, about = diary(count)
    docs = [[word.stem for word in doc] for doc in Speech().heard([line.text for line in lines])]
    return learn(docs, Speech(), 0), [line.id for line in lines], about


# leftovers


def test_a_subject_is_found_again_and_a_random_set_is_not():
    points, _, about = learned()
    names = sorted(set(about))
    true = np.array([names.index(one) for one in about])
    chance = np.array(random.Random(3).sample(true.tolist(), len(true)))
    assert found_again(points, true).min() > 0.6
    assert found_again(points, chance).max() < 0.35
    assert usual(found_again(points, true), true) > 2 * usual(found_again(points, chance), chance)


def test_a_leftover_among_themes_is_dissolved():
    lines, _ = diary(240)
    stray = shuffled([line.text for line in diary(240, seed=9)[0]], 4)[:30]
    mixed = [f"Lantern {text}" for text in stray]
    found = rebuild([*lines, *(ThemeLine(f"m{i}", text, lines[0].night) for i, text in enumerate(mixed))])
    sure = [theme for theme in found.themes if theme.sure > 0.35]
    for theme in sure:
        assert sum(line.startswith("m") for line, _ in theme.members) < len(theme.members) / 2


# second themes


def test_a_line_of_two_subjects_stands_in_both():
    lines, found = both_subjects()
    theme_of = {line: theme.id for theme in found.themes for line, _ in theme.members}
    also = {line: theme.id for theme in found.themes for line, _ in theme.also}
    assert sum(f"two{i}" in also for i in range(6)) >= 2
    assert all(theme_of[line] != theme for line, theme in also.items())
    # Of those about one thing few stand in two.
    assert sum(line.id in also for line in lines if not line.id.startswith("two")) < 0.25 * len(lines)


def test_a_theme_is_known_by_its_subject():
    terms = [Term("wrist", "wrist", 1.0), Term("timer", "timer", 0.5)]
    assert known_by(terms, Usage(subject=("wrist",))) == {"wrist"}
    assert known_by(terms, Usage()) == known_by(terms, None) == {"wrist", "timer"}


def test_what_stands_in_a_theme_second_has_a_word_that_it_is_known_by(monkeypatch):
    lines, _ = both_subjects()
    monkeypatch.setattr("keeper.study.themes.shown.known_by", lambda *_: frozenset({"rye"}))
    found = rebuild(lines)
    said = {line.id: line.text.casefold() for line in lines}
    assert all("rye" in said[line] for theme in found.themes for line, _ in theme.also)


def test_where_a_line_was_let_out_it_is_not_second_either():
    lines, found = both_subjects()
    line, theme = next((line, theme.id) for theme in found.themes for line, _ in theme.also)
    again = redraw(found, lines, decisions=[TakeOut(line, theme)])
    assert not any(line == other for one in again.themes if one.id == theme for other, _ in (*one.members, *one.also))


def test_second_is_what_is_reached_and_nearest():
    middles = Middles((5, 7, 9), np.eye(3, dtype=np.float32), np.zeros(3), np.array([0.4, 0.5, 0.6]))
    assert second_of(np.array([0.7, 0.6, 0.5]), np.array([0.7, 0.6, 0.5]), 0, middles) == 1
    assert second_of(np.array([0.7, 0.6, 0.5]), np.array([0.7, 0.6, 0.5]), 0, middles, barred={7}) == -1
    assert second_of(np.array([0.7, 0.6, 0.5]), np.array([0.7, 0.4, 0.5]), 0, middles) == -1
    assert second_of(np.array([0.7, 0.6, 0.5]), np.array([0.7, 0.6, 0.5]), -1, middles) == -1


def test_loose_lines_are_offered_the_nearest():
    middles = Middles((5, 7), np.eye(2, dtype=np.float32), np.zeros(2), np.ones(2))
    rows = np.array([[0.9, 0.1], [0.2, 0.8], [-1, -1]], np.float32)
    second, nearest = beside(["a", "b", "c"], rows, rows, {}, middles, {"a": {5}})
    assert second == {} and nearest == {"a": 7, "b": 7}


def test_a_kept_result_places_a_line_in_two_themes():
    _, found = both_subjects()
    place, kept = (one.place("Swam in cold water, baked a rye loaf") for one in (found.fitted, Fitted.from_bytes(found.fitted.to_bytes())))
    assert (place.theme, place.second) == (kept.theme, kept.second)


# names


def told(texts, *spellings, languages=("en",)):
    """The name of a theme of these lines, with terms of falling weight."""
    docs = [content_words(text, languages=languages) for text in texts]
    stems = {word.spelling: word.stem for doc in docs for word in doc}
    terms = [Term(stems[spelling], spelling, 1 - 0.1 * i) for i, spelling in enumerate(spellings)]
    return theme_names({1: terms}, None, {1: usage(texts, docs, languages, texts[0])})[1]


def test_what_is_done_is_no_name():
    texts = ["I swam in the sea again", "We swam far from the jetty", "Slowly swam round the jetty in a cold sea"] * 3
    assert told(texts, "swam", "sea", "Slowly", "jetty") == "cold sea"


def test_of_a_subject_that_is_only_done_the_plainest_word_is_the_name():
    texts = ["Slept under the pattern of lyres", "Awake until the clock struck", "Slept and slept, no sleep before"] * 3
    docs = [content_words(text) for text in texts]
    terms = {1: [Term("slept", "slept", 1.0), Term("pattern", "pattern", 0.6), Term("sleep", "sleep", 0.2)]}
    used = usage(texts, docs, ("en",), texts[0])
    assert theme_names(terms, None, {1: used})[1] == "pattern"
    known = replace(used, subject=("slept", "sleep"), plainest="sleep")
    assert theme_names(terms, None, {1: known})[1] == "sleep"


def test_nothing_beside_the_subject_comes_into_the_name():
    texts = ["The soup by the window", "A soup, and the bread at the window", "In the window the bread"] * 3
    docs = [content_words(text) for text in texts]
    terms = {1: [Term("soup", "soup", 1.0), Term("window", "window", 0.9), Term("bread", "bread", 0.8)]}
    known = replace(usage(texts, docs, ("en",), texts[0]), subject=("soup", "bread"), plainest="soup")
    assert theme_names(terms, None, {1: known})[1] == "soup, bread"


def test_a_measure_alone_is_no_subject_to_name_a_theme_by():
    texts = ["The jetty at nine degrees", "From the jetty, ten degrees", "Degrees, four, by the jetty"] * 2
    docs = [content_words(text) for text in texts]
    terms = {1: [Term("degre", "degrees", 1.0), Term("jetti", "jetty", 0.5)]}
    used = replace(usage(texts, docs, ("en",), texts[0]), subject=("degre",), plainest="degre")
    assert theme_names(terms, None, {1: used})[1] == "jetty"


def test_where_few_lines_have_the_leading_word_a_fainter_one_of_the_subject_is_said_too():
    texts = ["A class at noon", "To the school at noon", "Nothing at the school", "By the class and the school", "At noon", "By noon"]
    docs = [content_words(text) for text in texts]
    terms = {1: [Term("class", "class", 1.0), Term("school", "school", 0.2)]}
    used = replace(usage(texts, docs, ("en",), texts[0]), subject=("class", "school"), plainest="class")
    assert theme_names(terms, None, {1: used})[1] == "class, school"
    many = replace(used, shares={"class": 0.6, "school": 0.6})
    assert theme_names(terms, None, {1: many})[1] == "class"


def test_a_person_that_half_the_lines_name_is_the_name():
    texts = ["Late in the day Henning wrote a letter", "With Henning on the pier", "A letter from Henning"] * 3
    assert told(texts, "letter", "wrote", "Henning") == "Henning"


def test_a_pair_that_is_said_as_one_is_the_name():
    texts = ["She cut the brown cheese thin", "The brown cheese ran out", "Waffles with the brown cheese"] * 2
    assert told(texts, "cheese", "brown", "Waffles") == "brown cheese"


def test_german_nouns_are_things():
    texts = ["Ich sammelte Pilze im Wald", "Wir fanden viele Pilze", "Heute Pilze gebraten, im Wald geschlafen"] * 2
    assert told(texts, "sammelte", "Pilze", "gebraten", "Wald", languages=("de",)) == "Pilze, Wald"


def test_where_no_word_fits_a_line_stands_for_the_theme():
    texts = ["Hurried home again and slept until the evening bell", "Laughed", "Wept", "Waited"] * 2
    assert told(texts, "Hurried", "slept") == shortened(texts[0])


def test_lines_are_cut_between_words():
    cut = shortened("a quiet evening with nothing to be done, " * 3)
    assert len(cut) <= LONGEST + 1 and cut.endswith("\u2026") and not cut[:-1].endswith((" ", ","))
    assert shortened("short\n one") == "short one" and shortened("\U0001f600") == ""


# order


def test_order_of_lines_and_languages_changes_nothing_but_numbers():
    lines, _ = both_subjects()
    mixed = random.Random(5).sample(lines, len(lines))
    speech = Speech(("en", "de"))
    one, other = rebuild(lines, speech=speech), rebuild(mixed, speech=replace(speech, languages=("de", "en")))
    assert {(theme.name, frozenset(theme.members), frozenset(theme.also)) for theme in one.themes} == {
        (theme.name, frozenset(theme.members), frozenset(theme.also)) for theme in other.themes
    }


def test_groups_do_not_hang_on_a_seed_alone():
    points, ids, _ = learned()
    assert (grouped(ids, points, NONE_EARLIER, 0).labels == grouped(ids, points, NONE_EARLIER, 0).labels).all()
