"""Finding among 55,000 lines, against bare FTS5.

Two references. The plain one is FTS5 as it comes, over the same texts in the
order of nights: the query anybody would write first. The other is the same
query on the keeper's own index, without the program round it.

Nearest lines: against a bare ranked question to FTS5, what is held in memory, and how often they are right.

How often: with ``KEEPER_PAIRS`` the path of a table of sentences, each with
another wording beside it, and ``KEEPER_LINES`` one of labels and lines to hide
them among. Three words of one wording are to bring the other.
"""

import os
import random
import re
import sqlite3
import tracemalloc
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

import pytest

from keeper.actions import finding
from keeper.actions.finding import Sought, nearest
from keeper.actions.opening import open_kept, open_or_begin
from keeper.model import KINDS, Moment
from keeper.store import lines
from keeper.study.language.words import stop_words
from keeper.study.nearness import directions, kin

TYPED = ("the littel stromm", "little agian thurn", "skaust broom after", "lonng before bed")
ANY_WORD = "SELECT rowid FROM line_words WHERE line_words MATCH ? ORDER BY rank LIMIT 10"
LETTERS = "abcdefghijklmnopqrstuvwxyz"
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


def typed(number: int) -> str:
    """Words of the nth question."""
    return TYPED[number % len(TYPED)]


def test_nearest_among_fifty_years(store, compared):
    def bare(number: int) -> list:
        words = " OR ".join(f'"{word}"' for word in [*typed(number).split(), "little"])
        return store.connection.execute(ANY_WORD, (words,)).fetchall()

    compared("nearest lines, any of the words by FTS5",
             lambda n: finding.find(store, Sought(typed(n), best_first=True), limit=10), bare, rounds=40)  # fmt: skip
    assert all(one.near for one in finding.find(store, Sought(typed(0)), limit=10))


def test_more_like_a_line_of_fifty_years(store, compared):
    line = finding.find(store, Sought("little"), limit=1)[0].line
    bare = lambda _: store.connection.execute(ANY_WORD, ("little OR after OR again",)).fetchall()  # noqa: E731
    compared("more like a line", lambda _: finding.more_like(store, line.id), bare, rounds=20)
    assert len(finding.more_like(store, line.id)) == nearest.NEAREST


def test_what_is_held_takes_less_than_thirty_megabytes(fifty):
    import rapidfuzz.process  # noqa: F401  the libraries are not the index
    import scipy.sparse  # noqa: F401

    for held_already in (directions._table, directions.alike, kin._stem):
        held_already.cache_clear()
    with open_kept(fifty) as opened:
        tracemalloc.start()
        for number in range(len(TYPED)):
            finding.find(opened, Sought(typed(number)), limit=10)
        held = tracemalloc.get_traced_memory()[0] / 1e6
        tracemalloc.stop()
    print(f"\n  held for nearest lines: {held:.1f} MB")
    assert held < 30


@pytest.mark.skipif("KEEPER_PAIRS" not in os.environ, reason="needs sentences with other wordings of them")
@pytest.mark.parametrize("wrong", [False, True], ids=["as remembered", "a letter other"])
@pytest.mark.parametrize("draw", ["content", "rarest", "longest", "four letters"])
def test_three_words_bring_the_other_wording(hidden, draw, wrong):
    opened, pairs, often = hidden
    chance, ranks = random.Random(f"{draw}{wrong}"), []
    for sentence, other in pairs:
        words = drawn(sentence, draw, often, chance)
        if len(words) < 3:
            continue
        sought = " ".join(misspelt(words, chance) if wrong else words)
        told = [one.line.text for one in finding.find(opened, Sought(sought, best_first=True), limit=10)]
        ranks.append(told.index(other) + 1 if other in told else 0)
    ten, mean = sum(map(bool, ranks)) / len(ranks), sum(1 / rank for rank in ranks if rank) / len(ranks)
    print(f"\n  {draw}, {'a letter other' if wrong else 'as remembered'}: first ten {ten:.3f}, mean reciprocal {mean:.3f}")
    assert ten > 0.8


@pytest.fixture(scope="module")
def hidden(tmp_path_factory):
    """A keeper with the other wordings among the lines, the pairs, and how many texts have each word."""
    pairs = [tuple(row.split("\t")) for row in Path(os.environ["KEEPER_PAIRS"]).read_text("utf-8").splitlines()]
    among = [row.split("\t", 1)[1] for row in Path(os.environ["KEEPER_LINES"]).read_text("utf-8").splitlines()]
    texts = [*among, *(other for _, other in pairs)]
    random.Random(1).shuffle(texts)
    often: dict[str, int] = {}
    for text in texts:
        for word in set(plain_words(text)):
            often[word] = often.get(word, 0) + 1
    with open_or_begin(tmp_path_factory.mktemp("hidden") / "keeper") as opened:
        with opened.writing():
            for number, text in enumerate(texts):
                night = date(2010, 1, 1) + timedelta(days=number // len(KINDS))
                moment = Moment(datetime.combine(night, time(21), UTC), 0, "")
                lines.keep(opened, night, KINDS[number % len(KINDS)], text, moment)
        yield opened, pairs, often


def plain_words(text: str) -> list[str]:
    """The words of a text, each once."""
    return list(dict.fromkeys(re.findall(r"[^\W_]+", text.lower())))


def drawn(sentence: str, draw: str, often: dict[str, int], chance: random.Random) -> list[str]:
    """Three words of a sentence, or fewer where it has no more."""
    small = stop_words("en")
    if draw == "four letters":
        words = [word for word in plain_words(sentence) if len(word) > 3]
    else:
        words = [word for word in plain_words(sentence) if word not in small and len(word) > 1]
    if draw in ("rarest", "longest"):
        return sorted(words, key=lambda word: often.get(word, 0) if draw == "rarest" else -len(word))[:3]
    return chance.sample(words, min(3, len(words)))


def misspelt(words: list[str], chance: random.Random) -> list[str]:
    """The words, one letter of one of them another."""
    at = chance.randrange(len(words))
    place = chance.randrange(len(words[at]))
    letter = chance.choice([one for one in LETTERS if one != words[at][place]])
    return [*words[:at], words[at][:place] + letter + words[at][place + 1 :], *words[at + 1 :]]
