"""A fresh start looks at all lines again, and moves only those that were clearly misplaced."""

import numpy as np
import pytest

from keeper.study.themes.weighing.staying import stayed


def lines_at(*degrees):
    """Lines on a circle."""
    turned = np.radians(degrees)
    return np.stack([np.cos(turned), np.sin(turned)], axis=1).astype(np.float32)


def staying(rows, labels, before):
    return stayed(rows, labels, before, least=3)


ONE, OTHER = [0, 1, 2, 3], [90, 91, 92, 93]
APART = np.repeat([0, 1], 4)


@pytest.mark.parametrize(("at", "stays"), [(50, True), (85, False)])
def test_a_line_on_the_border_stays_and_one_misplaced_moves(at, stays):
    labels = staying(lines_at(*ONE, *OTHER, at), np.append(APART, 1), np.append(APART, 0))
    assert labels.tolist() == [*APART, 0 if stays else 1]


def test_a_line_that_would_be_loose_stays():
    labels = staying(lines_at(*ONE, *OTHER, 40), np.append(APART, -1), np.append(APART, 0))
    assert labels[-1] == 0


def test_numbers_of_groups_say_nothing_of_earlier_ones():
    labels = staying(lines_at(*ONE, *OTHER, 50), np.append(1 - APART, 0), np.append(APART, 0))
    assert labels.tolist() == [1, 1, 1, 1, 0, 0, 0, 0, 1]


def test_new_lines_and_loose_ones_go_where_they_are_found():
    labels = staying(lines_at(*ONE, *OTHER, 45, 46), np.append(APART, [1, -1]), np.append(APART, [-1, -1]))
    assert labels[-2:].tolist() == [1, -1]


def test_a_theme_that_is_no_more_holds_nobody():
    found = np.zeros(8, int)
    assert staying(lines_at(*ONE, 10, 11, 12, 13), found, APART).tolist() == found.tolist()


def test_themes_that_came_together_are_two_while_they_are_apart():
    labels = staying(lines_at(*ONE, *OTHER, 20, 80), np.zeros(10, int), np.append(APART, [-1, -1]))
    assert labels.tolist() in ([0, 0, 0, 0, 1, 1, 1, 1, 0, 1], [1, 1, 1, 1, 0, 0, 0, 0, 1, 0])


def test_a_theme_whose_lines_went_different_ways_is_no_more():
    rows = lines_at(*ONE, *OTHER, 44, 45, 46)
    labels = staying(rows, np.append(APART, [0, 1, -1]), np.append(APART, [2, 2, 2]))
    assert labels.tolist() == [*APART, 0, 1, -1]


def test_a_group_left_with_two_lines_is_none():
    rows = lines_at(*ONE, *ONE, 40, 41, 42)
    labels = staying(rows, np.array([0] * 8 + [1] * 3), np.array([0] * 8 + [0, -1, -1]))
    assert labels.tolist() == [0] * 9 + [-1, -1]


def test_where_nothing_is_found_nothing_stays():
    none = np.full(8, -1)
    assert staying(lines_at(*ONE, *OTHER), none, APART).tolist() == none.tolist()
