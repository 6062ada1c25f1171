"""Which new group is which old theme: at the border, and where lines have gone since."""

import pytest
from diary_lines import diary

from keeper.study.themes.identity import likeness, matched
from keeper.study.themes.nouns import BaseTheme, Earlier
from keeper.study.themes.rebuilding import rebuild


def old(members: int, terms: str = "harbour", number: int = 4) -> BaseTheme:
    return BaseTheme(number, tuple(f"line{i}" for i in range(members)), tuple(terms.split()))


def group(first: int, last: int, terms: str = "organ") -> tuple[set[str], set[str]]:
    return {f"line{i}" for i in range(first, last)}, set(terms.split())


def test_likeness_is_three_quarters_lines_and_one_quarter_terms():
    here = {f"line{i}" for i in range(10)}
    assert likeness(old(10), here, {"organ"}, here) == pytest.approx(0.75)
    assert likeness(old(10), set(), {"harbour"}, here) == pytest.approx(0.25)
    assert likeness(old(10), {"line0", "line1"}, {"harbour"}, here) == pytest.approx(0.75 * 0.2 + 0.25)


@pytest.mark.parametrize(("shared", "number"), [(3, 4), (2, 7)])
def test_a_theme_is_the_same_from_a_fifth_of_likeness_on(shared, number):
    # Of ten lines three stayed together (0.75 * 3/10 = 0.225), or two (0.15); the rest went to a larger theme.
    larger = BaseTheme(5, tuple(f"other{i}" for i in range(70)), ("stove",))
    grown = (set(larger.members) | group(shared, 10)[0], {"stove"})
    ids, _ = matched([old(10), larger], [group(0, shared), grown], 7)
    assert ids == [number, 5]


def test_lines_that_have_gone_do_not_make_a_theme_another():
    # Nine of twelve lines were taken out of the keeper; the three that are left are the whole theme still.
    ids, next_number = matched([old(12)], [group(0, 3)], 9)
    assert ids == [4]
    assert next_number == 9
    here = {f"line{i}" for i in range(3)}
    assert likeness(old(12), here, {"organ"}, here) == pytest.approx(0.75)


def test_lines_that_are_new_do_not_make_a_theme_another():
    # All ten lines are together still, with ninety of which nobody knew.
    ids, _ = matched([old(10)], [group(0, 100)], 9)
    assert ids == [4]


def test_without_what_places_a_line_themes_are_found_afresh_and_known_again():
    """As an archive brings them, or an earlier version found them: what was loose, or otherwise together, does not stay so."""
    lines, _ = diary(160)
    found = rebuild(lines)
    first, *others = found.base
    earlier = (BaseTheme(first.id, first.members[:20], first.terms), BaseTheme(9, sum((one.members for one in others), ()), ()))
    again = rebuild(lines, Earlier(earlier, 10, None))
    assert {frozenset(one.members) for one in again.base} == {frozenset(one.members) for one in found.base}
    assert first.id in {one.id for one in again.base if one.members == first.members} and again.next_number > 10
    assert rebuild(lines, Earlier(found.base, 10, None)).themes == found.themes
