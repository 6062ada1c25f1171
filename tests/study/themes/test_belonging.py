"""Which lines belong: asked of the others of their theme; leftovers and what shares a word only are no themes."""

from dataclasses import replace
from datetime import date
from functools import lru_cache

import numpy as np
from diary_lines import SUBJECTS, diary, shuffled
from waiting.when_used import WhenUsed

from keeper.study.one_core import on_one_core
from keeper.study.themes.fitted import Speech
from keeper.study.themes.learning import learn
from keeper.study.themes.nouns import ThemeLine
from keeper.study.themes.rebuilding import rebuild
from keeper.study.themes.weighing.belonging import belonging, by_a_word, counted, likelier, surest

naive_bayes = WhenUsed("sklearn.naive_bayes")


@lru_cache(maxsize=1)
@on_one_core
def learned():
    """300 lines of six subjects, and 60 of their words dealt out at random, half of which begin with "clock"."""
    lines, about = diary(300)
    stray = shuffled([line.text.casefold().strip(".") for line in diary(300, seed=9)[0]], 4)[:60]
    texts = [line.text for line in lines] + [f"clock {text}" if at < 30 else text for at, text in enumerate(stray)]
    docs = [[word.stem for word in doc] for doc in Speech().heard(texts)]
    names = sorted(SUBJECTS)
    labels = np.array([names.index(one) for one in about] + [len(names)] * 30 + [-1] * 30)
    return learn(docs, Speech(), 0), labels


def test_lines_that_share_a_word_and_no_subject_are_no_theme():
    points, labels = learned()
    assert by_a_word(points, labels) == [6]
    found = belonging(points, labels)
    assert set(found.tolist()) - {-1} == set(range(6))
    assert (found[300:330] >= 0).mean() < 0.8 < (found[:300] == labels[:300]).mean()


def test_a_line_of_a_subject_finds_it_though_it_was_loose_and_stays_where_it_was():
    points, labels = learned()
    some = labels.copy()
    some[:300:5] = -1
    found = belonging(points, some)
    assert (found[:300:5] == labels[:300:5]).mean() > 0.9
    assert (found[:300] == labels[:300]).mean() > 0.9


def test_a_line_put_in_a_wrong_theme_is_put_right():
    points, labels = learned()
    wrong = labels.copy()
    wrong[:300:20] = (wrong[:300:20] + 1) % 6
    assert (belonging(points, wrong)[:300:20] == labels[:300:20]).mean() > 0.8


def test_how_sure_a_line_is_does_not_hang_on_itself():
    points, labels = learned()
    place, sure = surest(points, labels)
    alone = labels.copy()
    alone[0] = -1
    place_alone, sure_alone = surest(points, alone)
    assert place[0] == place_alone[0] == labels[0]
    assert abs(sure[0] - sure_alone[0]) < 0.1
    assert sure[:300].mean() > 0.7 and sure[:300].mean() > sure[300:].mean() + 0.2


def test_words_are_weighed_as_by_naive_bayes():
    """The order of themes is that of scikit-learn's MultinomialNB of the words seen twice or more, for lines in no theme."""
    points, labels = learned()
    there = (points.counts > 0).astype(float).tocsr()
    often = np.asarray(there.sum(axis=0)).ravel() > 1
    six = np.where(labels == 6, -1, labels)
    model = naive_bayes.MultinomialNB(alpha=1.0, fit_prior=False).fit(there[six >= 0][:, often], six[six >= 0])
    ours = likelier(points.counts, six)[six < 0].argmax(axis=1)
    assert (ours == model.predict(there[six < 0][:, often])).mean() > 0.8


def test_themes_are_counted_without_gaps():
    assert counted(np.array([4, -1, 9, 4])).tolist() == [0, -1, 1, 0]
    assert counted(np.array([2, 2])).tolist() == [0, 0]


def test_people_marked_hold_no_theme_together():
    lines, about = diary(160)
    named = [replace(line, text=f"{line.text} Frau Petersen laughed.") if at % 2 else line for at, line in enumerate(lines)]
    found = rebuild(named, speech=Speech(names=("Frau Petersen",)))
    subject = dict(zip([line.id for line in named], about, strict=True))
    for theme in found.themes:
        its = [subject[line] for line, _ in theme.members]
        assert max(map(its.count, set(its))) / len(its) > 0.8
    assert found.fitted.place("Frau Petersen").theme is None
    there, without = (found.fitted.place(f"{who}baked a rye loaf with butter") for who in ("Frau Petersen ", ""))
    assert there == without


def test_lines_of_nothing_but_names_are_loose():
    lines = [*diary(120)[0], *(ThemeLine(f"n{i}", "Frau Petersen.", date(2024, 6, 1)) for i in range(10))]
    found = rebuild(lines, speech=Speech(names=("Frau Petersen",)))
    assert {f"n{i}" for i in range(10)} <= set(found.loose)
