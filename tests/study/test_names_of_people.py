"""Names of people in lines: whole words, capitals, and names that might be marked."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.model import Person
from keeper.study.people import mentions, speaks_of, suggested
from keeper.study.words import content_words


def test_a_name_is_found_as_words_of_its_own():
    assert mentions("Tea with Ilze, late.", "Ilze") and mentions("ILZE!", "Ilze") and mentions("_Ilze_'s", "Ilze")
    assert mentions("Frau  Petersen\nsang.", "Frau Petersen")
    assert mentions("Ann's letter", "Ann") and not mentions("Annual letter", "Ann")
    assert not mentions("anything", "") and not mentions("anything", "  ")
    assert mentions("C++ (the cat) slept", "C++")
    assert mentions("今天见了王芳。", "王芳")
    assert mentions(unicodedata.normalize("NFD", "Doctor Ekström came"), "Doctor Ekström")


def test_a_name_with_a_capital_is_met_with_one():
    assert mentions("Will came", "Will") and not mentions("it will rain", "Will")
    assert mentions("Im Haus von Jürgen.", "jürgen") and mentions("tea with ilze", "ilze")


def test_what_rests_rests_in_any_spelling():
    speaks = speaks_of(["Ilze", "", "Anna Maria"])
    assert speaks("tea with ilze") and speaks("ANNA-MARIA") and not speaks("Anna and Maria's")
    assert not speaks("Ilzes") and not speaks_of([])("Ilze") and not speaks_of(["  "])("Ilze")


@given(st.text(min_size=1, max_size=30), st.text(max_size=60))
def test_no_name_is_taken_for_a_pattern(name, text):
    assert mentions(text, name) in (True, False)
    if name.strip():
        assert speaks_of([name])(f" {unicodedata.normalize('NFC', name).strip()} ")


def test_several_spellings_are_parted_by_commas():
    assert Person("", " Maren ,Marie  L., ,Maren").names == ("Maren", "Marie L.")
    assert Person("", " , ").names == ()


def test_a_name_stays_whole_but_a_small_word_is_none():
    found = [word.spelling for word in content_words("Will sang and it will rain", names=["Will"])]
    assert "Will" in found and "will" not in found


LINES = [
    "Tea with Frau Petersen and then bread.", "Frau Petersen sang.", "I met Frau Petersen, late.", "There was Frau Petersen.",
    "A walk with Ilze.", "Yesterday Ilze came.", "Then, Ilze, again.", "Dinner at Ilze.",
    "Snow in Sweden.", "Home in Sweden.", "Still in Sweden.", "On Monday rain.", "This Monday.", "Next Monday sun.",
    "They play Bread.", "Nice Bread here.", "More Bread now.", "bread", "the bread", "and bread",
    "Only once Oddny.", "Riga, so Riga.", "To Riga.", "From Riga.", "Near Riga.", "Old Riga.",
]  # fmt: skip


def test_names_that_recur_and_begin_no_sentence_are_offered():
    assert [one.name for one in suggested(LINES, {"Riga"})] == ["Frau Petersen", "Ilze"]
    assert [one.name for one in suggested(LINES, {"Riga", "Ilze"})] == ["Frau Petersen"]
    assert suggested([]) == () and len(suggested(LINES, {"Riga"}, most=1)) == 1


def test_nouns_of_german_lines_are_passed_over():
    german = ["Ich habe das Brot gebacken und es war gut."] * 5
    assert suggested(german, languages=("de", "en")) == ()


@pytest.mark.parametrize("text", ["", "A", "\u05d0\u05de\u05d0", "\U0001f600 Ilze", "İlze ve Ilze", "(Ilze"])
def test_anything_can_be_looked_through(text):
    assert suggested([f"{text} {text}"] * 4) is not None
