"""A person's page with fifty years of lines, against the bare question to the index: each line with the name, as it stands.

The words are invented, so names are words of them: one in thousands of lines,
one in hundreds, one in few. Fifty others are marked too.
"""

import shutil
from collections import Counter

import pytest

from keeper.actions import people
from keeper.actions.one_person import page
from keeper.actions.opening import open_kept

BARE = "SELECT number, night, text FROM line_words JOIN line ON number = line_words.rowid WHERE line_words MATCH ? ORDER BY line_words.rowid"
NAMED_IN = (4000, 400, 40)
"""So many lines, about, have each name."""

OTHERS = 50


@pytest.fixture(scope="module")
def known(fifty, tmp_path_factory):
    """A copy of the keeper, open, and those whose pages are asked for."""
    folder = tmp_path_factory.mktemp("people") / "keeper"
    shutil.copytree(fifty, folder)
    with open_kept(folder) as store:
        often = Counter(word for (text,) in store.rows("SELECT text FROM line") for word in set(text.lower().rstrip(".").split()) if len(word) > 3)
        names = [min(often, key=lambda word, many=many: (abs(often[word] - many), word)) for many in NAMED_IN]
        for name in sorted(word for word in often if 100 < often[word] < 300)[:OTHERS]:
            people.add(store, name)
        yield store, [people.add(store, name) for name in names]


@pytest.mark.parametrize("which", range(len(NAMED_IN)))
def test_what_the_page_shows_first(known, compared, which):
    store, somebody = known[0], known[1][which]
    lines = len(page.person_page(store, somebody.id).numbers)
    bare = lambda _: store.connection.execute(BARE, (f'"{somebody.name}"',)).fetchall()  # noqa: E731
    compared(f"a person's page, named in {lines} lines", lambda _: page.person_page(store, somebody.id), bare, rounds=20, target=4)
    assert 0 < lines <= len(bare(0))


def test_where_and_with_whom(known, compared):
    store, somebody = known[0], known[1][0]
    bare = lambda _: store.connection.execute(BARE, (f'"{somebody.name}"',)).fetchall()  # noqa: E731
    compared("where and with whom, of fifty others", lambda _: page.around(store, somebody.id), bare, rounds=10)
    assert page.around(store, somebody.id).places
