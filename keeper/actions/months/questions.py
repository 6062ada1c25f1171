"""The shelf of questions for a month, and which of them were asked already."""

import tomllib
from dataclasses import dataclass
from datetime import date
from functools import cache

from keeper.shipped import resource
from keeper.store import Store, month_pages
from keeper.store.folding import bare


@dataclass(frozen=True, slots=True)
class ShelfQuestion:
    """A question of the shelf; ``asked`` are the months in which it was asked, oldest first."""

    text: str
    about: str
    asked: tuple[date, ...] = ()


def shelf(store: Store) -> tuple[ShelfQuestion, ...]:
    """All questions of the shelf, in its order, those asked already marked."""
    asked: dict[str, list[date]] = {}
    for month, question in month_pages.questions(store):
        asked.setdefault(_same(question), []).append(month)
    return tuple(ShelfQuestion(text, about, tuple(asked.get(_same(text), ()))) for text, about in _ours())


def _same(question: str) -> str:
    return bare(question).rstrip(" ?.")


@cache
def _ours() -> tuple[tuple[str, str], ...]:
    told = tomllib.loads(resource("questions/questions.toml").read_text("utf-8"))
    return tuple((text, one["about"]) for one in told["shelf"] for text in one["questions"])
