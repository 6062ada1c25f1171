"""Reading the JSON of an archive row by row: however long it is, only one row of it is in memory.

It may come from anywhere, so what it says is believed of nothing: each row is
a flat object of plain values of bearable length, or the document is refused.
"""

import base64
import json
from collections.abc import Iterator
from pathlib import Path
from typing import TextIO

from keeper.errors import BadArchive
from keeper.exchange.out.rows import FORMAT, VERSION

_AT_A_TIME = 1 << 18
_LONGEST_ROW = 16 << 20
"""Characters; a line, a caption, a list of answers are far shorter."""

_SPACE = " \t\n\r"
_MOST_COLUMNS = 200

Value = str | int | float | bytes | None
Row = dict[str, Value]


class RowsIn:
    """The document in a file: ``head`` first, then ``tables``, once. Raises BadArchive for whatever is none of ours."""

    def __init__(self, file: Path) -> None:
        self._file = file
        self._size = max(1, file.stat().st_size)
        self._source: TextIO | None = None
        self.head: dict[str, object] = {}

    @property
    def share(self) -> float:
        """How much of it is read, 0 to 1."""
        return self._source.buffer.tell() / self._size if self._source and not self._source.closed else 0.0

    def tables(self) -> Iterator[tuple[str, Iterator[Row]]]:
        """Each table by its name, with its rows, which are to be gone through before the next is asked for."""
        try:
            with self._file.open(encoding="utf-8-sig", newline="") as source:
                self._source = source
                yield from self._read(_Text(source))
        except (OSError, UnicodeDecodeError) as error:
            raise _broken("it is not text in UTF-8") from error

    def _read(self, text: "_Text") -> Iterator[tuple[str, Iterator[Row]]]:
        text.expect("{")
        for name in text.names():
            if name != "tables":
                self.head[name] = text.value()
                continue
            must_be_ours(self.head)
            text.expect("{")
            for table in text.names():
                rows = self._rows(text, table)
                yield table, rows
                for _ in rows:
                    pass
            return
        raise _broken("it has no tables")

    @staticmethod
    def _rows(text: "_Text", table: str) -> Iterator[Row]:
        text.expect("[")
        for value in text.values():
            yield _row(value, table)


def must_be_ours(head: dict[str, object]) -> None:
    """Raise BadArchive for a document of another kind, or of a newer version."""
    if head.get("format") != FORMAT:
        raise BadArchive("The archive is not one of a keeper: its keeper.json says nothing of that.")
    if head.get("version") != VERSION or not isinstance(head.get("schema"), int):
        raise BadArchive("The archive was made by a newer version of the program. Please install that to take it in.")


def _row(value: object, table: str) -> Row:
    if not isinstance(value, dict) or len(value) > _MOST_COLUMNS:
        raise _broken(f"a row of {table[:40]!r} is not one")
    return {name: _plain(one, table) for name, one in value.items()}


def _plain(value: object, table: str) -> Value:
    if isinstance(value, dict) and value.keys() == {"base64"} and isinstance(value["base64"], str):
        try:
            return base64.b64decode(value["base64"], validate=True)
        except ValueError:
            raise _broken(f"a row of {table[:40]!r} has bytes that are none") from None
    if isinstance(value, bool):
        return int(value)
    if value is None or isinstance(value, str | float):
        return value
    # SQLite's integers have 64 bits.
    if isinstance(value, int) and -(1 << 63) <= value < 1 << 63:
        return value
    raise _broken(f"a row of {table[:40]!r} has a value that no keeper has")


def _broken(why: str) -> BadArchive:
    return BadArchive(f"keeper.json in the archive cannot be read: {why}.")


class _Text:
    """A window on the text that moves over it."""

    def __init__(self, source: TextIO) -> None:
        self._source, self._held, self._at = source, "", 0
        self._decode = json.JSONDecoder(parse_constant=_no_number).raw_decode

    def _more(self) -> bool:
        if len(self._held) - self._at > _LONGEST_ROW:
            raise _broken("a row is longer than any that is kept")
        chunk = self._source.read(max(_AT_A_TIME, len(self._held) - self._at))
        self._held, self._at = self._held[self._at :] + chunk, 0
        return bool(chunk)

    def _next(self) -> str:
        while True:
            while self._at < len(self._held):
                if self._held[self._at] not in _SPACE:
                    return self._held[self._at]
                self._at += 1
            if not self._more():
                raise _broken("it ends too early")

    def expect(self, sign: str) -> None:
        """Pass over this sign."""
        if self._next() != sign:
            raise _broken(f"where {sign!r} should be, something else is")
        self._at += 1

    def _goes_on(self, end: str, first: bool) -> bool:
        sign = self._next()
        if sign == end:
            self._at += 1
            return False
        if not first:
            self.expect(",")
        return True

    def names(self) -> Iterator[str]:
        """The names in an object whose beginning was passed; at each the text stands before its value."""
        first = True
        while self._goes_on("}", first):
            first = False
            name = self.value()
            if not isinstance(name, str):
                raise _broken("a name is not text")
            self.expect(":")
            yield name

    def values(self) -> Iterator[object]:
        """The values in a list whose beginning was passed."""
        first = True
        while self._goes_on("]", first):
            first = False
            yield self.value()

    def value(self) -> object:
        """The value that comes next."""
        self._next()
        while True:
            try:
                value, end = self._decode(self._held, self._at)
            except ValueError as error:
                if not self._more():
                    raise _broken("it is not JSON") from error
                continue
            except RecursionError:
                raise _broken("it is nested too deeply") from None
            length = end - self._at
            # A number at the very end may go on.
            if end < len(self._held) or not self._more():
                self._at += length
                return value


def _no_number(name: str) -> float:
    raise _broken(f"{name} is no number")

