"""A file of cards, or a calendar, as cards."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

from keeper.errors import UnreadableFile, shown_name
from keeper.exchange.people import birthdays, vcards
from keeper.exchange.people.card import Card
from keeper.exchange.tables.encoding import encoding_of
from keeper.exchange.tables.separated import lines

ENDINGS = (".vcf", ".vcard", ".ics", ".ical")
"""How the names of such files end."""

_BEGINS = {"BEGIN:VCARD": "cards", "BEGIN:VCALENDAR": "calendar"}


def cards_in(path: Path, tonight: date) -> Iterator[Card]:
    """Whoever is in a file, one at a time. Raises UnreadableFile, at any of them."""
    try:
        if not path.is_file():
            raise UnreadableFile(f"{shown_name(path)} is not there, or is not a file.")
        encoding = encoding_of(path)
        form = _form(path, encoding)
        with path.open(encoding=encoding, errors="replace", newline="") as file:
            yield from vcards.read(lines(file)) if form == "cards" else birthdays.read(lines(file), tonight)
    except (OSError, LookupError, UnicodeError) as error:
        told = (getattr(error, "strerror", None) or "it is not written as text").lower()
        raise UnreadableFile(f"{shown_name(path)} cannot be read: {told}.") from error


def _form(path: Path, encoding: str) -> str:
    with path.open(encoding=encoding, errors="replace", newline="") as file:
        first = next((line.strip().upper() for line in lines(file) if line.strip()), "")
    found = next((form for begins, form in _BEGINS.items() if first.startswith(begins)), "")
    if not found:
        told = "is empty" if not first else "is neither a file of cards (vCard) nor a calendar (iCalendar)"
        raise UnreadableFile(f"{shown_name(path)} {told}.")
    return found
