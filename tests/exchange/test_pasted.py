"""A part of a table on the clipboard."""

import csv
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.exchange.pasted import read_table, write_table


@pytest.mark.parametrize(("text", "table"), [
    ("", ()),
    ("7", (("7",),)),
    ("7\n8\n", (("7",), ("8",))),
    ("7\r\n\r\n8\r\n", (("7",), ("",), ("8",))),
    ("a\tb\n\td", (("a", "b"), ("", "d"))),
    # RFC 4180, 2.6 and 2.7, with tabs for commas.
    ('"aaa"\t"b\nbb"\t"ccc"\nzzz\tyyy\txxx', (("aaa", "b\nbb", "ccc"), ("zzz", "yyy", "xxx"))),
    ('"aaa"\t"b""bb"\t"ccc"', (("aaa", 'b"bb', "ccc"),)),
    # Words, not quoted by a spreadsheet.
    ('"Hello" she said\nand went', (('"Hello" she said',), ("and went",))),
    ('"open\tand so on', (('"open', "and so on"),)),
    ('12" rule\t6" rule', (('12" rule', '6" rule'),)),
])  # fmt: skip
def test_what_was_pasted_is_read_as_cells(text, table):
    assert read_table(text) == table


@pytest.mark.parametrize("size", [200_000, 2_000_000])
def test_a_cell_longer_than_the_library_takes_is_words_all_the_same(size):
    assert read_table('"' + "x" * size + '"') == (('"' + "x" * size + '"',),)


_LETTERS = st.characters(exclude_categories=("Cs", "Cc")) | st.sampled_from('\n\t"')


@given(st.lists(st.lists(st.text(_LETTERS, max_size=8), min_size=2, max_size=2), min_size=1, max_size=5))
def test_what_is_copied_can_be_pasted_again(table):
    copied = write_table(table)
    # Outside: Python's own reader of such tables, which says the same of what we write.
    assert list(csv.reader(StringIO(copied, newline=""), "excel-tab")) == table
    assert read_table(copied) == tuple(map(tuple, table))


@given(st.text(max_size=60))
def test_whatever_is_on_the_clipboard_is_cells(text):
    cells = [cell for row in read_table(text) for cell in row]
    assert sum(map(len, cells)) <= len(text)
