"""A year's page with fifty years behind it, against reading the same lines bare.

The bare way asks SQLite for the lines of two years and splits them into words:
what no page of a year can do without. The choice of lines is compared with
scikit-learn's TF-IDF and the same greedy choice.
"""

import sqlite3
from datetime import date

import pytest

from keeper.actions.opening import open_kept
from keeper.actions.years import shown as years
from keeper.actions.years import sitting as year_sitting
from keeper.study.choosing import choose, greedy
from keeper.study.language.words import content_words, words

TWO_YEARS = "SELECT id, night, kind, text FROM line WHERE night BETWEEN ? AND ? ORDER BY number"


@pytest.fixture(scope="module")
def store(fifty):
    """The keeper of fifty years."""
    with open_kept(fifty) as opened:
        yield opened


@pytest.fixture(scope="module")
def bare(store):
    """The same file, opened without the program."""
    connection = sqlite3.connect(store.folder / "keeper.db")
    yield connection
    connection.close()


def _year(number: int) -> int:
    return 2025 - number % 20


def _read(connection: sqlite3.Connection, year: int) -> int:
    rows = connection.execute(TWO_YEARS, (f"{year - 1}-01-01", f"{year}-12-31")).fetchall()
    return sum(len(words(row[3])) for row in rows)


def test_what_is_told_first(store, bare, compared):
    compared("a year at first, against reading two years", lambda n: years.year_page(store, _year(n), brief=True),
             lambda n: _read(bare, _year(n)), rounds=20)  # fmt: skip
    assert years.year_page(store, 2020, brief=True).counts.nights == 366


def test_all_of_a_year(store, bare, compared):
    compared("a year, against reading two years", lambda n: years.year_page(store, _year(n)),
             lambda n: _read(bare, _year(n)), rounds=20)  # fmt: skip
    assert len(years.year_page(store, 2020).lines) == years.LINES_OF_THE_YEAR


def test_a_month_of_the_sitting(store, bare, compared):
    compared("a month of the sitting, against reading two years",
             lambda n: year_sitting.month_step(store, _year(n), 1 + n % 12), lambda n: _read(bare, _year(n)),
             rounds=20)  # fmt: skip
    assert len(year_sitting.month_step(store, 2020, 5).others) > 80


def test_choosing_twelve_of_a_years_lines(store, compared):
    from sklearn.feature_extraction.text import TfidfVectorizer

    bags = [tuple(word.stem for word in content_words(line.text)) for line in _lines(store)]
    weigh = TfidfVectorizer(analyzer=list, sublinear_tf=True)

    def plain(_: int) -> list[int]:
        vectors = weigh.fit_transform(bags)
        return greedy((vectors @ vectors.T).toarray(), 12)

    compared("choosing 12 of 1,100 lines, against scikit-learn's likeness", lambda _: choose(bags, 12), plain,
             rounds=15)  # fmt: skip
    assert len(choose(bags, 12)) == 12


def _lines(store):
    from keeper.store import lines

    return lines.between(store, date(2024, 1, 1), date(2024, 12, 31))
