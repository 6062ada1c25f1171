import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.study.language.words import (
    _HIGH_NEXT_TO,
    _LATIN,
    _LATIN_WORD,
    _NEXT_TO,
    LANGUAGES,
    Word,
    _latin,
    _pattern,
    _spoken,
    content_words,
    guess_language,
    standing_names,
    stem,
    stop_words,
    word_count,
    words,
)


def stems(text, **how):
    return [word.stem for word in content_words(text, **how)]


def test_small_words_and_words_of_gladness_are_dropped_but_things_stay():
    assert stems("I was so happy to work at home today and help with good bread") == ["work", "home", "help", "bread"]


def test_spelling_is_the_persons_own():
    assert content_words("We baked in Gdańsk") == [Word("bake", "baked"), Word("gdańsk", "Gdańsk")]


def test_opening_of_a_sentence_is_marked():
    assert [word.opens for word in content_words("Bread. Herring, soup")] == [True, True, False]


@given(st.text("abAB1_ .-\t", max_size=20))
def test_names_in_plain_letters_are_looked_for_among_the_same_pairs(text):
    both = [pair for pair in _NEXT_TO.findall(text) if pair[0][0].isupper() and pair[2][0].isupper()]
    assert _HIGH_NEXT_TO.findall(text) == both
    assert words(text) == [word for word, _, _ in _spoken(text)]


@pytest.mark.parametrize("text", ["Bread. Herring, soup: a 3rd \"tuned\" grand, I'd say", "4 keys!? ... b-flat_low", " . ", "", "Strings..."])
def test_a_line_is_heard_alike_whether_there_are_names_to_look_for(text):
    assert content_words(text) == content_words(text, names=("Solveig",)) == content_words(text, leave_out={"Solveig"})
    longer = content_words(f"{text} \u2026 K\u00f8benhavn")
    assert longer[:-1] == content_words(text) and longer[-1].opens


@given(st.text(st.characters(max_codepoint=0x2FF) | st.characters(min_codepoint=0x2000, max_codepoint=0x206F)))
def test_among_latin_letters_the_short_way_finds_the_same_words(text):
    assert _LATIN.fullmatch(text)
    assert _LATIN_WORD.findall(text) == [match.group() for match in _pattern().finditer(text)]
    assert [word for sentence in _latin(text) for word in sentence] == _LATIN_WORD.findall(text)


@given(st.text())
def test_words_are_counted_as_they_are_found(text):
    assert word_count(text) == len(words(text))


def test_names_stay_whole_and_unstemmed():
    found = content_words("Then frau Petersen and Niels baked", names=["Frau Petersen", "Niels"])
    assert [word.stem for word in found] == ["frau petersen", "niels", "bake"]


def test_the_longest_name_wins():
    assert stems("Anna Maria sang", names=["Anna", "Anna Maria"]) == ["anna maria", "sang"]


def test_words_to_leave_out_go_with_all_of_their_stem():
    assert stems("Tuning tuned tunes bread", leave_out={"TUNING"}) == ["bread"]


def test_possessives_and_contractions():
    assert stems("the dog's lead wasn't there, l'été") == ["dog", "lead", "été"]


def test_marks_do_not_part_words():
    assert words("हिन्दी में") == ["हिन्दी", "में"]
    assert words("cafe\u0301") == ["café"]


def test_scripts_without_spaces_come_in_pairs():
    assert words("北京大学") == ["北京", "京大", "大学"]
    assert words("コーヒーを飲む") == ["コーヒー", "を", "飲", "む"]
    assert "我" not in stems("我在公园散步", languages=("zh",))


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_language_has_a_list(language):
    small = stop_words(language)
    assert len(small) > 80
    assert all(word == word.casefold() for word in small)


def test_english_list_keeps_what_a_theme_is_made_of():
    assert not stop_words("en") & {"home", "work", "help", "dinner", "dog", "friend", "family", "walk", "school", "sea"}


def test_japanese_is_parted_into_words_as_a_dictionary_has_them():
    said = content_words("母と一緒に自転車で教会へ。ピアノを弾いた。朝ごはんを食べたね、おにぎり", languages=("ja",))
    assert [word.spelling for word in said] == ["母", "自転車", "教会", "ピアノ", "弾く", "ごはん", "食べる", "おにぎり"]
    assert [word.stem for word in said][4:7:2] == ["弾", "食べ"]
    assert stems("弾いて、弾かない、弾けば", languages=("ja",)) == ["弾", "弾", "弾"]


