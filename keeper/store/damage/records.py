"""A row as bytes: its header, its values, and what of it lies in other pages.

Source: "Database File Format", 1.5 (overflow pages) and 2.1 (record format).
"""

from keeper.store.damage.leaves import TABLE_LEAF, kept_here, varint
from keeper.store.damage.pages import Pages

Value = int | float | bytes | None
"""Text and blobs as bytes; a number with a fraction as its eight bytes."""

LONGEST = 1_000_000
"""Bytes; no row of a keeper comes near it."""

_NUMBERS = {1: 1, 2: 2, 3: 3, 4: 4, 5: 6, 6: 8}
_MOST_COLUMNS = 64


def record_at(pages: Pages, page: bytes, start: int, flag: int = TABLE_LEAF) -> tuple[tuple[Value, ...], int] | None:
    """The values of the row whose header begins there and its length in bytes, or None where there is no row."""
    try:
        shapes, head = _shapes(page, start)
        total = head + sum(_size(shape) for shape in shapes)
        body = _payload(pages, page, start, total, flag) if total <= LONGEST else None
        return None if body is None else (_values(body, head, shapes), total)
    except (IndexError, ValueError):
        return None


def _shapes(page: bytes, start: int) -> tuple[list[int], int]:
    head, at = varint(page, start)
    end, shapes = start + head, []
    while at < end and len(shapes) <= _MOST_COLUMNS:
        shape, at = varint(page, at)
        shapes.append(shape)
    if at != end or not shapes:
        raise ValueError
    return shapes, head


def _size(shape: int) -> int:
    if shape >= 12:
        return (shape - 12) // 2
    if shape in (10, 11):
        raise ValueError
    return 8 if shape == 7 else _NUMBERS.get(shape, 0)


def _values(body: bytes, at: int, shapes: list[int]) -> tuple[Value, ...]:
    values: list[Value] = []
    for shape in shapes:
        raw = body[at : at + _size(shape)]
        at += len(raw)
        if shape in _NUMBERS:
            values.append(int.from_bytes(raw, "big", signed=True))
        else:
            values.append(None if shape == 0 else shape - 8 if shape in (8, 9) else raw)
    return tuple(values)


def _payload(pages: Pages, page: bytes, start: int, total: int, flag: int) -> bytes | None:
    local = kept_here(total, pages.usable, flag)
    if start + local + (4 if local < total else 0) > pages.usable:
        return None
    parts, left = [page[start : start + local]], total - local
    following = int.from_bytes(page[start + local : start + local + 4], "big")
    seen: set[int] = set()
    while left:
        if following in seen or following not in pages.pages:
            return None
        seen.add(following)
        more = pages.pages[following]
        part = more[4 : min(4 + left, pages.usable)]
        parts.append(part)
        left -= len(part)
        following = int.from_bytes(more[:4], "big")
    return b"".join(parts)
