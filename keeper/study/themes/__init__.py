"""Themes: what keeps coming back, told by the lines themselves.

`group_lines` is for use from outside. The program uses `rebuilding`, and the modules here from where they are.
"""

from __future__ import annotations

from collections.abc import Sequence


def group_lines(texts: Sequence[str], *, count: int | None = None, language: str = "en", seed: int = 0) -> list[int]:
    """A label for each text: an int from 0 for its theme, -1 for a loose line.

    With `count`, that many themes are made (fewer when there are not so many different lines) and only lines without
    content words are loose. Without, the number follows from the lines; there are no themes under 30 lines or when the
    lines do not stand out from shuffled ones. ValueError if count is below 1.
    """
    # Whoever names this room only to reach one of its modules shall not wait for all of them.
    from keeper.study.themes import rebuilding

    return rebuilding.group_lines(texts, count=count, language=language, seed=seed)
