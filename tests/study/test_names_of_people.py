"""Names of people in lines: whole words, capitals, and names that might be marked."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lines_abroad import GERMAN_PEOPLE, JAPANESE

from keeper.model import Person
from keeper.study.language.names_likely import suggested
from keeper.study.language.words import content_words
from keeper.study.people import mentions, speaks_of


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
    assert [one.name for one in suggested(LINES, {"Riga"})] == ["Ilze", "Frau Petersen"]
    assert [one.name for one in suggested(LINES, {"Riga", "Ilze"})] == ["Frau Petersen"]
    assert suggested([]) == () and len(suggested(LINES, {"Riga"}, most=1)) == 1


def offered(texts, *languages):
    return [one.name for one in suggested(texts, languages=(*languages, "en"))]


def test_a_small_word_that_opens_a_sentence_is_no_part_of_a_name():
    assert offered(["With Ilze to the pier.", "After Ilze sang, rain.", "And Ilze left."]) == ["Ilze"]


def test_in_german_a_title_kin_or_what_only_people_do_tells_a_name():
    assert offered(GERMAN_PEOPLE, "de") == ["Jonas", "Frau Schäfer", "Oma Hilde"]
    assert offered(["Ich habe das Brot gebacken und es war gut."] * 5, "de") == []


def test_what_stands_behind_a_german_name_is_no_part_of_it_but_what_always_does_is():
    brought = ["Wir gaben Oma Hilde Brot.", "Er las Oma Hilde Briefe vor.", "Heute mit Oma Hilde Tee getrunken.", "Oma Hilde kam."]
    assert offered(brought, "de") == ["Oma Hilde"]
    doctor = ["Zu Frau Doktor Weber wegen der Hand.", "Frau Doktor Weber hat Zeit.", "Die Praxis von Frau Doktor Weber."]
    assert offered(doctor, "de") == ["Frau Doktor Weber"]


def test_a_german_genitive_is_the_same_name():
    assert suggested(["Frau Schäfers Suppe.", "Frau Schäfer kam.", "Bei Frau Schäfer."], languages=("de",))[0].lines == 3


def test_in_japanese_what_honours_tells_a_name_and_a_trade_is_none():
    assert offered(JAPANESE, "ja") == ["けんじくん", "小林先生", "田中さん"]


@pytest.mark.parametrize(
    ("language", "texts", "names"),
    [
        ("es", ["Hoy sin Internet en el barco.", "Con Internet otra vez en la pensión.", "Una tarde sin Internet.",
                "Pan con Carmen en el muelle.", "Y Carmen cantó en la iglesia.", "Un paseo con Carmen."], ["Carmen"]),
        ("fr", ["Thé avec Odile sur le port.", "Et puis Odile a chanté.", "Chez Odile, la soupe.",
                "Pas de neige à Noël cette année.", "Le soir de Noël, rien.", "Encore un Noël sur le bateau."], ["Odile"]),
        ("pl", ["Dziś herbata z Anną w porcie.", "Potem poszedłem do Anny na chleb.", "Rano widziałem Annę na promie."], ["Anny, Anną, Annę"]),
        ("fi", ["Illalla kävelin Liisan kanssa satamaan.", "Sitten soitin Liisalle laivalta.", "Aamulla näin Liisan ja koiran."],
         ["Liisan, Liisalle"]),
        ("ru", ["Вечером чай с Анной на пароме.", "Потом я был у Анны в порту.", "Утром видел Анну у церкви."], ["Анну, Анны, Анной"]),
    ],
)  # fmt: skip
def test_other_languages_offer_people_and_no_things(language, texts, names):
    assert offered(texts, language) == names


@pytest.mark.parametrize("text", ["", "A", "\u05d0\u05de\u05d0", "\U0001f600 Ilze", "İlze ve Ilze", "(Ilze"])
def test_anything_can_be_looked_through(text):
    assert suggested([f"{text} {text}"] * 4) is not None
