"""What a person decided about the themes of the demo holds after they are looked for afresh."""

import shutil

import pytest

from demo_db.make import HERE
from keeper.actions.themes import asking as themes
from keeper.actions.themes import begun
from keeper.actions.themes.splitting import halves
from keeper.store import open_store

LINES = 700  # of the demo: enough for themes, and few enough to look twice


def members(store, number):
    return {row[0] for row in store.rows("SELECT line_id FROM theme_line WHERE theme = ?", (number,))}


@pytest.fixture
def demo(tmp_path):
    """The first lines of the demo, with their themes."""
    shutil.copytree(HERE / "keeper", tmp_path / "keeper", ignore=shutil.ignore_patterns("photos"))
    with open_store(tmp_path / "keeper") as store:
        with store.writing() as connection:
            connection.execute("DELETE FROM line WHERE id NOT IN (SELECT id FROM line ORDER BY number LIMIT ?)", (LINES,))
        yield store


def test_decisions_on_the_demo_hold_after_a_fresh_look(demo, clock):
    themes.look_again(demo, clock)
    wide, second, third = (one.number for one in themes.themes_view(demo).threads[:3])
    loose = [one.line.id for one in themes.lines_of(demo, None, 8)]
    themes.rename(demo, wide, "What I tuned", clock)
    themes.pin(demo, third, clock)
    moved, out = loose[0], next(iter(sorted(members(demo, second))))
    themes.move(demo, [moved], second, clock)
    themes.take_out(demo, [out], second, clock)
    themes.leave_word_out(demo, "clock", clock)
    mine = begun.begin(demo, "My wrist", (), ("wrist", "plaster", "thumb"), clock)
    themes.look_again(demo, clock)
    asked = [one.line.id for one in begun.asking(demo, mine).lines[:4]]
    for line, says in zip(asked, (begun.YES, begun.NO, begun.YES, begun.NO), strict=False):
        begun.answer(demo, mine, line, says, clock)
    there = next(one for one in sorted(members(demo, mine)) if one not in asked)
    themes.take_out(demo, [there], mine, clock)
    split = themes.split_so(demo, halves(demo, wide), clock)
    themes.look_again(demo, clock)
    merged = members(demo, third)
    themes.merge(demo, second, third, clock)
    themes.rebuild_themes(demo, clock)

    now = {one.number: one for one in themes.themes_view(demo).threads}
    assert now[wide].name == "What I tuned" and now[second].pinned and now[mine].name == "My wrist"
    assert third not in now and len(members(demo, second) & merged) > 0.5 * len(merged)
    assert moved in members(demo, second) and out not in members(demo, second)
    assert {*asked[0::2]} <= members(demo, mine) and not {*asked[1::2], there} & members(demo, mine)
    assert split in now and not members(demo, split) & members(demo, wide)
    assert not any("clock" in word for one in now.values() for word in one.words)
