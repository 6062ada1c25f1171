"""Pages of the tree: where their cells lie, and whether a page is whole in itself.

Source: "Database File Format", 1.6 (B-tree Pages): the header of a page, its
pointers, its cells, the blocks that are free among them.
"""

from dataclasses import dataclass
from itertools import pairwise

from keeper.store.damage.pages import HEADER

TABLE_LEAF, INDEX_LEAF, INDEX_INSIDE = 0x0D, 0x0A, 0x02
_KNOWN = frozenset({TABLE_LEAF, INDEX_LEAF, INDEX_INSIDE, 0x05})


@dataclass(frozen=True)
class Leaf:
    """What lies in a page. ``cells`` are where they begin, counted from the page's first byte."""

    flag: int
    cells: tuple[int, ...]
    whole: bool


def varint(data: bytes, at: int) -> tuple[int, int]:
    """A number of variable length and where it ends. Raises IndexError."""
    value = 0
    for n in range(8):
        byte = data[at + n]
        value = value << 7 | byte & 127
        if byte < 128:
            return value, at + n + 1
    return value << 8 | data[at + 8], at + 9


def signed(value: int) -> int:
    """The number that a rowid's varint stands for."""
    return value - (1 << 64) if value >> 63 else value


def kept_here(total: int, usable: int, flag: int) -> int:
    """How many bytes of so long a payload lie in the page itself (1.6, "X, M and K")."""
    most = usable - 35 if flag == TABLE_LEAF else (usable - 12) * 64 // 255 - 23
    if total <= most:
        return total
    least = (usable - 12) * 32 // 255 - 23
    some = least + (total - least) % (usable - 4)
    return some if some <= most else least


def leaf_of(number: int, page: bytes, usable: int) -> Leaf | None:
    """The cells of a page of a tree, or None where it is none."""
    head = HEADER if number == 1 else 0
    if (flag := page[head]) not in _KNOWN:
        return None
    begin = head + (8 if flag in (TABLE_LEAF, INDEX_LEAF) else 12)
    count = int.from_bytes(page[head + 3 : head + 5], "big")
    # Each takes at least six bytes.
    count_here = min(count, (usable - begin) // 6)
    pointers = [int.from_bytes(page[at : at + 2], "big") for at in range(begin, begin + 2 * count_here, 2)]
    cells = tuple(at for at in pointers if begin + 2 * count_here <= at < usable - 3)
    whole = len(cells) == count and _adds_up(page, head, begin, cells, usable)
    return Leaf(flag, cells, whole)


def _adds_up(page: bytes, head: int, begin: int, cells: tuple[int, ...], usable: int) -> bool:
    """Whether cells, free blocks and crumbs fill all that lies behind the gap, once."""
    starts = int.from_bytes(page[head + 5 : head + 7], "big") or 65536
    if begin + 2 * len(cells) > starts or starts > usable:
        return False
    try:
        taken = [(at, at + _length(page, at, page[head], usable)) for at in cells]
        taken += _free_blocks(page, int.from_bytes(page[head + 1 : head + 3], "big"), usable)
    except (IndexError, ValueError):
        return False
    taken.sort()
    apart = all(one[1] <= two[0] for one, two in pairwise(taken))
    inside = not taken or (taken[0][0] >= starts and taken[-1][1] <= usable)
    return apart and inside and sum(end - at for at, end in taken) + page[head + 7] == usable - starts


def _length(page: bytes, at: int, flag: int, usable: int) -> int:
    here = at
    if flag in (INDEX_INSIDE, 0x05):
        here += 4
    total = 0
    if flag != 0x05:
        total, here = varint(page, here)
    if flag in (TABLE_LEAF, 0x05):
        _, here = varint(page, here)
    local = kept_here(total, usable, flag)
    return max(here - at + local + (4 if local < total else 0), 4)


def _free_blocks(page: bytes, first: int, usable: int) -> list[tuple[int, int]]:
    found, at = [], first
    while at:
        following, size = (int.from_bytes(page[at + n : at + n + 2], "big") for n in (0, 2))
        if at + size > usable or size < 4 or (following and following <= at):
            raise ValueError
        found.append((at, at + size))
        at = following
    return found
