"""Which months begin with a page of their own."""

from collections.abc import Iterable
from typing import Any

_BRIEF, _LETTERS = 8, 50
"""So many rows of a brief month at most, and so many letters of a row."""

Month = dict[str, Any]
"""A month as the templates set it: see ``keeper.book.pages``."""


def chapters(months: Iterable[Month]) -> list[list[Month]]:
    """The months that begin with a page of their own, each with the months that follow on it."""
    found: list[list[Month]] = []
    for month in months:
        if found and _brief(month) and _brief(found[-1][-1]):
            found[-1].append(month)
        else:
            found.append([month])
    return found


def _brief(month: Month) -> bool:
    """Whether a month fills so little of a page that another has room there."""
    rows = [part["t"] for night in (*month["nights"], *month["answers"]) for line in night["lines"] for part in line["words"]]
    said = [part["t"] for part in (*month["question"], *month["words"])]
    facts = (*month["places"], *month["themes"], *month["goals"])
    return not (month["photo"] or month["notebook"] or month["readings"] or len(facts) > 6) and _rows(rows + said) <= _BRIEF


def _rows(texts: Iterable[str]) -> int:
    return sum(1 + len(text) // _LETTERS for text in texts)
