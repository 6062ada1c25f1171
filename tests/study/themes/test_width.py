"""How wide themes are: narrower only where the lines are not sure of wide ones."""

from functools import lru_cache

import numpy as np
from diary_lines import SUBJECTS, diary, shuffled

from keeper.study.one_core import on_one_core
from keeper.study.themes.fitted import Speech
from keeper.study.themes.learning import _as_sure, learn
from keeper.study.themes.weighing.belonging import belonging
from keeper.study.themes.weighing.found_again import NARROW_LEAST, found_again
from keeper.study.themes.weighing.seconds import CLOSE, MOST, inner
from keeper.study.themes.weighing.width import SURE, how_sure, narrowed


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
    assert narrowed(points, labels) is labels


@on_one_core
def test_groups_of_which_lines_are_not_sure_are_parted_until_they_are():
    points, labels = learned()
    wide = np.random.default_rng(0).integers(0, 3, len(labels))
    assert how_sure(points, wide) < SURE
    found = narrowed(points, wide)
    assert how_sure(points, found) > how_sure(points, wide)
    assert found.max() > 2


@on_one_core
def test_what_is_found_again_among_as_many_groups_is_more_than_what_is_dealt_out():
    points, labels = learned()
    dealt = np.random.default_rng(0).permutation(labels)
    true, chance = (found_again(points, one, parted=len(SUBJECTS)) for one in (labels, dealt))
    assert true.min() > NARROW_LEAST > chance.max()


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
