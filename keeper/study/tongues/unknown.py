"""Words that a table does not know: what their letters tell of them.

First the known words that one is made of (Koehn & Knight 2003), in languages that write words together; then the five
known words that share most of its letters in threes to fives, nearer ones counting more, as words are made of pieces that
have a meaning of their own (Bojanowski, Grave, Joulin & Mikolov 2017).
"""

from __future__ import annotations

import weakref
from collections.abc import Sequence
from typing import TYPE_CHECKING

from keeper.study.language.words import stem as stem_of
from keeper.study.language.words import stop_words

if TYPE_CHECKING:
    import numpy as np

    from keeper.study.tongues.table import Background

LINKS = {
    "de": ("", "s", "es", "n", "en", "e", "er"), "nl": ("", "s", "e", "en"), "sv": ("", "s", "e", "u"),
    "da": ("", "s", "e"), "no": ("", "s", "e"),
}  # fmt: skip
"""What stands between the parts of a word, by language."""

HEAD, TAIL, HALF = 3, 4, 0.5
SIGNS = frozenset({"ja", "zh", "ko"})  # written in signs that each have a meaning, or nearly a syllable to a sign
NEAREST, SHARE, SHARPER = 5, 0.3, 3
GRAMS, BUCKETS = (3, 4, 5), 1 << 18
AT_A_TIME = 500

_letters: weakref.WeakKeyDictionary = weakref.WeakKeyDictionary()


def guessed(stems: Sequence[str], table: Background) -> np.ndarray:
    """(v, d) unit rows for stems that the table does not know; zeros where their letters tell nothing."""
    import numpy as np

    rows = np.zeros((len(stems), table.vectors.shape[1]), np.float32)
    left = []
    for i, stem in enumerate(stems):
        told = _from_parts(stem, table)
        if told is None:
            left.append(i)
        else:
            rows[i] = told
    if table.language in SIGNS:
        return _unit(rows)
    for at in range(0, len(left), AT_A_TIME):
        some = left[at : at + AT_A_TIME]
        rows[some] = _from_letters([stems[i] for i in some], table)
    return _unit(rows)


def _from_parts(stem: str, table: Background):
    if table.language in SIGNS:
        return _from_signs(stem, table)
    return _of_two(stem, table) if table.language in LINKS else None


def _of_two(stem: str, table: Background):
    """Two known words that cover it, the shorter as long as can be; else the longest known beginning or end."""
    found = []
    for at in range(HEAD, len(stem) - TAIL + 1):
        tail = _row(stem[at:], table) if stem[at:] not in stop_words(table.language) else -1
        heads = [stem[: at - len(link)] for link in LINKS[table.language] if tail >= 0 and stem[:at].endswith(link)]
        known = [(min(len(head), len(stem) - at), _row(head, table), tail) for head in heads if len(head) >= HEAD]
        found += [one for one in known if one[1] >= 0]
    if found:
        _, head, tail = max(found)
        return table.vectors[head] + table.vectors[tail]
    return _longest(stem, table, max(TAIL + 1, HALF * len(stem)))


def _longest(stem: str, table: Background, least: float):
    for size in range(len(stem) - 1, TAIL, -1):
        if size < least:
            break
        for part in (stem[:size], stem[-size:]):
            row = _row(part, table)
            if row >= 0:
                return table.vectors[row]
    return None


def _from_signs(stem: str, table: Background):
    """The longest known words that it falls into from its beginning, each as it stands; signs not known are passed over."""
    rows, at = [], 0
    while at < len(stem):
        row, size = next(
            ((table.rows[stem[at:end]], end - at) for end in range(len(stem), at, -1) if stem[at:end] in table.rows), (-1, 1)
        )
        if row >= 0:
            rows.append(row)
        at += size
    return table.vectors[rows].sum(axis=0) if rows else None


def _row(word: str, table: Background) -> int:
    row = table.rows.get(word, -1)
    return row if row >= 0 else table.rows.get(stem_of(word, table.language), -1)


def _from_letters(stems: Sequence[str], table: Background) -> np.ndarray:
    import numpy as np

    if table not in _letters:
        _letters[table] = letter_table(list(table.rows)).T.tocsr()
    alike = (letter_table(stems) @ _letters[table]).tocsr()
    rows = np.zeros((len(stems), table.vectors.shape[1]), np.float32)
    for i in range(len(stems)):
        span = slice(alike.indptr[i], alike.indptr[i + 1])
        share, at = alike.data[span], alike.indices[span]
        order = np.lexsort((at, -share))[:NEAREST]
        if len(order) and share[order[0]] > SHARE:
            rows[i] = share[order] ** SHARPER @ table.vectors[at[order]]
    return _unit(rows)


def _unit(rows: np.ndarray) -> np.ndarray:
    import numpy as np

    return rows / np.maximum(np.linalg.norm(rows, axis=1, keepdims=True), 1e-9)


def letter_table(stems: Sequence[str]):
    """(v, buckets) sparse unit rows: letters of each stem in threes to fives, its edges among them, put in buckets."""
    import numpy as np
    from scipy.sparse import csr_matrix

    edged = [f"<{stem}>" for stem in stems]
    letters = np.frombuffer("".join(edged).encode("utf-32-le"), np.uint32).astype(np.uint64)
    sizes = np.array([len(word) for word in edged])
    word, end = np.repeat(np.arange(len(edged)), sizes), np.repeat(np.cumsum(sizes), sizes)
    rows, columns = [], []
    for size in GRAMS:
        mixed = np.full(max(0, len(letters) - size + 1), size, np.uint64)
        for i in range(size):
            mixed = mixed * np.uint64(1_000_003) ^ letters[i : i + len(mixed)]
        whole = np.arange(len(mixed)) + size <= end[: len(mixed)]
        rows.append(word[: len(mixed)][whole])
        columns.append(((mixed * np.uint64(0x9E3779B97F4A7C15)) >> np.uint64(46))[whole].astype(np.int64))
    rows, columns = np.concatenate(rows), np.concatenate(columns)
    table = csr_matrix((np.ones(len(rows), np.float32), (rows, columns)), shape=(len(stems), BUCKETS))
    table.sum_duplicates()
    lengths = np.sqrt(np.asarray(table.multiply(table).sum(axis=1)).ravel())
    table.data /= np.repeat(lengths, np.diff(table.indptr))
    return table
