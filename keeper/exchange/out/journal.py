"""Lines as entries of a journal: VJOURNAL of iCalendar (RFC 5545).

Rows are folded after 75 octets, never within a letter; commas, semicolons,
backslashes and breaks in words are escaped. A line keeps its own id as UID, as
RFC 7986 (5.3) asks for.
"""

import re
from functools import lru_cache

from keeper.exchange.out.cells import Out
from keeper.exchange.out.given import GivenNight, in_utc, where
from keeper.model import Line

_LONGEST = 75
_ESCAPED = re.compile(r"[\\;,]")
# RFC 5545, 3.1: CONTROL may stand in no text, but for the tab.
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")


def escaped(words: str) -> str:
    """Words as TEXT (3.3.11)."""
    # What can be printed has no control in it, and nearly all words are such: that is found out far sooner than by a pattern.
    if words.isprintable():
        return words.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    plain = _CONTROL.sub("", words.replace("\r\n", "\n").replace("\r", "\n"))
    return _ESCAPED.sub(lambda found: f"\\{found[0]}", plain).replace("\n", "\\n")


def folded(row: str) -> str:
    """A content line with its ends, in pieces of at most 75 octets (3.1)."""
    if row.isascii():
        if len(row) <= _LONGEST:
            return f"{row}\r\n"
        # The space that marks a piece that goes on counts too.
        rest = range(_LONGEST, len(row), _LONGEST - 1)
        return "\r\n ".join([row[:_LONGEST], *[row[at : at + _LONGEST - 1] for at in rest]]) + "\r\n"
    data = row.encode("utf-8", "replace")
    pieces, at, room = [], 0, _LONGEST
    while len(data) - at > room:
        end = at + room
        # No byte that goes on with a letter begins a piece.
        while data[end] & 0xC0 == 0x80:
            end -= 1
        pieces.append(data[at:end])
        at, room = end, _LONGEST - 1
    return b"\r\n ".join([*pieces, data[at:]]).decode() + "\r\n"


class Journal:
    """A calendar under way: ``night`` after night, then ``end``."""

    def __init__(self, out: Out, version: str) -> None:
        self._out = out
        self._put("BEGIN:VCALENDAR", "VERSION:2.0", f"PRODID:-//Keeper of Days//Keeper of Days {version}//EN")

    def _put(self, *rows: str) -> None:
        self._out.write("".join(map(folded, rows)))

    def night(self, night: GivenNight) -> None:
        """An entry for each of its lines."""
        # A day spelt by its pattern takes three times as long.
        place, day = where(night.place), night.date.isoformat().replace("-", "")
        self._out.write("".join([_entry(line, day, place, night.themes.get(line.id, "")) for line in night.lines]))

    def end(self) -> None:
        """After the last night."""
        self._put("END:VCALENDAR")


def _entry(line: Line, day: str, place: str, theme: str) -> str:
    kind, stamp = line.kind_title, in_utc(line.written.utc).replace("-", "").replace(":", "")
    later = [folded(f"COMMENT:{escaped(f'{word.said_on.isoformat()}: {word.text}')}") for word in line.later if word.text]
    return (
        f"BEGIN:VJOURNAL\r\n{folded(f'UID:{escaped(line.id)}')}DTSTAMP:{stamp}\r\nDTSTART;VALUE=DATE:{day}\r\n"
        f"{_summary(kind, place)}{folded(f'DESCRIPTION:{escaped(line.text)}')}{''.join(later)}{_categories(kind, theme)}"
        "CLASS:PRIVATE\r\nEND:VJOURNAL\r\n"
    )


@lru_cache(512)
def _summary(kind: str, place: str) -> str:
    return folded(f"SUMMARY:{escaped(f'{kind}, {place}' if place else kind)}")


@lru_cache(512)
def _categories(kind: str, theme: str) -> str:
    return folded(f"CATEGORIES:{','.join(escaped(one) for one in (kind, theme) if one)}")
