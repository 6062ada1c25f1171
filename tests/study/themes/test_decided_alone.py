"""A line that is placed by itself goes where it would go among all lines."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from keeper.study.themes.decisions import decided, decided_alone
from keeper.study.themes.nouns import Merge, Move, Pin, Rename, Split, Start, TakeOut

THEMES = (1, 2, 3)
LINES = ("a", "b", "c", "new")
"""One line in each theme that no decision speaks of, and the one that comes."""

theme = st.sampled_from(THEMES)
decisions = st.lists(
    st.one_of(
        st.builds(Merge, theme, theme),
        st.builds(Move, st.just("new"), theme),
        st.builds(TakeOut, st.just("new"), theme),
        st.builds(Pin, theme, st.just(("new",))),
        st.builds(Rename, theme, st.just("Bread")),
        st.builds(Split, theme, st.just(4), st.just(()), st.just(("new",))),
        st.builds(Start, st.just(5), st.just(("new",))),
    ),
    max_size=6,
)


@settings(max_examples=200)
@given(st.one_of(st.none(), theme), decisions)
def test_alone_as_among_all(found, said):
    home = dict(zip(LINES, (*THEMES, found), strict=True))
    points = np.eye(len(LINES))
    among_all = decided(LINES, points, {line: one for line, one in home.items() if one}, said)
    assert decided_alone("new", found, said)[1] == among_all.home.get("new")


def test_only_the_persons_word_counts_as_said():
    assert decided_alone("new", 2, [Merge(1, 2)]) == (False, 1)
    assert decided_alone("new", 2, [TakeOut("new", 1), Pin(3, ("new",)), Rename(2, "Bread")]) == (False, 2)
    assert decided_alone("new", 2, [Move("new", 2)]) == (True, 2)
    assert decided_alone("new", 2, [TakeOut("new", 2)]) == (True, None)
    assert decided_alone("new", 2, [Split(2, 4, (), ("other",)), Start(5, ("other",))]) == (False, 2)
