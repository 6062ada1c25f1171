"""Lines in several languages: which each is in, and their words."""

import random
from datetime import date, timedelta

import pytest
from diary_lines import shuffled
from waiting.when_used import WhenUsed

from keeper.study.themes import group_lines
from keeper.study.themes.fitted import Fitted, Speech
from keeper.study.themes.nouns import ThemeLine
from keeper.study.themes.rebuilding import rebuild
from keeper.study.tongues.heard import heard, languages_of
from keeper.study.tongues.keyed import bare, keyed

metrics = WhenUsed("sklearn.metrics")

SUBJECTS = {
    "en": {
        "bread": ["bread", "flour", "oven", "baked", "loaf", "dough", "butter", "kitchen", "cake", "soup"],
        "sea": ["swam", "waves", "harbour", "boat", "sail", "tide", "beach", "shore", "island", "lighthouse"],
        "music": ["piano", "choir", "sang", "strings", "concert", "organ", "melody", "violin", "song", "hymn"],
        "garden": ["garden", "roses", "planted", "tree", "apples", "seeds", "weeds", "hedge", "flowers", "tulips"],
        "health": ["doctor", "wrist", "fever", "cough", "medicine", "hospital", "pain", "nurse", "bandage", "clinic"],
    },
    "de": {
        "bread": ["Brot", "Mehl", "Ofen", "gebacken", "Laib", "Teig", "Butter", "Küche", "Kuchen", "Suppe"],
        "sea": ["geschwommen", "Wellen", "Hafen", "Boot", "Segel", "Flut", "Strand", "Ufer", "Insel", "Leuchtturm"],
        "music": ["Klavier", "Chor", "gesungen", "Saiten", "Konzert", "Orgel", "Melodie", "Geige", "Lied", "Choral"],
        "garden": ["Garten", "Rosen", "gepflanzt", "Baum", "Äpfel", "Samen", "Unkraut", "Hecke", "Blumen", "Tulpen"],
        "health": ["Arzt", "Handgelenk", "Fieber", "Husten", "Medizin", "Krankenhaus", "Schmerzen", "Krankenschwester", "Verband", "Klinik"],
    },
    "ja": {
        "bread": ["パン", "小麦粉", "オーブン", "ケーキ", "バター", "台所", "スープ", "料理", "生地", "菓子"],
        "sea": ["海", "波", "港", "船", "帆", "浜辺", "岸", "島", "灯台", "水泳"],
        "music": ["ピアノ", "合唱", "歌", "弦", "演奏会", "オルガン", "旋律", "バイオリン", "曲", "音楽"],
        "garden": ["庭", "薔薇", "木", "林檎", "種", "雑草", "生垣", "花", "チューリップ", "植物"],
        "health": ["医者", "手首", "熱", "咳", "薬", "病院", "痛み", "看護師", "包帯", "診療所"],
    },
}
PATTERN = {"en": "We had the {} and then {} with the {} and {}.", "de": "Wir hatten {} und dann {} mit dem {} und {}.", "ja": "{}と{}と{}と{}です。"}
NIGHT = date(2024, 1, 1)


