"""Finding among 55,000 lines, against bare FTS5.

Two references. The plain one is FTS5 as it comes, over the same texts in the
order of nights: the query anybody would write first. The other is the same
query on the keeper's own index, without the program round it.
"""

import sqlite3

import pytest

from keeper.actions import finding
from keeper.actions.finding import Sought
from keeper.actions.opening import open_kept

PREFIXES = ("st", "th", "so", "be", "wi", "kl", "fr", "ma")
NEWEST = "SELECT rowid, text FROM plain WHERE plain MATCH ? ORDER BY rowid DESC LIMIT 50"
BEST = "SELECT rowid, text FROM plain WHERE plain MATCH ? ORDER BY rank LIMIT 50"
OWN_INDEX = (
    "SELECT line.night, line.kind, line.text FROM line_words JOIN line ON line.number = line_words.rowid "
    "WHERE line_words MATCH ? ORDER BY line_words.rowid DESC LIMIT 50"
)


@pytest.fixture(scope="module")
def store(fifty):
    """The keeper of fifty years."""
    with open_kept(fifty) as opened:
        yield opened


@pytest.fixture(scope="module")
def plain(store, tmp_path_factory):
    """A plain FTS5 table with the same texts."""
    connection = sqlite3.connect(tmp_path_factory.mktemp("plain") / "plain.db")
    connection.execute("CREATE VIRTUAL TABLE plain USING fts5 (text)")
    connection.executemany("INSERT INTO plain (rowid, text) VALUES (?, ?)", store.rows("SELECT number, text FROM line"))
    connection.commit()
    yield connection
    connection.close()


def asked(connection: sqlite3.Connection, sql: str):
    """The bare query for the nth prefix."""
    return lambda n: connection.execute(sql, (f'"{PREFIXES[n % len(PREFIXES)]}"*',)).fetchall()


def found(store, best: bool = False):
    """The program's answer for the nth prefix."""
    return lambda n: finding.find(store, Sought(PREFIXES[n % len(PREFIXES)], best_first=best))


def test_two_letters_the_newest_fifty(store, plain, compared):
    compared("find, plain FTS5", found(store), asked(plain, NEWEST), rounds=160, target=1.5)
    assert len(found(store)(0)) == len(asked(plain, NEWEST)(0)) == 50


def test_two_letters_on_the_keepers_own_index(store, compared):
    bare = asked(store.connection, OWN_INDEX)
    compared("find, the keeper's own index", found(store), bare, rounds=400)
    assert [one.line.text for one in found(store)(0)] == [row[2] for row in bare(0)]


def test_ranked_by_match(store, plain, compared):
    compared("find, best first", found(store, best=True), asked(plain, BEST), rounds=40)
    assert len(found(store, best=True)(0)) == 50


def test_counted(store, plain, compared):
    bare = asked(plain, "SELECT count(*) FROM plain WHERE plain MATCH ?")
    compared("how many", lambda n: finding.count_found(store, Sought(PREFIXES[n % len(PREFIXES)])), bare, rounds=80)
    assert finding.count_found(store, Sought("st")) >= bare(0)[0][0] > 1000


@pytest.mark.parametrize("typed", ["s", "st", "the st", '"the little"', "%", ""])
def test_whatever_is_typed(store, compared, typed):
    compared(
        f"find {typed!r} against 'st'",
        lambda _: finding.find(store, Sought(typed)),
        lambda _: finding.find(store, Sought("st")),
        rounds=20,
    )
    assert len(finding.find(store, Sought(typed))) <= 50
