"""What was found at the last asking of patterns: it can be found again."""

from collections.abc import Collection, Iterable, Mapping

from keeper.store.file.opening import Store
from keeper.store.patterns.decided import Question


def fingerprints(store: Store) -> dict[str, str]:
    """The fingerprints of the columns at the last asking, by key."""
    return dict(store.rows("SELECT key, fingerprint FROM pattern_found_column"))


def answers(store: Store) -> dict[Question, str]:
    """All answers of the last asking, as they were kept."""
    rows = store.rows("SELECT first, second, lag, answer FROM pattern_found ORDER BY first, second, lag")
    return {(first, second, lag): answer for first, second, lag, answer in rows}


def told(store: Store) -> str:
    """What was told at the last asking, as it was kept; "" before the first."""
    row = store.row("SELECT told FROM pattern_found_told")
    return row[0] if row else ""


def keep(
    store: Store, told: str, prints: Mapping[str, str], anew: Mapping[Question, str], changed: Collection[str]
) -> None:
    """Keep an asking, all or nothing.

    ``anew`` are the answers to all questions with a ``changed`` column in
    them; the others stay, but for those of columns that no longer take part.
    """
    with store.writing() as connection:
        gone = set(fingerprints(store)) - set(prints) | set(changed)
        connection.executemany("DELETE FROM pattern_found WHERE first = ?1 OR second = ?1", _each(gone))
        connection.executemany("DELETE FROM pattern_found_column WHERE key = ?1", _each(gone))
        connection.executemany(
            "INSERT INTO pattern_found (first, second, lag, answer) VALUES (?, ?, ?, ?) "
            "ON CONFLICT (first, second, lag) DO UPDATE SET answer = excluded.answer",
            [(*question, answer) for question, answer in anew.items()],
        )
        connection.executemany(
            "INSERT INTO pattern_found_column (key, fingerprint) VALUES (?, ?) "
            "ON CONFLICT (key) DO UPDATE SET fingerprint = excluded.fingerprint", list(prints.items())
        )
        connection.execute(
            "INSERT INTO pattern_found_told (one, told) VALUES (1, ?) ON CONFLICT (one) DO UPDATE SET told = excluded.told", (told,)
        )


def _each(keys: Iterable[str]) -> list[tuple[str]]:
    return [(key,) for key in sorted(keys)]


def changes(store: Store) -> str:
    """A number that grows with whatever a person does, and how many lines have a theme."""
    return "{} {}".format(*store.row("SELECT (SELECT max(seq) FROM change), (SELECT count(*) FROM theme_line)"))
