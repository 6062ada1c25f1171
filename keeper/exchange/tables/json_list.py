"""A list in JSON (RFC 8259): of objects, of lists, or of texts."""

import json
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Any

from keeper.errors import UnreadableFile, shown_name
from keeper.exchange.tables.shape import MOST_COLUMNS, How, Row, as_row

LARGEST = 64_000_000
"""Bytes; a list is read whole before its entries are told apart."""

_LOOKED_AT = 500
_BLANK = " \t\r\n"


def names(path: Path, how: How) -> tuple[str, ...]:
    """The columns: the names that the first entries have, in the order in which they come. Raises as ``rows``."""
    found: dict[str, None] = {}
    for _, entry in islice(_entries(path, how), _LOOKED_AT):
        found.update(dict.fromkeys(_flat(entry)))
    return tuple(found)[:MOST_COLUMNS]


def rows(path: Path, how: How) -> Iterator[Row]:
    """Its entries as rows, in the order of ``names``. Raises UnreadableFile, OSError."""
    columns = names(path, how)
    for number, entry in _entries(path, how):
        cells = _flat(entry)
        yield as_row(number, [cells.get(name, "") for name in columns])


def _entries(path: Path, how: How) -> Iterator[tuple[int, Any]]:
    if path.stat().st_size > LARGEST:
        raise UnreadableFile(f"{shown_name(path)} is larger than a list that can be read at one go.")
    text = path.read_text(how.encoding or "utf-8", "replace").lstrip("\ufeff" + _BLANK)
    at = text.find("[") + 1
    if not at:
        raise UnreadableFile(f"{shown_name(path)} is not a list in JSON.")
    yield from _items(path, text, at)


def _items(path: Path, text: str, at: int) -> Iterator[tuple[int, Any]]:
    # Entry by entry: the window is not held up, and numbers stay as they were written.
    decoder, number = json.JSONDecoder(parse_float=str, parse_int=str, parse_constant=str), 0
    while True:
        at = _past_blank(text, at)
        if text[at : at + 1] == "]":
            return
        number += 1
        try:
            entry, at = decoder.raw_decode(text, at)
        except (ValueError, RecursionError) as error:
            raise UnreadableFile(f"{shown_name(path)} is not a list in JSON: entry {number} cannot be read.") from error
        yield number, entry
        at = _past_blank(text, at)
        if text[at : at + 1] not in (",", "]"):
            raise UnreadableFile(f"{shown_name(path)} breaks off after entry {number}.")
        at += text[at] == ","


def _past_blank(text: str, at: int) -> int:
    while text[at : at + 1] and text[at] in _BLANK:
        at += 1
    return at


def _flat(entry: Any) -> dict[str, str]:
    """An entry as named texts; what lies within an object within it goes by both names."""
    if isinstance(entry, dict):
        found = {}
        for name, value in islice(entry.items(), MOST_COLUMNS):
            inner = value.items() if isinstance(value, dict) else ()
            found.update({f"{name} {of}": _text(one) for of, one in islice(inner, MOST_COLUMNS)} if inner else {name: _text(value)})
        return found
    cells = entry if isinstance(entry, list) else [entry]
    return {f"column {place}": _text(value) for place, value in enumerate(cells[:MOST_COLUMNS], 1)}


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        return ", ".join(_text(one) for one in value[:MOST_COLUMNS] if not isinstance(one, list | dict))
    return "" if value is None or isinstance(value, dict) else str(value)
