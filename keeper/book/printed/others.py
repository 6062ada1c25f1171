"""A year to tick, a night's page, cards and the page with rulers, as the plain data that the templates set."""

from datetime import date
from typing import Any

from keeper.book import wording
from keeper.book.letters import Compositor
from keeper.dates.written import day_and_month, long_date
from keeper.days import last_of_month, nights
from keeper.review.printed.leaves import PaperLeaf
from keeper.review.printed.pages import (
    AskedOf,
    NightRow,
    Printed,
    PrintedCards,
    PrintedNights,
    PrintedYear,
    RulerPage,
)

Data = dict[str, Any]

_READING_WIDE = 32.0
"""Millimetres that a reading's name and its place to write take at least."""

RULES_APART, DOTS_APART = 7, 5
"""Millimetres between rules to write on, and between dots."""


def common(work: Printed, title: str) -> Data:
    """What every template is told: the leaf, the ink, the title of the document."""
    leaf = work.leaf
    # Larger letters on larger paper, within what is easily read.
    size = min(max(7.5 + (min(leaf.width, leaf.height) - 70) / 45, 7.5), 10.5)
    return {
        "leaf": {"width": leaf.width, "height": leaf.height, "inside": leaf.inside, "margin": leaf.margin,
                 "ground": leaf.ground, "facing": leaf.facing, "holes": leaf.holes},
        "apart": apart(leaf), "ink": work.ink, "lang": work.language or "en", "title": title, "name": "",
        "size": {"text": round(size, 1)},
    }  # fmt: skip


def apart(leaf: PaperLeaf) -> int:
    """How far apart the rows to write on are, in millimetres."""
    return DOTS_APART if leaf.ground == "dots" else RULES_APART


def lined(row: NightRow, language: str, letters: Compositor) -> Data:
    """A night with its lines."""
    return {
        "n": row.date.day, "day": str(row.date.day), "weekday": wording.weekday(row.date)[:2],
        "place": letters.plain(row.place),
        "lines": [{"head": letters.plain(head), "words": letters.paragraphs(text, language)} for head, text in row.lines],
    }  # fmt: skip


def of_year(year: PrintedYear, photo: Data | None, letters: Compositor) -> Data:
    """What ``year.typ`` sets; a week begins where a stroke is taller."""
    months = [date(year.year, number, 1) for number in range(1, 13)]
    return {
        **common(year, str(year.year)), "ticked": letters.plain(year.ticked),
        "months": [
            {"name": wording.month_name(month)[:3],
             "days": [{"day": str(night.day), "begins": night.weekday() == year.week_begins} for night in nights(month, last_of_month(month))]}
            for month in months
        ],
    }  # fmt: skip


def of_nights(work: PrintedNights, photo: Data | None, letters: Compositor) -> Data:
    """What ``nights.typ`` sets."""
    return {
        **common(work, "Pages for nights"), "words": {"place": "Place"},
        "across": max(int(work.leaf.inner // _READING_WIDE), 1),
        "nights": [
            {"date": long_date(night), "asked": [_asked(one, letters) for one in asked],
             "readings": [letters.plain(name) for name in readings]}
            for night, asked, readings in work.nights
        ],
    }  # fmt: skip


def _asked(one: AskedOf, letters: Compositor) -> Data:
    return {"title": letters.plain(one.title), "prompt": letters.paragraphs(one.prompt)}


def of_cards(work: PrintedCards, photo: Data | None, letters: Compositor) -> Data:
    """What ``cards.typ`` sets."""
    return {
        **common(work, f"Cards for {day_and_month(work.night)}"), "words": {"more": "continued"},
        "cards": [
            {"year": str(one.date.year), "date": f"{wording.weekday(one.date)} {day_and_month(one.date)}",
             **lined(one, work.language, letters)}
            for one in work.cards
        ],
    }  # fmt: skip


def of_ruler(work: RulerPage, photo: Data | None, letters: Compositor) -> Data:
    """What ``ruler.typ`` sets."""
    told = (
        "Printed at its own size (100 %, \u201cactual size\u201d), the rulers below are true to a ruler of your own, "
        "and the crosses at the foot of both sides lie upon one another."
    )
    return {**common(work, "Test print"), "words": {"title": "Test print", "told": told, "page": "Page"}, "pages": work.pages}


