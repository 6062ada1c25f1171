"""What words are of, and themes by their subjects."""

from functools import lru_cache

import numpy as np
import pytest
from diary_lines import SUBJECTS, diary

from keeper.shipped import resource
from keeper.study.one_core import on_one_core
from keeper.study.themes.fitted import Speech
from keeper.study.themes.learning import learn
from keeper.study.themes.weighing.fields import meanings
from keeper.study.themes.weighing.subjects import of_subjects, one_subject, telling, without_manner
from keeper.study.tongues.table import background

OF_SUBJECTS = {
    "en": "soup rain piano dog doctor letter money church garden train", "de": "Suppe Regen Hund Arzt Geld Kirche",
    "fr": "soupe pluie chien argent église", "ru": "суп дождь собака врач деньги",
}  # fmt: skip
OF_MANNER = {
    "en": "asked answered seventeen yesterday window walked grey listened", "de": "fragen Tisch fünf Mann",
    "fr": "demander répondre fenêtre gris", "ru": "спросить ответить семь окно",
}  # fmt: skip


def leaning(language, text):
    rows = background(language).rows
    stems = [word.stem for word in Speech((language,)).words(text) if word.stem in rows]
    assert len(stems) > 2
    return meanings(background(language).vectors[[rows[stem] for stem in stems]]).leaning


@pytest.mark.parametrize("language", sorted(OF_SUBJECTS))
def test_words_of_a_subject_are_told_from_those_of_a_manner_in_any_language(language):
    assert leaning(language, OF_SUBJECTS[language]).mean() > 0.1
    assert leaning(language, OF_MANNER[language]).mean() < 0


def test_an_unknown_word_leans_nowhere():
    assert meanings(np.zeros((2, background("en").vectors.shape[1]), np.float32)).leaning.tolist() == [0, 0]
    assert meanings(np.zeros((2, 1), np.float32)).leaning.tolist() == [0, 0]


def test_every_field_has_words_that_the_table_knows():
    lines = [line for line in resource("subjects.txt").read_text(encoding="utf-8").splitlines() if ": " in line and line[0] != "#"]
    names = [line.partition(":")[0] for line in lines]
    assert len(names) == len(set(names)) > 60
    for line in lines:
        known = [word for word in Speech().words(line.partition(":")[2]) if word.stem in background("en").rows]
        assert known, line


@lru_cache(maxsize=1)
@on_one_core
def learned():
    """300 lines of six subjects, then 40 that say a number, a time or how something was asked, 30 about sleep, ten of none."""
    lines, about = diary(300)
    texts = [line.text for line in lines]
    asked = ["Asked twice, answered nothing", "He asked the question again", "An answer to my question", "She asked, I answered"]
    slept = ["Slept until noon", "Awake from three, asleep by five", "Asleep at nine", "No sleep, awake all night", "Slept badly"]
    texts += [f"{asked[at % 4]} {'abcdefgh'[at % 8]}ox" for at in range(40)] + [slept[at % 5] for at in range(30)] + ["Nothing at all"] * 10
    names = sorted(SUBJECTS)
    labels = np.array([names.index(one) for one in about] + [len(names)] * 40 + [-1] * 40)
    return learn([[word.stem for word in doc] for doc in Speech().heard(texts)], Speech(), 0), labels


def test_what_is_told_by_manner_goes_and_the_subjects_stay():
    found = of_subjects(learned()[0], learned()[1], 10)
    assert set(found[300:340]) == {-1}
    assert set(range(6)) <= set(found[:300].tolist())
    assert (found[:300] == learned()[1][:300]).mean() > 0.7
    wide = without_manner(*learned())
    assert set(wide[300:340]) == {-1}
    assert (wide[:300] == learned()[1][:300]).all()


def test_a_field_that_many_loose_lines_speak_of_alone_becomes_a_theme():
    found = of_subjects(learned()[0], learned()[1], 10)
    new = set(found[340:370].tolist())
    assert len(new) == 1
    assert new.isdisjoint({-1, *range(6)})
    assert set(found[370:]) == {-1}
    assert set(of_subjects(learned()[0], learned()[1], 31)[340:370]) == {-1}


def test_a_line_without_a_word_of_the_subject_is_loose():
    points, labels = learned()
    strange = labels.copy()
    strange[370:] = 0
    assert set(of_subjects(points, strange, 10)[370:]) == {-1}


def test_two_themes_of_one_subject_are_one():
    points, labels = learned()
    (whole,) = {theme for theme in of_subjects(points, labels, 10)[:300][labels[:300] == 2].tolist() if theme >= 0}
    halves = labels.copy()
    halves[np.flatnonzero(labels == 2)[::2]] = 50
    found = of_subjects(points, halves, 10)
    assert len({theme for theme in found[labels == 2].tolist() if theme >= 0}) == 1
    assert (found[labels == 2] >= 0).sum() == (of_subjects(points, labels, 10)[labels == 2] == whole).sum()


def test_a_loose_line_that_says_what_leads_a_theme_goes_to_it():
    points, labels = learned()
    of_theme = of_subjects(points, labels, 10) == 2
    there = points.counts.toarray() > 0
    (lead, *_), _ = telling(points.counts.sign(), of_theme)
    some = np.flatnonzero(of_theme & there[:, lead])[:6]
    loose = labels.copy()
    loose[some] = -1
    assert set(of_subjects(points, loose, 10)[some]) == {2}


@on_one_core
def test_a_loose_line_that_is_sure_of_a_theme_and_says_what_is_not_far_from_it_goes_to_it():
    lines, about = diary(300)
    more = ["Potatoes and cheese for dinner"] * 3 + ["Quiet again, almost long"] * 3
    points = learn([[word.stem for word in doc] for doc in Speech().heard([line.text for line in lines] + more)], Speech(), 0)
    labels = np.array([sorted(SUBJECTS).index(one) for one in about] + [-1] * 6)
    assert of_subjects(points, labels, 10)[300:].tolist() == [0] * 3 + [-1] * 3


def test_the_subject_of_words_and_the_plainest_of_them():
    weights = {"slept": 1.0, "pattern": 0.5, "awak": 0.4, "clock": 0.3, "sleep": 0.1}
    subject, plainest = one_subject(weights, Speech().tables())
    assert subject == ["slept", "awak", "sleep"]
    assert plainest == "sleep"
    assert one_subject({"xyzzy": 1.0}, Speech().tables()) == ([], "")
    assert one_subject(weights, {}) == ([], "")


def test_words_that_stand_out_by_the_published_log_odds():
    # Of two groups of two words each: (y + a) / (n + a0 - y - a) with a = 200 y / n, by hand.
    there = np.zeros((40, 2), np.float32)
    there[:20, 0], there[20:, 1] = 1, 1
    from scipy.sparse import csr_matrix

    words, weight = telling(csr_matrix(there), np.arange(40) < 20)
    assert words.tolist() == [0]
    assert weight.tolist() == [1]
    words, _ = telling(csr_matrix(there), np.arange(40) % 2 == 0)
    assert words.tolist() == []
