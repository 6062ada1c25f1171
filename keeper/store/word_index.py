"""The index of words: how often words stand in all lines. It keeps the counts and the places, so this reads no line.

Words are as the index spells them: lower case, without accents.
"""

from collections.abc import Iterable

from keeper.store.file.opening import Store
from keeper.store.folding import phrase, unspaced


def lines_with(store: Store, words: str) -> int:
    """How many lines have these words, one after another."""
    return store.row("SELECT count(*) FROM line_words WHERE line_words MATCH ?", (phrase(words),))[0]


def words_in_all(store: Store) -> int:
    """How many words all lines have, of whatever kind."""
    row = store.row("SELECT block FROM line_words_data WHERE id = 1")
    # The "averages" record of FTS5: rows, then words of each column, as varints
    # (fts5_index.c). To add up the counts of fts5vocab is documented, and the
    # same, but goes through the whole index: 110 ms for fifty years, this 0.01.
    numbers = _varints(row[0]) if row and row[0] else []
    return numbers[1] if len(numbers) > 1 else 0


def words_beginning(store: Store, beginnings: Iterable[str]) -> dict[str, int]:
    """How often each word with one of these beginnings stands in all lines."""
    _see_words(store)
    found: dict[str, int] = {}
    for beginning in beginnings:
        # U+10FFFF comes after every word with the beginning.
        ends = (beginning, beginning + "\U0010ffff")
        found.update(store.rows("SELECT term, cnt FROM temp.word_total WHERE term >= ? AND term < ?", ends))
    return found


def state(store: Store) -> tuple:
    """What is another whenever the words of any line have changed."""
    # The "averages" record, and that of the structure, which notes each write (fts5_index.c).
    return tuple(store.rows("SELECT block FROM line_words_data WHERE id IN (1, 10) ORDER BY id"))


def all_words(store: Store) -> list[str]:
    """Every word of the lines, once."""
    _see_words(store)
    return [row[0] for row in store.rows("SELECT term FROM temp.word_total")]


def lengths(store: Store) -> list[tuple[int, int]]:
    """The number of every line, rising, and how many words it has."""
    # One varint a line, of one column (FTS5, section 9).
    rows = store.rows("SELECT id, sz FROM line_words_docsize ORDER BY id")
    return [(number, size[0] if len(size) == 1 else (_varints(size) or [0])[0]) for number, size in rows]


def lines_having(store: Store, word: str) -> str:
    """The numbers of the lines with a word, rising, once for each time, with commas between; "" for none.

    A text, since it is made in a tenth of the time that a list of numbers takes. Where there are no spaces, letters
    are a word, and a line with them is told once.
    """
    if len(word) > 1 and unspaced(word):
        sql, value = "SELECT group_concat(rowid) FROM line_words WHERE line_words MATCH ?", phrase(word)
    else:
        store.connection.execute(
            "CREATE VIRTUAL TABLE IF NOT EXISTS temp.word_places USING fts5vocab('main', 'line_words', 'instance')"
        )
        sql, value = "SELECT group_concat(doc) FROM temp.word_places WHERE term = ?", word
    return store.row(sql, (value,))[0] or ""


def _see_words(store: Store) -> None:
    store.connection.execute(
        "CREATE VIRTUAL TABLE IF NOT EXISTS temp.word_total USING fts5vocab('main', 'line_words', 'row')"
    )


def _varints(block: bytes) -> list[int]:
    numbers, value = [], 0
    for byte in block:
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            numbers.append(value)
            value = 0
    return numbers
