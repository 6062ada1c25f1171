"""Languages without a stemmer in Snowball: what a word is without what is written on to it, and where words end."""

import pytest

from keeper.study.language import chinese, korean, listed
from keeper.study.language.words import content_words, stem
from keeper.study.people import ManyTexts, mentions


def stems(text, language):
    return [word.stem for word in content_words(text, languages=(language,))]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("바다에서 수영을 했다", ["바다", "수영"]),
        ("바다는 추웠고 수영은 짧았다", ["바다", "수영"]),
        ("눈이 산에 내렸다", ["눈", "산"]),
        ("병원에 갔습니다", ["병원"]),
    ],
)
def test_korean_words_are_told_without_their_particles(text, told):
    assert [one for one in stems(text, "ko") if one in told] == told


def test_a_korean_word_is_shown_without_its_particle():
    assert content_words("할머니에게 편지를", languages=("ko",))[0].spelling == "할머니"


def test_forms_of_to_be_tell_nothing_in_korean():
    assert [korean.base(word) for word in ("있습니다", "없었다", "이었다")] == ["", "", ""]


def test_a_korean_word_that_no_table_knows_loses_its_particle():
    assert korean.base("뷁꿹에서는") == "뷁꿹"


@pytest.mark.parametrize("text", ["민수가 왔다", "민수는 잤다", "민수의 배", "민수와 산책", "민수에게 편지를", "민수씨가 불렀다"])
def test_a_korean_name_is_the_same_with_whatever_is_written_on_to_it(text):
    assert content_words(text, languages=("ko",), names=("민수",))[0].stem == "민수"
    assert mentions(text, "민수")
    assert ManyTexts(["바다", text]).naming(["민수"]) == {1}


@pytest.mark.parametrize("text", ["지은이는 노래했다", "지은이가 왔다", "어제 김 지은이랑 수영", "지은아"])
def test_a_korean_name_that_ends_in_a_consonant_has_a_vowel_before_its_particles(text):
    assert "지은" in {word.stem for word in content_words(text, languages=("ko",), names=("지은",))}
    assert mentions(text, "지은")


@pytest.mark.parametrize(("word", "name"), [("민수기를", "민수"), ("솔로", "솔"), ("지은이들판", "지은"), ("김민수가", "민수")])
def test_a_longer_korean_word_is_no_name(word, name):
    assert not mentions(word, name)
    assert korean.named(word, (name,)) == word


@pytest.mark.parametrize(("forms"), [("הים", "ים", "לים"), ("הספר", "ספר", "בספר", "ספרים")])
def test_hebrew_words_are_one_with_the_small_words_before_them(forms):
    long = [form for form in forms if len(form) > 3]
    assert len({stem(form, "he") for form in long}) == 1 or len(long) < 2


def test_hebrew_small_words_written_together_are_small_words():
    assert stems("ובגלל הגשם", "he") == stems("גשם", "he")


@pytest.mark.parametrize(
    "forms", [("море", "моря", "морем", "морями"), ("подорож", "подорожі", "подорожей"), ("місто", "міста", "містом")]
)
def test_ukrainian_forms_have_one_stem(forms):
    assert len({stem(form, "uk") for form in forms}) == 1


def test_in_turkish_an_apostrophe_parts_a_name_from_its_endings():
    assert stems("Ankara'nın kışı, Ankara\u2019da kar", "tr")[:1] == stems("Ankara", "tr")
    assert stems("Ankara'nın Ankara\u2019da", "tr") == stems("Ankara Ankara", "tr")


def test_in_ukrainian_an_apostrophe_is_as_good_as_a_letter():
    assert stems("м'яч м\u2019ячі", "uk") == stems("м\u02bcяч", "uk") * 2


def test_chinese_is_parted_into_words():
    assert chinese.parted("黑海在北边", listed.ranks("zh"))[0] == "黑海"
    assert "旅游" in stems("我们参加了旅游活动", "zh")
    assert "雨" in stems("今天下雨", "zh") or "下雨" in stems("今天下雨", "zh")


def test_the_words_of_a_run_make_it_up_again():
    run = "土耳其三面环海西临爱琴海𠀀々"
    assert "".join(chinese.parted(run, listed.ranks("zh"))) == run


def test_without_a_table_chinese_comes_in_pairs(monkeypatch):
    monkeypatch.setattr(chinese, "ranks", lambda code: {})
    assert stems("旅游活动", "zh") == ["旅游", "游活", "活动"]


def test_a_name_in_chinese_stays_whole():
    told = content_words("和张小明去海边", languages=("zh",), names=("张小明",))
    assert "张小明" in [word.stem for word in told]
