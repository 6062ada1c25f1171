"""The themes of a book, without the page of themes ever having been opened."""

from datetime import date

import pytest
from theme_keeper import fill, fill_with_themes
from waiting.not_apart import here

from keeper.actions import writing
from keeper.actions.paper import making as book
from keeper.actions.paper.making import BookParts
from keeper.actions.themes import asking as themes
from keeper.actions.themes import looking as theme_looking
from keeper.errors import KeeperError, Stopped
from keeper.store.themes import found as found_themes

YEAR = 2024
PLAIN = BookParts(photos=False, map=False, index=False)


@pytest.fixture(autouse=True)
def apart(request, monkeypatch):
    """What a person has done in a process of its own; the tests in this one, unless they ask for ``really_apart``."""
    done = []
    done_by = theme_looking.apart if "really_apart" in request.fixturenames else here

    def noting(store, act, *given, **more):
        done.append(act.__name__)
        return done_by(store, act, *given, **more)

    monkeypatch.setattr(theme_looking, "apart", noting)
    return done


def told(proof) -> set[str]:
    return {theme.name for month in proof.laid.work.months for theme in month.themes}


def test_themes_that_were_never_looked_for_are_in_the_book(store, clock, tmp_path, really_apart, apart):
    fill(store, 160)
    heard = []
    proof = book.proof_book(store, YEAR, PLAIN, tmp_path, clock, lambda share, words: heard.append((share, words)))
    assert told(proof) and told(proof) <= {name for _, name in themes.names(store)}
    assert apart == ["look_again"] and proof.left_out == ()
    shares = [share for share, _ in heard]
    assert shares == sorted(shares) and shares[-1] == 1.0 and (0.0, "Looking for themes") in heard


def test_themes_out_of_date_are_looked_for_again(store, clock, tmp_path, apart):
    fill_with_themes(store)
    for day in range(1, 29):
        for month in (10, 11):
            writing.write_line(store, date(2025, month, day), "gratitude", "The sauna, and the snow after it.", clock)
    assert themes.themes_due(store) == themes.REBUILD
    book.proof_book(store, YEAR, PLAIN, tmp_path, clock)
    assert themes.themes_due(store) == themes.NOTHING and apart == ["look_again"]


def test_themes_in_order_are_not_looked_for_again(store, clock, tmp_path, apart):
    fill_with_themes(store)
    before = found_themes.build(store)
    proof = book.proof_book(store, YEAR, PLAIN, tmp_path, clock)
    assert told(proof) and found_themes.build(store) == before and apart == []


def test_where_themes_are_not_wanted_none_are_looked_for(store, clock, tmp_path):
    fill(store, 160)
    book.proof_book(store, YEAR, BookParts(themes=False), tmp_path, clock)
    assert found_themes.build(store) is None


def test_the_page_of_a_month_has_its_themes_too(store, clock, tmp_path):
    fill(store, 160)
    made = book.make_month_sheet(store, date(YEAR, 3, 1), tmp_path / "m.pdf", clock)
    assert themes.names(store) and made.left_out == ()


def test_lines_with_nothing_in_common_are_told(store, clock, tmp_path):
    for day in range(1, 32):
        writing.write_line(store, date(YEAR, 3, day), "memory", f"Ja {day}.", clock)
    assert book.proof_book(store, YEAR, PLAIN, tmp_path, clock).left_out == (
        "No theme stands out from chance yet; they are left out.",
    )


def test_stopped_while_themes_are_looked_for(store, clock, tmp_path):
    fill(store, 160)
    looking = []
    with pytest.raises(Stopped, match="no book was made"):
        book.make_book(
            store, YEAR, PLAIN, tmp_path / "b.pdf", clock, lambda share, words: looking.append(words),
            lambda: "Looking for themes" in looking,
        )  # fmt: skip
    assert found_themes.build(store) is None and not list(tmp_path.glob("*.pdf"))


def test_a_year_of_which_nothing_is_kept_is_told_before_themes_are_looked_for(store, clock, tmp_path):
    fill(store, 160)
    with pytest.raises(KeeperError, match="Nothing is kept of 1999"):
        book.make_book(store, 1999, PLAIN, tmp_path / "b.pdf", clock)
    assert found_themes.build(store) is None


def test_what_stands_in_the_way_of_looking_stops_no_book(store, clock, tmp_path, monkeypatch):
    from keeper.actions.paper import themes as book_themes

    def closed(*_):
        raise KeeperError("The keeper may only be read.")

    fill(store, 40)
    monkeypatch.setattr(book_themes, "look_apart", closed)
    made = book.make_book(store, YEAR, PLAIN, tmp_path / "b.pdf", clock)
    assert made.left_out == ("Themes could not be looked for. The keeper may only be read.",)