def lines_in(languages, count=150, seed=0):
    """Subject, language and text of lines, some in a language and then some in another."""
    rng = random.Random(seed)
    made = []
    for i in range(count):
        language = languages[i // 3 % len(languages)]
        subject = rng.choice(sorted(SUBJECTS[language]))
        made.append((subject, language, PATTERN[language].format(*rng.sample(SUBJECTS[language][subject], 4))))
    return made


def themes_of(made):
    return [[one[at] for one in made] for at in range(3)]


@pytest.mark.parametrize("languages", [("de",), ("ja",), ("de", "en"), ("en", "ja")])
def test_lines_find_their_themes(languages):
    subjects, spoken, texts = themes_of(lines_in(languages))
    labels = group_lines(texts, count=5, language=languages)
    assert metrics.adjusted_mutual_info_score(subjects, labels) > 0.75
    assert metrics.adjusted_mutual_info_score(spoken, labels) < 0.12


@pytest.mark.parametrize("languages", [("de",), ("ja",), ("de", "en")])
def test_a_number_of_themes_is_found(languages):
    texts = themes_of(lines_in(languages))[2]
    assert len(set(group_lines(texts, language=languages)) - {-1}) >= 4


@pytest.mark.parametrize("seed", [1, 2])
def test_two_languages_alone_are_no_themes(seed):
    made = lines_in(("de", "en"), seed=seed)
    texts = []
    for language in ("de", "en"):
        texts += shuffled([text for _, spoken, text in made if spoken == language], seed)
    assert set(group_lines(texts, language=("de", "en"))) == {-1}


def as_groups(labels):
    """Positions of the lines of each theme."""
    return {frozenset(i for i, label in enumerate(labels) if label == one) for one in set(labels) - {-1}}


@pytest.mark.parametrize("seed", [1, 2])
def test_the_order_of_lines_and_of_languages_changes_nothing_but_numbers(seed):
    made = lines_in(("en", "de", "ja"), 120)
    lines = [ThemeLine(f"{i:03}", text, NIGHT + timedelta(i)) for i, (_, _, text) in enumerate(made)]
    mixed, languages = random.Random(seed).sample(lines, len(lines)), random.Random(seed).sample(["de", "en", "ja"], 3)
    found = [rebuild(some, speech=Speech(tuple(order))) for some, order in ((lines, ("de", "en", "ja")), (mixed, languages))]
    groups = [{frozenset(line for line, _ in theme.members) for theme in themes.themes} for themes in found]
    assert groups[0] == groups[1]
    assert len(groups[0]) > 2


@pytest.mark.parametrize("count", [None, 5])
def test_the_order_of_texts_changes_nothing_but_numbers(count):
    texts = themes_of(lines_in(("de",), 120))[2]
    order = random.Random(0).sample(range(len(texts)), len(texts))
    labels = dict(zip(order, group_lines([texts[i] for i in order], count=count, language="de"), strict=True))
    assert as_groups([labels[i] for i in range(len(texts))]) == as_groups(group_lines(texts, count=count, language="de"))


def test_a_line_that_does_not_tell_is_in_the_language_of_those_beside_it():
    texts = ["Wir sind mit dem Zug gefahren.", "Zorrp!", "Es war sehr kalt und es gab Suppe."]
    assert languages_of(texts, ("en", "de")) == ["de", "de", "de"]
    assert languages_of(["We were on the train.", "Zorrp!", "It was cold and there was soup."], ("de", "en"))[1] == "en"


def test_one_spelling_is_two_words_in_two_languages():
    english, german = heard(["The gift of a book was there.", "Das Gift war in dem Buch."], ("de", "en"))
    assert keyed("gift", "en") in {word.stem for word in english}
    assert keyed("gift", "de") in {word.stem for word in german}


def test_a_name_is_one_word_in_the_language_of_most_of_its_lines():
    texts = ["We met with Petersen on the train.", "Mit dem Petersen war es sehr kalt.", "Es war der Petersen und ich."]
    stems = [[word.stem for word in doc if word.spelling == "Petersen"] for doc in heard(texts, ("en", "de"))]
    assert len({stem for some in stems for stem in some}) == 1
    assert bare(stems[0][0])[1] == "de"


def test_names_of_people_have_no_language():
    docs = heard(["We met with Anna on the train.", "Mit der Anna war es sehr kalt."], ("en", "de"), names=["Anna"])
    assert all("anna" in {word.stem for word in doc} for doc in docs)


def test_a_new_line_in_either_language_finds_the_theme():
    made = lines_in(("de", "en"))
    lines = [ThemeLine(f"{i:03}", text, NIGHT + timedelta(i)) for i, (_, _, text) in enumerate(made)]
    found = rebuild(lines, speech=Speech(("de", "en")))
    kept = Fitted.from_bytes(found.fitted.to_bytes())
    placed = {kept.place(text).theme for text in ("We swam in the waves by the harbour.", "Wellen am Strand und das Boot im Hafen.")}
    assert len(placed) == 1 and None not in placed


def test_the_words_of_one_language_have_no_sign_of_it():
    assert [word.stem for word in heard(["Warme Suppe und Brot."], ("de",))[0]] == ["warm", "supp", "brot"]
