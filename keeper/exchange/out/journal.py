"""Lines as entries of a journal: VJOURNAL of iCalendar (RFC 5545).

Rows are folded after 75 octets, never within a letter; commas, semicolons,
backslashes and breaks in words are escaped. A line keeps its own id as UID, as
RFC 7986 (5.3) asks for.
"""

import re
from datetime import UTC

from keeper.exchange.out.cells import Out
from keeper.exchange.out.given import GivenNight, where
from keeper.model import Line

_LONGEST = 75
_ESCAPED = re.compile(r"[\\;,]")
_AS_IT_IS = re.compile("[^\\\\;,\x00-\x1f\x7f]*")
# RFC 5545, 3.1: CONTROL may stand in no text, but for the tab.
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")


def escaped(words: str) -> str:
    """Words as TEXT (3.3.11)."""
    if _AS_IT_IS.fullmatch(words):
        return words
    plain = _CONTROL.sub("", words.replace("\r\n", "\n").replace("\r", "\n"))
    return _ESCAPED.sub(lambda found: f"\\{found[0]}", plain).replace("\n", "\\n")


def folded(row: str) -> str:
    """A content line with its ends, in pieces of at most 75 octets (3.1)."""
    if len(row) <= _LONGEST and row.isascii():
        return f"{row}\r\n"
    data = row.encode("utf-8", "replace")
    pieces, at, room = [], 0, _LONGEST
    while len(data) - at > room:
        end = at + room
        # No byte that goes on with a letter begins a piece.
        while data[end] & 0xC0 == 0x80:
            end -= 1
        pieces.append(data[at:end])
        # The space that marks a piece that goes on counts too.
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
        place = where(night.place)
        for line in night.lines:
            self._line(line, place, night.themes.get(line.id, ""))

    def _line(self, line: Line, place: str, theme: str) -> None:
        kind = line.kind_title
        summary = f"{kind}, {place}" if place else kind
        self._put(
            "BEGIN:VJOURNAL",
            f"UID:{escaped(line.id)}",
            f"DTSTAMP:{line.written.utc.astimezone(UTC):%Y%m%dT%H%M%SZ}",
            f"DTSTART;VALUE=DATE:{line.night:%Y%m%d}",
            f"SUMMARY:{escaped(summary)}",
            f"DESCRIPTION:{escaped(line.text)}",
            *(f"COMMENT:{escaped(f'{word.said_on.isoformat()}: {word.text}')}" for word in line.later if word.text),
            f"CATEGORIES:{','.join(escaped(one) for one in (kind, theme) if one)}",
            "CLASS:PRIVATE",
            "END:VJOURNAL",
        )

    def end(self) -> None:
        """After the last night."""
        self._put("END:VCALENDAR")
