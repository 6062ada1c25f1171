"""Decisions laid over the themes move no line that they do not speak of."""

import random
from dataclasses import replace
from datetime import date, timedelta

from diary_lines import SUBJECTS, diary

from keeper.study.themes.fitted import Fitted
from keeper.study.themes.nouns import ThemeLine
from keeper.study.themes.rebuilding import rebuild, redraw


def of_two(count):
    """Lines each of which is of two subjects."""
    for at in range(count):
        rng = random.Random(at)
        one, two = rng.sample(sorted(SUBJECTS), 2)
        yield " ".join(rng.sample(SUBJECTS[one], 3) + rng.sample(SUBJECTS[two], 2))


def test_nothing_decided_leaves_second_themes_names_and_what_is_offered_as_they_were():
    lines = diary(160)[0]
    lines += [ThemeLine(f"two {at}", text, date(2025, 1, 1) + timedelta(at)) for at, text in enumerate(of_two(80))]
    found = rebuild(lines)
    kept = replace(found, fitted=Fitted.from_bytes(found.fitted.to_bytes()))
    again = redraw(kept, lines, loose=frozenset(found.loose), sure=found.sure)
    assert [theme.name for theme in again.themes] == [theme.name for theme in found.themes]
    second = [{(line, theme.id) for theme in one.themes for line, _ in theme.also} for one in (found, again)]
    assert len(second[0]) > 10 and second[0] == second[1] and again.offered == found.offered
