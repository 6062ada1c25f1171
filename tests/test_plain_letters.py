"""Letters folded: the index, towns and dates begin from the same table and the same taking apart."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.plain_letters import LETTERS, with_capitals, without_marks
from keeper.store.folding import bare, folded
from keeper.town import ascii_of, fold


@pytest.mark.parametrize("letter", with_capitals(LETTERS))
def test_a_letter_is_folded_alike_for_lines_and_for_towns(letter):
    assert bare(letter) == fold(letter) == ascii_of(letter).lower() == LETTERS[letter.lower()]
    assert folded(letter).casefold() == LETTERS[letter.lower()]


@given(st.text())
def test_without_marks_no_mark_is_left(text):
    assert not any(map(unicodedata.combining, without_marks(text)))
    assert without_marks(text, lambda letter: False) == unicodedata.normalize("NFKD", text)
