"""Narrow themes ask what comes later to say what they are about."""

from dataclasses import replace
from datetime import date
from functools import lru_cache

import numpy as np
from diary_lines import SUBJECTS, diary

from keeper.study.one_core import on_one_core
from keeper.study.themes.fitted import Fitted, Middles, Speech, nearest
from keeper.study.themes.learning import learn
from keeper.study.themes.nouns import Merge, Move, ThemeLine
from keeper.study.themes.rebuilding import rebuild, redraw
from keeper.study.themes.weighing.subjects import said_of, saying

LATER = [
    ThemeLine("swum", "Swam from the jetty in a cold sea, waves at the beach", date(2025, 1, 1)),
    ThemeLine("sung", "The choir sang a hymn, piano and organ at the concert", date(2025, 1, 2)),
]


@lru_cache(maxsize=1)
@on_one_core
def built():
    lines, about = diary(240)
    return lines, dict(zip([line.id for line in lines], about, strict=True)), rebuild(lines)


def theme_of(found, about, subject):
    """The id of the theme where most lines of the subject are."""
    inside = {theme.id: sum(about.get(line) == subject for line in theme.members) for theme in found.base}
    return max(inside, key=inside.get)


def asking(found, **said):
    """The same where the themes ask for these stems; others for a word that no line has."""
    ids = found.fitted.base.ids
    asked = tuple(frozenset(said.get(f"of{theme}", ("xyzzy",))) for theme in ids)
    return replace(found, fitted=replace(found.fitted, base=replace(found.fitted.base, said=asked), shown=replace(found.fitted.shown, said=asked)))


def test_the_words_that_say_what_a_theme_is_about():
    lines, about = diary(240)
    points = learn([[word.stem for word in doc] for doc in Speech().heard([line.text for line in lines])], Speech(), 0)
    names = sorted(SUBJECTS)
    labels = np.array([names.index(one) for one in about])
    words = said_of(points, labels)
    stems = np.array(points.space.stems)
    assert {"swam", "sea"} <= set(stems[words[names.index("sea")]])
    assert not {"piano", "again", "quiet"} & set(stems[words[names.index("sea")]])
    says = saying(points, labels, words)
    there = points.counts.toarray() > 0
    assert says.tolist() == [bool((there[i] & words[label]).any()) for i, label in enumerate(labels)]
    assert says.mean() > 0.5
    assert saying(points, np.full(240, -1), words[:0]).all()
    assert saying(points, labels, np.zeros_like(words)).all()


def test_a_line_that_does_not_say_it_is_loose_and_offered_the_theme():
    rows = np.eye(2, dtype=np.float32)
    middles = Middles((5, 7), rows, np.zeros(2), np.full(2, 0.1), (frozenset({"swam"}), frozenset()))
    line = np.array([[0.9, 0.4]], np.float32)
    (said,) = nearest(line, line, middles, [["swam", "cold"]])
    assert (said.theme, said.second) == (5, 7)
    (silent,) = nearest(line, line, middles, [["cold"]])
    assert (silent.theme, silent.offered) == (None, 5)
    (second,) = nearest(line[:, ::-1], line[:, ::-1], middles, [["cold"]])
    assert (second.theme, second.second) == (7, None)


def test_what_is_kept_goes_on_asking():
    _, about, found = built()
    sea = theme_of(found, about, "sea")
    asked = asking(found, **{f"of{sea}": ("swam",)}).fitted
    kept = Fitted.from_bytes(asked.to_bytes())
    assert (kept.base.said, kept.shown.said) == (asked.base.said, asked.shown.said)
    assert kept.place(LATER[0].text).theme == sea
    assert kept.place(LATER[1].text).theme is None
    assert found.fitted.place(LATER[1].text).theme is not None


def test_new_lines_of_a_rebuild_say_it_or_are_loose_and_the_others_stay():
    lines, about, found = built()
    again = rebuild([*lines, *LATER], asking(found))
    home = {line: theme.id for theme in again.base for line in theme.members}
    was = {line: theme.id for theme in found.base for line in theme.members}
    assert home["swum"] == theme_of(found, about, "sea")
    assert again.fitted.base.said != found.fitted.base.said == ()
    silent = [ThemeLine("silent", "A cold little jetty again", date(2025, 1, 3))]
    plain = rebuild([*lines, *silent], found)
    assert "silent" not in plain.loose
    assert "silent" in rebuild([*lines, *silent], asking(found)).loose
    assert sum(home.get(line) == theme for line, theme in was.items()) > 0.98 * len(was)


def test_lines_that_come_between_two_rebuilds_are_asked_too():
    lines, about, found = built()
    sea = theme_of(found, about, "sea")
    again = redraw(asking(found, **{f"of{sea}": ("swam",)}), [*lines, *LATER])
    home = {line: theme.id for theme in again.themes for line, _ in theme.members}
    assert home["swum"] == sea
    assert "sung" in again.loose


def test_a_theme_into_which_another_came_asks_for_the_words_of_either():
    lines, about, found = built()
    sea, music = theme_of(found, about, "sea"), theme_of(found, about, "music")
    asked = asking(found, **{f"of{sea}": ("swam",), f"of{music}": ("sang",)})
    joined = redraw(asked, lines, decisions=[Merge(sea, music)]).fitted
    assert joined.shown.said[joined.shown.ids.index(sea)] == {"swam", "sang"}
    assert joined.place(LATER[1].text).theme == sea
    moved = redraw(asking(found, **{f"of{sea}": ("swam",)}), [*lines, *LATER], decisions=[Move("sung", sea)]).fitted
    assert moved.shown.said[moved.shown.ids.index(sea)] == {"swam"}
