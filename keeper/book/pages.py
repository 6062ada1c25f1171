"""A book as the plain data that the templates set. No sizes, faces or colours here but the page's own name."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from itertools import groupby
from typing import Any

from keeper import cautions
from keeper.book import wording
from keeper.book.chapters import chapters
from keeper.book.letters import Compositor
from keeper.book.map_page import of_map
from keeper.book.strips import strip
from keeper.review.book import Book, BookLine, BookMonth, BookNight, IndexEntry, MonthSheet

Data = dict[str, Any]
Photos = Mapping[str, Data]
"""For each photo that can be set: its ``file``, and ``width`` and ``height`` in millimetres."""


def of_book(book: Book, photos: Photos, size: Data, letters: Compositor) -> Data:
    """What ``book.typ`` sets."""
    first, last = book.months[0].month, book.months[-1].month
    return {
        "size": size, "ink": book.ink, "lang": book.language or "en", "words": wording.HEADINGS,
        "title": letters.plain(book.title), "name": letters.plain(book.name),
        "span": wording.span(first, last), "counts": _counts(book),
        "map": of_map(book.map, book.year, letters) if book.map else None,
        "chapters": chapters(_cautioned(book.months, [_month(one, photos, size["photo"][0], letters) for one in book.months])),
        "closing": [
            {"question": letters.paragraphs(one.question), "answer": letters.paragraphs(one.answer)}
            for one in book.closing
        ],
        "places": _index(book.places, book, letters), "people": _index(book.people, book, letters),
    }  # fmt: skip


def of_sheet(sheet: MonthSheet, photos: Photos, size: Data, letters: Compositor) -> Data:
    """What ``month.typ`` sets."""
    month = sheet.month
    return {
        "size": size, "ink": sheet.ink, "lang": sheet.language or "en", "small": sheet.small_photo,
        "words": wording.HEADINGS,
        "title": wording.span(month.month, month.month), "name": "",
        "months": _cautioned([month], [{**_month(month, photos, size["photo"][0], letters), "name": wording.span(month.month, month.month)}]),
    }  # fmt: skip


def _counts(book: Book) -> list[str]:
    told = [wording.counted(book.nights, "night") + " kept", wording.counted(book.lines, "line")]
    return [*told, f"{book.kilometres:,.0f} kilometres"] if book.kilometres else told


def _month(month: BookMonth, photos: Photos, wide: float, letters: Compositor) -> Data:
    photo = photos.get(month.photo.id) if month.photo else None
    caption = letters.paragraphs(month.photo.caption) if photo else []
    alt = " ".join(part["t"] for part in caption) or f"Photo of {wording.span(month.month, month.month)}"
    return {
        "key": month.month.isoformat()[:7],
        "name": wording.month_name(month.month),
        "kept": wording.counted(month.kept, "night") + " kept" if month.kept else "",
        "photo": {**photo, "caption": caption, "alt": alt} if photo else None,
        "question": letters.paragraphs(month.question),
        "words": letters.paragraphs(month.words),
        "places": [[letters.plain(one.name), f"{one.nights}"] for one in month.places],
        "themes": [[letters.plain(one.name), wording.counted(one.nights, "night")] for one in month.themes],
        "goals": [
            {"text": letters.plain(one.text), "told": letters.plain(wording.outcome(one.outcome, one.word))}
            for one in month.goals
        ],
        "readings": [strip(one, wide, letters) for one in month.readings],
        "caution": "",
        "answers": _by_night(month.answers, letters),
        "nights": [_night(one, letters) for one in month.nights],
        "notebook": _notebook(month, photos, letters),
        # With a photo and a few nights to follow, the opening page is left to them.
        "opens": photo is not None and len(month.nights) > 2,
    }


def _notebook(month: BookMonth, photos: Photos, letters: Compositor) -> list[Data]:
    return [{**photos[one.id], "caption": letters.paragraphs(one.caption), "alt": f"A page of the notebook: {one.caption}"}
            for one in month.notebook if one.id in photos]  # fmt: skip


def _cautioned(months: Sequence[BookMonth], made: list[Data]) -> list[Data]:
    """The caution under the first readings, for all of them; said once in a book."""
    body = any(one.body for month in months for strip_ in month.readings for one in strip_.lines)
    first = next((one for one in made if one["readings"]), None)
    if first:
        first["caution"] = cautions.under(body)
    return made


def _by_night(lines: Iterable[BookLine], letters: Compositor) -> list[Data]:
    grouped = groupby(lines, key=lambda line: line.night)
    return [_night(BookNight(night, tuple(its_lines)), letters) for night, its_lines in grouped]


def _night(night: BookNight, letters: Compositor) -> Data:
    return {
        "key": night.date.isoformat(),
        "day": str(night.date.day),
        "weekday": wording.weekday(night.date),
        "place": letters.plain(night.place),
        "lines": [
            {
                "kind": line.kind,
                "head": letters.plain(line.head),
                "words": letters.paragraphs(line.text, line.language),
                "later": later_words(line, letters),
            }
            for line in night.lines
        ],
    }


def later_words(line: BookLine, letters: Compositor) -> list[Data]:
    """What was said of a line on later nights."""
    return [{"head": letters.plain(one.head), "words": letters.paragraphs(one.text, one.language)} for one in line.later]


def _index(entries: Iterable[IndexEntry], book: Book, letters: Compositor) -> list[Data]:
    inside = {night.date for month in book.months for night in month.nights}
    return [
        {
            "name": letters.plain(entry.name), "detail": letters.plain(entry.detail),
            "spans": [[_label(first, inside), _label(last, inside)] for first, last in entry.spans],
        }
        for entry in entries
    ]  # fmt: skip


def _label(night: date, inside: set[date]) -> str:
    return f"n{night.isoformat()}" if night in inside else f"m{night.isoformat()[:7]}"