@pytest.mark.parametrize("text", ["庭に花があって、猫もいた。", "花がきれいでした", "それは花のようなものだった"])
def test_particles_and_endings_of_japanese_are_no_words(text):
    assert {word.spelling for word in content_words(text, languages=("ja",))} <= {"庭", "花", "猫"}


def test_what_stands_before_and_behind_a_japanese_noun_belongs_to_it():
    said = content_words("お茶を二杯、自転車屋の田中さんと", languages=("ja",))
    assert [word.spelling for word in said] == ["お茶", "自転車屋", "田中さん"]


def test_names_in_japanese_stay_whole():
    assert stems("恵み、海", languages=("ja",), names=("恵み",)) == ["恵み", "海"]
    assert stems("母の恵子さんとAnna", languages=("ja",), names=("Ann", "恵子さん")) == ["母", "恵子さん", "anna"]
    assert stems("Annaさんの海", languages=("ja",), names=("Anna",))[0] == "anna"


def test_without_the_dictionary_japanese_comes_in_pairs(monkeypatch):
    monkeypatch.setattr("keeper.study.language.japanese._tagger", lambda: None)
    assert stems("自転車", languages=("ja",)) == ["自転", "転車"]


@given(st.text(st.sampled_from("自転車で走ったAnna \n\x00\ud800、。ー＿\U0001f600"), max_size=40))
def test_any_text_can_be_parted_as_japanese(text):
    assert all(word.stem and word.spelling for word in content_words(text, languages=("ja",), names=("走",)))


def test_language_without_a_list_is_taken_as_it_stands():
    assert stems("ett tvo þrjú", languages=("is",)) == ["ett", "tvo", "þrjú"]
    assert stem("Bækur", "is") == "bækur"


@pytest.mark.parametrize(
    ("text", "language"),
    [
        ("Heute habe ich mit der Nachbarin Brot gebacken", "de"),
        ("Today I baked bread with the neighbour", "en"),
        ("Aujourd'hui j'ai fait du pain avec la voisine", "fr"),
        ("сегодня был дождь", "ru"),
        ("今日は雨でした", "ja"),
        ("今天下雨了", "zh"),
    ],
)
def test_language_of_a_line(text, language):
    assert guess_language(text, ("en", "de", "fr", "ru", "ja", "zh")) == language


def test_first_language_when_nothing_tells():
    assert guess_language("42", ("sv", "en")) == "sv"
    with pytest.raises(ValueError, match="no languages"):
        guess_language("x", ())


def test_each_line_is_stemmed_in_its_own_language():
    assert stems("Wir haben mit den Hunden gebacken", languages=("en", "de")) == ["hund", "geback"]


@given(st.text(max_size=80))
def test_any_text_gives_words_without_blanks(text):
    for word in content_words(text):
        assert word.stem
        assert not any(c.isspace() for c in word.spelling)


@given(st.text(max_size=80))
def test_words_are_parts_of_the_text(text):
    import unicodedata

    normal = unicodedata.normalize("NFC", text)
    assert all(word in normal for word in words(text))


def test_a_title_and_its_bearer_are_one_name():
    texts = ["Frau Petersen lit the stove.", "Tea with Frau Petersen.", "Then Frau Petersen's apples.", "Prof. Adler rang."]
    assert standing_names(texts) == ("Frau Petersen",)
    assert standing_names([*texts, "To Prof. Adler.", "From Prof. Adler."]) == ("Frau Petersen", "Prof Adler")


@pytest.mark.parametrize(
    "texts",
    [
        ["Saw Henning. Maren came.", "Rang Henning. Maren slept.", "Met Henning. Maren sang."],
        ["On Monday Maren came.", "On Monday Maren slept.", "On Monday Maren sang."],
        ["Dear Maren came.", "Dear Maren slept.", "Dear Maren sang.", "Maren", "Maren", "Maren"],
        ["MY DOG SLEPT", "MY DOG SANG", "MY DOG CAME", "a dog", "the dog"],
        ["red bread", "red bread", "red bread"],
    ],
)
def test_words_that_only_meet_are_no_name(texts):
    assert standing_names(texts) == ()
