"""How wide themes are: narrower only where the lines are not sure of wide ones."""

from functools import lru_cache

import numpy as np
from diary_lines import SUBJECTS, diary, shuffled
from waiting.when_used import WhenUsed

from keeper.study.one_core import on_one_core
from keeper.study.themes.fitted import Speech
from keeper.study.themes.learning import _as_sure, learn
from keeper.study.themes.weighing.belonging import ALONE, belonging, sure_alone, untold
from keeper.study.themes.weighing.looks import LOOSELY, looked
from keeper.study.themes.weighing.seconds import CLOSE, MOST, inner
from keeper.study.themes.weighing.width import SURE, how_sure, narrowed

metrics = WhenUsed("sklearn.metrics")


@lru_cache(maxsize=1)
@on_one_core
def learned():
    lines, about = diary(300)
    docs = [[word.stem for word in doc] for doc in Speech().heard([line.text for line in lines])]
    names = sorted(SUBJECTS)
    return learn(docs, Speech(), 0), np.array([names.index(one) for one in about])


def test_groups_of_which_lines_are_sure_stay_as_wide_as_they_are():
    points, labels = learned()
    assert how_sure(points, labels) >= SURE
    found, looks = narrowed(points, labels)
    assert found is labels and looks is None


@on_one_core
def test_groups_of_which_lines_are_not_sure_are_parted_until_they_are():
    points, labels = learned()
    wide = np.random.default_rng(0).integers(0, 3, len(labels))
    assert how_sure(points, wide) < SURE
    found, looks = narrowed(points, wide)
    assert looks is not None
    assert how_sure(points, found) > how_sure(points, wide)
    assert found.max() > 2


@on_one_core
def test_lines_of_a_subject_come_together_in_most_looks_and_those_dealt_out_do_not():
    points, labels = learned()
    looks, dealt = looked(points), np.random.default_rng(0).permutation(labels)
    assert looks.together(labels).min() > LOOSELY > looks.together(dealt).max()
    again = looks.joined(points.smoothed, len(SUBJECTS))
    assert metrics.adjusted_mutual_info_score(labels, again) > 0.9


@on_one_core
def test_of_many_lines_some_are_looked_at_and_the_others_go_to_the_nearest(monkeypatch):
    points, labels = learned()
    monkeypatch.setattr("keeper.study.themes.weighing.looks.SEEN", 150)
    looks = looked(points)
    assert len(looks.part) == 150
    assert metrics.adjusted_mutual_info_score(labels, looks.joined(points.smoothed, len(SUBJECTS))) > 0.8


def test_a_line_not_sure_of_its_narrow_theme_is_in_none():
    points, labels = learned()
    strayed = labels.copy()
    strayed[:20] = (labels[:20] + 1) % len(SUBJECTS)
    found = sure_alone(points, strayed, ALONE)
    assert (found[:20] == -1).mean() > 0.8 and (found[20:] == labels[20:]).mean() > 0.9


def test_a_group_whose_lines_have_no_leading_words_is_told_by_nothing():
    lines, about = diary(300)
    docs = [[word.stem for word in doc] for doc in Speech().heard([line.text for line in lines])]
    points = learn([*docs, *([f"said{i}", f"done{i}"] for i in range(40))], Speech(), 0)
    names = sorted(SUBJECTS)
    labels = np.array([*(names.index(one) for one in about), *[len(names)] * 40])
    assert untold(points, labels) == [len(names)]


def test_narrow_groups_known_to_be_none_keep_no_line_and_take_none_from_others():
    points, labels = learned()
    found = belonging(points, labels, none=[2])
    assert 2 not in found
    others = labels != 2
    assert (found[others] == labels[others]).mean() > 0.9


def test_what_a_word_holds_together_is_a_narrow_theme_only_where_its_lines_are_sure():
    lines, about = diary(300)
    stray = shuffled([line.text.casefold().strip(".") for line in diary(300, seed=9)[0]], 4)[:30]
    docs = [
        [word.stem for word in doc]
        for doc in Speech().heard([*(line.text for line in lines), *(f"clock {text}" for text in stray)])
    ]
    names = sorted(SUBJECTS)
    labels = np.array([names.index(one) for one in about] + [len(names)] * 30)
    points = learn(docs, Speech(), 0)
    assert len(names) not in belonging(points, labels)
    assert len(names) not in belonging(points, labels, none=[])


def test_of_other_lines_only_so_many_are_near_enough_to_a_second_theme():
    rng = np.random.default_rng(0)
    near, others = rng.uniform(0.1, 0.5, 40).astype(np.float32), rng.uniform(0, 0.5, 2000).astype(np.float32)
    assert (others >= inner(near, others, 11)).mean() <= MOST / 10 + 0.001
    assert inner(near, others[:0], 1) <= CLOSE


def test_narrow_groups_start_afresh_only_where_lines_become_surer():
    points, labels = learned()
    dealt = np.random.default_rng(0).permutation(labels)
    assert _as_sure(points, labels, dealt) and not _as_sure(points, dealt, labels)
    assert not _as_sure(points, np.zeros_like(labels), np.zeros_like(labels))
