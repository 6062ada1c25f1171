"""Themes: what keeps coming back, told by the lines themselves.

`group_lines` is for use from outside. The program's `rebuild` is in `rebuilding`, and the nouns of both in `nouns`.
"""

from __future__ import annotations

from collections.abc import Sequence


def group_lines(texts: Sequence[str], *, count: int | None = None, language: str | Sequence[str] = "en", seed: int = 0) -> list[int]:
    """A label for each text: an int from 0 for its theme, -1 for a loose line.

    With `count`, that many themes are made (fewer when there are not so many different lines) and only lines without
    content words are loose. Without, the number follows from the lines; there are no themes under 30 lines or when the
    lines do not stand out from shuffled ones. ValueError if count is below 1.
    """
    # Whoever names this room only to reach one of its modules shall not wait for all of them.
    from keeper.study.one_core import on_one_core

    if count is not None and count < 1:
        raise ValueError("a number of themes is at least 1")
    return on_one_core(_labels)(texts, count, (language,) if isinstance(language, str) else tuple(language), seed)


def _labels(texts: Sequence[str], count: int | None, languages: tuple[str, ...], seed: int) -> list[int]:
    import numpy as np

    from keeper.study.themes import learning
    from keeper.study.themes.fitted import Speech
    from keeper.study.themes.nouns import NONE_EARLIER
    from keeper.study.themes.rebuilding import threads

    speech = Speech(languages)
    told = [[word.stem for word in doc] for doc in speech.heard(texts)]
    order = sorted(range(len(told)), key=lambda i: (told[i], texts[i]))
    docs = [told[i] for i in order]
    labels = np.full(len(docs), -1)
    if count is not None and any(docs):
        labels[order] = learning.wished(docs, learning.learn(docs, speech, seed, count), count, seed)
        return labels.tolist()
    found = threads([str(i) for i in range(len(docs))], docs, speech, NONE_EARLIER, seed, _untold) if count is None else None
    # Whoever compares labels asks for each group; the program goes on to leave out single ones that could be chance.
    if found and found.company.beats_chance:
        labels[order] = found.grouped.labels
    return labels.tolist()


def _untold(done: float, what: str) -> None:
    pass
