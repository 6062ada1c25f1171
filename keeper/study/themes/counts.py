"""Words as numbers: counts of stems by line, their weight, and directions learned from the company they keep.

All arrays are float32 and C-ordered; n lines, v stems, d dimensions.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate, chain, repeat


def count_matrix(docs: Sequence[Sequence[str]], stems: Sequence[str]):
    """(n, v) sparse matrix of how often each stem is in each line; stems not listed are passed over."""
    import numpy as np
    from scipy.sparse import csr_matrix

    column_of = {stem: i for i, stem in enumerate(stems)}
    columns = np.fromiter(map(column_of.get, chain.from_iterable(docs), repeat(-1)), np.int32)
    known, ends = columns >= 0, np.fromiter(accumulate(map(len, docs), initial=0), np.int64)
    starts = np.concatenate([[0], np.cumsum(known)])[ends].astype(np.int32)
    counts = csr_matrix((np.ones(starts[-1], np.float32), columns[known], starts), shape=(len(docs), len(stems)))
    counts.sum_duplicates()
    return counts


def presence(counts):
    """(n, v) sparse, 1 where a line has a word; a copy."""
    there = counts.tocsr().copy()
    there.data[:] = 1
    return there


def weigh(counts, idf, weight):
    """TF-IDF rows of unit length: (1 + log tf) x idf x the word's own weight (Salton & Buckley 1988)."""
    import numpy as np

    weighed = counts.copy()
    weighed.data = (1 + np.log(weighed.data)) * (idf * weight)[weighed.indices]
    return unit_sparse(weighed)


def unit(rows):
    """Rows of length one; rows of zeros stay zeros."""
    import numpy as np

    lengths = np.linalg.norm(rows, axis=1, keepdims=True)
    return (rows / np.where(lengths > 0, lengths, 1)).astype(np.float32, copy=False)


def unit_sparse(matrix):
    """The same for a sparse matrix."""
    import numpy as np
    from scipy.sparse import diags

    lengths = np.sqrt(np.asarray(matrix.multiply(matrix).sum(axis=1)).ravel())
    return (diags(1 / np.where(lengths > 0, lengths, 1)) @ matrix).tocsr().astype(np.float32)


def word_vectors(counts, dimensions: int, seed: int, entry_weight=None):
    """(v, dimensions) unit rows: words that share lines point the same way.

    Words counted together within a line, zero diagonal, positive pointwise mutual information with context power
    0.75, truncated SVD, singular values to the power 0.5 (Levy & Goldberg 2014; Levy, Goldberg & Dagan 2015).
    `entry_weight`: (n,) how much each line counts.
    """
    import numpy as np

    information = word_information(counts, entry_weight)
    if information.nnz == 0:
        return np.zeros((counts.shape[1], 1), dtype=np.float32)
    return directions(information, dimensions, seed)


def word_information(counts, entry_weight=None):
    """(v, v) sparse positive pointwise mutual information of words within a line, zero diagonal."""
    import numpy as np
    from scipy.sparse import diags

    there = counts.copy()
    there.data[:] = 1
    weighed = there if entry_weight is None else diags(entry_weight.astype(np.float32)) @ there
    together = (there.T @ weighed).tocsr()
    together = (together - diags(together.diagonal())).tocsr()
    together.eliminate_zeros()
    return positive_information(together)


def positive_information(together):
    """The same from sparse counts of words (rows) with contexts (columns); contexts to the power 0.75."""
    import numpy as np
    from scipy.sparse import csr_matrix

    together = together.tocsr()
    rows = np.asarray(together.sum(axis=1)).ravel()
    contexts = np.asarray(together.sum(axis=0)).ravel() ** 0.75
    contexts = contexts / max(contexts.sum(), 1e-9)
    information = together.data / (np.repeat(rows, np.diff(together.indptr)) * contexts[together.indices])
    np.log(information, out=information)
    kept = information > 0
    starts = np.concatenate([[0], np.cumsum(kept)])[together.indptr].astype(together.indptr.dtype)
    return csr_matrix((information[kept].astype(np.float32, copy=False), together.indices[kept], starts), shape=together.shape)


def directions(matrix, dimensions: int, seed: int):
    """(v, dimensions) unit rows: truncated SVD, singular values to the power 0.5."""
    import numpy as np
    from sklearn.utils.extmath import randomized_svd

    size = max(1, min(dimensions, min(matrix.shape) - 1))
    left, values, _ = randomized_svd(matrix, size, n_iter=4, random_state=seed)
    return unit(left * np.sqrt(values))
