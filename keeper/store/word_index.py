"""The index of words: how often words stand in all lines. It keeps the counts, so this reads no line.

Words are as the index spells them: lower case, without accents.
"""

from collections.abc import Iterable

from keeper.store.file.opening import Store
from keeper.store.folding import phrase


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
    store.connection.execute(
        "CREATE VIRTUAL TABLE IF NOT EXISTS temp.word_total USING fts5vocab('main', 'line_words', 'row')"
    )
    found: dict[str, int] = {}
    for beginning in beginnings:
        # U+10FFFF comes after every word with the beginning.
        ends = (beginning, beginning + "\U0010ffff")
        found.update(store.rows("SELECT term, cnt FROM temp.word_total WHERE term >= ? AND term < ?", ends))
    return found


def _varints(block: bytes) -> list[int]:
    numbers, value = [], 0
    for byte in block:
        value = value << 7 | byte & 0x7F
        if byte < 0x80:
            numbers.append(value)
            value = 0
    return numbers
