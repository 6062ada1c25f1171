"""Answers by themselves: those to questions of changed columns are those of asking all; setting them together is `find_patterns`."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from simulated_years import MARKS, MIDDLE, READINGS, one_link

from keeper.study.patterns import find_patterns
from keeper.study.patterns.discovery import false_discovery
from keeper.study.patterns.finding import answers, told

LAGS = (0, 1, 2)


def year(seed: int, nights: int = 130) -> dict:
    return one_link(np.random.default_rng(seed), nights, MIDDLE)


def by_question(its) -> dict:
    return {(one.first, one.second, one.lag): one for one in its}


def test_answers_set_together_are_what_is_found():
    columns = year(1, 365)
    assert told(answers(columns, MARKS, LAGS))[0] == find_patterns(columns, marks=MARKS)
    assert told((), ()) == ((), ())


@given(st.integers(0, 2**31), st.sets(st.sampled_from(READINGS + MARKS), min_size=1, max_size=3))
@settings(max_examples=10, deadline=None)
def test_only_some_columns_are_asked_and_answered_as_among_all(seed, some):
    columns = year(seed)
    every, only = by_question(answers(columns, MARKS, LAGS)), by_question(answers(columns, MARKS, LAGS, some))
    assert only.keys() == {question for question in every if {*question[:2]} & some}
    for question, one in only.items():
        assert one.p == pytest.approx(every[question].p, rel=1e-9) and one.strength == every[question].strength
        assert (one.measure, one.moved_by) == (every[question].measure, every[question].moved_by)


@given(st.integers(0, 2**31), st.sampled_from(READINGS))
@settings(max_examples=8, deadline=None)
def test_an_answer_hangs_on_its_two_columns_only(seed, changed):
    columns = year(seed)
    others = {**columns, changed: year(seed + 1)[changed]}
    before, after = by_question(answers(columns, MARKS, LAGS)), by_question(answers(others, MARKS, LAGS))
    for question in before.keys() & after.keys():
        if changed not in question:
            assert before[question].p == pytest.approx(after[question].p, rel=1e-9)


def test_questions_beside_count_among_all():
    its = answers(year(2, 365), MARKS, LAGS)
    alone, _ = told(its)
    among, qs = told(its, [1e-12, 0.9])
    assert {one.asked for one in among} == {len(its) + 2} and len(alone) == len(its)
    expected = false_discovery(np.array([*(one.p for one in its), 1e-12, 0.9]))
    assert qs == pytest.approx(tuple(expected[-2:])) and sorted(one.q for one in among) == pytest.approx(sorted(expected[:-2]))


def test_progress_is_told_and_may_break_it_off():
    heard = []
    answers(year(3), MARKS, LAGS, None, heard.append)
    assert heard == sorted(heard) and heard[0] == 0 and heard[-1] > 0.9

    def stop(share):
        raise InterruptedError

    with pytest.raises(InterruptedError):
        answers(year(3), MARKS, LAGS, None, stop)
