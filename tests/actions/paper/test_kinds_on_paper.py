"""Kinds of one's own in a book, in the person's order and by the person's names."""

from datetime import date

from keeper.actions import kinds, writing
from keeper.actions.paper import making as book
from keeper.actions.paper.contents import book_of, sheet_of
from keeper.actions.paper.making import BookParts

NIGHT = date(2025, 6, 3)
NAMES = ("A dream", "Read", "A kindness", "Überraschung des Tages", "Donaudampfschifffahrtsgesellschaftskapitän")


def test_lines_stand_in_the_order_of_the_kinds_under_their_names(store, clock, tmp_path):
    own = [kinds.add(store, name, NIGHT).key for name in NAMES]
    kinds.rename(store, "memory", "Small & good")
    keys = [own[4], "memory", *own[:4], "reflection", "gratitude"]
    kinds.order(store, keys)
    for number, key in enumerate(keys):
        writing.write_line(store, NIGHT, key, f"The harbour, line {number}.", clock)
    kinds.leave_out(store, own[0], date(2026, 11, 14))
    heads = [NAMES[4], "Small & good", *NAMES[:4], "Reflection", "Gratitude"]
    for made in (book_of(store, 2025, BookParts()).months[0], sheet_of(store, NIGHT, BookParts(), False).month):
        assert [(line.head, line.text) for line in made.nights[0].lines] == [
            (head, f"The harbour, line {number}.") for number, head in enumerate(heads)]  # fmt: skip
    told = book.make_book(store, 2025, BookParts(), tmp_path / "book.pdf", clock)
    assert (tmp_path / "book.pdf").read_bytes().startswith(b"%PDF") and told
