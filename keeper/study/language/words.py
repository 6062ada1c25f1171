"""The shared tokeniser: from a person's line to the words that carry its meaning."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial

from keeper.shipped import resource
from keeper.study.language import chinese, hebrew, japanese, korean, ukrainian

# Code of a language -> its name in snowballstemmer; None = it has a module of its own here.
STEMMERS: dict[str, str | None] = {
    "ar": "arabic", "cs": "czech", "da": "danish", "de": "german", "el": "greek", "en": "english", "es": "spanish",
    "fi": "finnish", "fr": "french", "he": None, "hi": "hindi", "it": "italian", "ja": None, "ko": None, "nl": "dutch",
    "no": "norwegian", "pl": "polish", "pt": "portuguese", "ru": "russian", "sv": "swedish", "tr": "turkish", "uk": None,
    "zh": None,
}  # fmt: skip
LANGUAGES: tuple[str, ...] = tuple(STEMMERS)

_HAN = "\u3005\u3400-\u4dbf\u4e00-\u9fff\uf900-\ufaff\U00020000-\U0003ffff"
# What is written on to a word, or what it bends to, in languages without a stemmer in snowballstemmer.
_BASES: dict[str, Callable[[str], str]] = {"he": hebrew.base, "ko": korean.base}
_STEMS: dict[str, Callable[[str], str]] = {"he": hebrew.stem, "uk": ukrainian.stem}
# Of these a library or our table tells where a word ends; None from it where it cannot.
_PARTED: dict[str, Callable[[str], list[tuple[str, str]] | None]] = {
    "ja": japanese.content_words, "zh": chinese.content_words,
}  # fmt: skip
# In Turkish an apostrophe parts a name from its endings (Ankara'da); in Ukrainian it is as good as a letter (сім'я).
_APOSTROPHES: dict[str, Callable[[str], str]] = {
    "tr": partial(re.compile(r"(?<=\w)['\u2019]\w+").sub, ""), "uk": partial(re.compile(r"(?<=\w)['\u2019](?=\w)").sub, "\u02bc"),
}  # fmt: skip
# Characters so common in Chinese that they part the words around them.
_HAN_SMALL = "的了是我你他她它们很着把被让给跟吗呢吧啊这那"
_HIRAGANA = "\u3041-\u309f"
_KATAKANA = "\u30a0-\u30ff\u31f0-\u31ff\uff66-\uff9f"
# The script of a language, and the letters that its neighbours do not have.
_LETTERS = {
    "ar": "[\u0600-\u06ff]", "el": "[\u0370-\u03ff\u1f00-\u1fff]", "he": "[\u0590-\u05ff]", "hi": "[\u0900-\u097f]",
    "ja": f"[{_HIRAGANA}{_KATAKANA}]", "ko": "[\uac00-\ud7a3]", "ru": "[\u0400-\u04ff]", "uk": "[\u0400-\u04ff]",
    "zh": f"[{_HAN}]",
}  # fmt: skip
_OWN_LETTERS = {"ru": "[ыэёъ]", "uk": "[іїєґ]"}
_OVERLAPPED = {"han": 2, "unspaced": 3}
# Behind a character so few hiragana bend it (弾-いた); ご and お open words of their own (朝ごはん).
_ENDING = re.compile(f"[^ごお\\W][{_HIRAGANA}]{{0,2}}")
_SENTENCE_END = re.compile("[.!?:\u2026\u3002\uff01\uff1f\u201c\u201d\"]")
# Latin letters and all punctuation, and what is a word among them: no marks, nothing that is written without spaces.
_LATIN = re.compile("[\u0000-\u02ff\u2000-\u206f]*")
_LATIN_WORD = re.compile(r"[^\W\d_][^\W_]*")
_ASCII_WORD = re.compile(_LATIN_WORD.pattern, re.ASCII)  # the same, in half the time
_NEXT_TO = re.compile(r"\b([^\W\d_]+)(\.?)[ \u00a0](?=([^\W\d_]+))")
_HIGH_NEXT_TO = re.compile(r"\b([A-Z][A-Za-z]*)(\.?) (?=([A-Z][A-Za-z]*))", re.ASCII)  # those of them with capitals
_TITLE_LETTERS = 4  # of a title shortened with a point: Prof., Frl.
_UNSPACED = "\u0e00-\u0eff\u1000-\u109f\u1780-\u17ff"  # Thai, Lao, Myanmar, Khmer


@dataclass(frozen=True)
class Word:
    """A content word: the stem it is counted under, how the person wrote it, and whether it opened a sentence.

    At the opening of a sentence a capital letter says nothing of how the word is written elsewhere.
    """

    stem: str
    spelling: str
    opens: bool = False


def words(text: str) -> list[str]:
    """Every word of a text, as written, in order.

    A word is a run of letters, with marks and digits after the first letter; apostrophes and hyphens part words.
    Chinese characters and the letters of Thai, Lao, Myanmar and Khmer, which are written without spaces, come as
    overlapping pairs (threes for the latter), the usual stand-in for words in retrieval (Nie, Gao, Zhang & Zhou, 2000).
    Hiragana and katakana runs are words of their own.
    """
    return _ASCII_WORD.findall(text) if text.isascii() else [word for word, _, _ in _spoken(text)]


def word_count(text: str) -> int:
    """How many words a text has."""
    text = text if text.isascii() else unicodedata.normalize("NFC", text)
    return len(_LATIN_WORD.findall(text)) if _LATIN.fullmatch(text) else len(words(text))


def _spoken(text: str) -> list[tuple[str, bool, bool]]:
    """Every word with whether it opens a sentence, and whether it is but the ending of the word before."""
    text = text if text.isascii() else unicodedata.normalize("NFC", text)
    if _LATIN.fullmatch(text):
        return [(word, at == 0, False) for sentence in _latin(text) for at, word in enumerate(sentence)]
    found: list[tuple[str, bool, bool]] = []
    end, before = 0, None
    for match in _pattern().finditer(text):
        between = text[end : match.start()]
        # Nearly always one space, with nothing to look for in it.
        opens = not found or (between != " " and _SENTENCE_END.search(between) is not None)
        kind, word = match.lastgroup, match.group()
        if kind in _OVERLAPPED:
            found += [(part, opens, False) for part in _overlapping(word, _OVERLAPPED[kind])]
        else:
            bends = kind == "hiragana" and before == "han" and match.start() == end
            found.append((word, opens, bends and _ENDING.fullmatch(word) is not None))
        end, before = match.end(), kind
    return found


def _latin(text: str) -> Iterable[list[str]]:
    """The words of each sentence of a text in Latin letters."""
    return map((_ASCII_WORD if text.isascii() else _LATIN_WORD).findall, _SENTENCE_END.split(text))


def content_words(
    text: str,
    *,
    languages: Sequence[str] = ("en",),
    leave_out: Collection[str] = frozenset(),
    names: Iterable[str] = (),
) -> list[Word]:
    """The words of a line that can tell what it is about, in order, with repetitions.

    Function words and the words of time, degree and gladness are dropped, so are the person's own words to `leave_out`
    (in any case, with all words of the same stem). `names` of people, of one word or several, stay whole and are not
    stemmed. With several `languages` the language of the line is guessed among them. Japanese is parted into words by
    a dictionary, its verbs given in the form that stands there; the endings that it writes in hiragana are dropped.
    Chinese is parted by our table, and words in Korean are given without what is written on to them.
    """
    language = guess_language(text, languages) if len(languages) > 1 else languages[0]
    dropped, small = _dropped(frozenset(leave_out), language), _stop_words(language)
    text = _APOSTROPHES[language](text) if language in _APOSTROPHES else text
    if language in _PARTED:
        parted = _parted(text, tuple(names), _PARTED[language])
        if parted is not None:
            return [word for word in parted if not {word.stem, word.spelling.casefold()} & (dropped | small)]
    names = tuple(names)
    if text.isascii() and not names and not dropped:
        # Nearly all lines of many, so there is no need to make anything of their words on the way.
        found = [_plain_word(word, language, at == 0) for sentence in _latin(text) for at, word in enumerate(sentence)]
        return [word for word in found if word]
    kept, spoken = [], _spoken(text)
    if language == "ko" and names:
        spoken = [(korean.named(word, names), opens, ending) for word, opens, ending in spoken]
    for spelling, opens, is_name, ending in _with_names(spoken, names):
        if ending and not is_name:
            continue
        # Written small, Will is no name but a small word.
        named = is_name and spelling not in small
        word = _name_word(spelling) if named else _plain_word(spelling, language, opens)
        if word and word.stem not in dropped and spelling.casefold() not in dropped:
            kept.append(word)
    return kept


def _parted(text: str, names: tuple[str, ...], parting: Callable[[str], list[tuple[str, str]] | None]) -> list[Word] | None:
    """The words of a line that is written without spaces, names whole; None where its words cannot be parted."""
    found: list[Word] = []
    for part, is_name in _parted_by(unicodedata.normalize("NFC", text), names):
        told = [(part.casefold(), part)] if is_name else parting(part)
        if told is None:
            return None
        found += [Word(stem.casefold(), spelling) for stem, spelling in told]
    return found


def _parted_by(text: str, names: tuple[str, ...]) -> Iterable[tuple[str, bool]]:
    """The text in parts, and whether each is one of the names; where words have no edges, a name has none."""
    known = sorted({name for name in map(str.strip, names) if name}, key=lambda name: (-len(name), name))
    if not known:
        return [(text, False)]
    pattern = "|".join(_edged(unicodedata.normalize("NFC", name)) for name in known)
    return [(part, at % 2 == 1) for at, part in enumerate(re.split(f"({pattern})", text)) if part]


def _edged(name: str) -> str:
    """A pattern of a name; one in Latin letters is not found within a longer word of such."""
    latin = "[A-Za-z\u00c0-\u024f]"
    open_, close = (re.match(latin, letter) is not None for letter in (name[0], name[-1]))
    return f"(?<!{latin})" * open_ + re.escape(name) + f"(?!{latin})" * close


def stem(word: str, language: str = "en") -> str:
    """The lower-case stem of a word, by the Snowball algorithm of its language (Porter 2001) where that has one."""
    return _stem(unicodedata.normalize("NFC", word).casefold(), language)


def stop_words(language: str) -> frozenset[str]:
    """Lower-case words that say nothing of a theme in that language; empty for a language without a list of ours."""
    return _stop_words(language)


@lru_cache(maxsize=1)
def measures() -> frozenset[str]:
    """Lower-case numbers and units of several languages: what is counted, never what a line is about."""
    lines = resource("words/measures.txt").read_text("utf-8").splitlines()
    return frozenset(word for line in lines if not line.startswith("#") for word in line.split())


def guess_language(text: str, languages: Sequence[str]) -> str:
    """The one of `languages` whose small words (and letters) the text uses most; the first when nothing tells."""
    if not languages:
        raise ValueError("no languages to choose from")
    found = likenesses(text, languages)
    return languages[found.index(max(found))]


def likenesses(text: str, languages: Sequence[str]) -> list[float]:
    """How much of each language a text has: a small word of it counts 1."""
    spoken = [word.casefold() for word in words(text)]
    return [_likeness(spoken, code) for code in languages]


def standing_names(texts: Sequence[str], *, languages: Sequence[str] = ("en",), least: int = 3) -> tuple[str, ...]:
    """Pairs of capitalised words that make one name, such as a title and its bearer, found from the texts themselves.

    The second must come with that first word in three of four times, and with a capital nearly always; the pair at
    least `least` times (a collocation in the sense of Manning & Schuetze 1999, chapter 5: frequency with a filter). The
    first may open a sentence, where its capital says nothing; the second cannot, since it follows a word.
    """
    small = frozenset().union(*(_stop_words(language) for language in languages))
    pairs: Counter[tuple[str, str]] = Counter()
    for text in texts:
        for first, point, second in (_HIGH_NEXT_TO if text.isascii() else _NEXT_TO).findall(text):
            if first[0].isupper() and second[0].isupper() and (not point or len(first) <= _TITLE_LETTERS):
                pairs[first, second] += 1
    often = {pair: times for pair, times in pairs.items() if times >= least and not small & {w.casefold() for w in pair}}
    if not often:
        return ()
    seconds = {second.casefold() for _, second in often}
    written = Counter(word for text in texts for word in words(text) if word.casefold() in seconds)
    return tuple(sorted(" ".join(pair) for pair, times in often.items() if _belongs(pair[1], times, written)))


def _belongs(second: str, times: int, written: Counter[str]) -> bool:
    in_all = sum(count for word, count in written.items() if word.casefold() == second.casefold())
    return times >= 0.75 * in_all and written[second] >= 0.8 * in_all


def _likeness(spoken: list[str], language: str) -> float:
    small = _stop_words(language)
    letters = _LETTERS.get(language)
    by_script = sum(1 for word in spoken if letters and re.match(letters, word))
    own = _OWN_LETTERS.get(language)
    by_script += sum(1 for word in spoken if own and re.search(own, word))
    # Kana settle it: a line with any is Japanese, however many characters it shares with Chinese.
    return sum(word in small for word in spoken) + by_script * (5.0 if language == "ja" else 0.5)


@lru_cache(maxsize=1)
def _pattern() -> re.Pattern[str]:
    # Python's \w leaves out the vowel signs of Indic scripts and other marks; without them words fall to pieces.
    marks = "".join(re.escape(c) for c in map(chr, range(0x300, 0x10000)) if unicodedata.category(c)[0] == "M")
    unspaced, letter = f"[{_UNSPACED}]", f"[^\\W\\d_{_HAN}{_HIRAGANA}{_KATAKANA}{_UNSPACED}]"
    return re.compile(
        f"(?P<small>[{_HAN_SMALL}])|(?P<han>(?:(?![{_HAN_SMALL}])[{_HAN}])+)|(?P<hiragana>[{_HIRAGANA}]+)|(?P<katakana>[{_KATAKANA}]+)"
        f"|(?P<unspaced>{unspaced}+)|(?P<word>{letter}(?:{letter}|\\d|[{marks}])*)"
    )


def _overlapping(run: str, size: int) -> list[str]:
    return [run[i : i + size] for i in range(max(1, len(run) - size + 1))]


@lru_cache(maxsize=200_000)
def _plain_word(spelling: str, language: str, opens: bool) -> Word | None:
    low, small = spelling.casefold(), _stop_words(language)
    bare = _BASES[language](low) if language in _BASES else low
    alone = len(low) == 1 and not re.match(f"[{_HAN}{_KATAKANA}]", low) and not korean.is_korean(bare)
    if not bare or alone or low in small or bare in small:
        return None
    if language == "he" and not small.isdisjoint(hebrew.behind(low)):
        return None
    # What is written on to a word is no part of it where it is shown either.
    return Word(_stem(low, language), bare if language == "ko" and bare != low else spelling, opens)


@lru_cache(maxsize=10_000)
def _name_word(spelling: str) -> Word:
    return Word(spelling.casefold(), spelling)


def _with_names(
    spoken: list[tuple[str, bool, bool]], names: tuple[str, ...]
) -> Iterable[tuple[str, bool, bool, bool]]:
    """The words again (word, opens, is a name, is an ending), those that together make a name joined with a space."""
    if not names:
        yield from ((word, opens, False, ending) for word, opens, ending in spoken)
        return
    known = _name_keys(names)
    low, at = [word.casefold() for word, _, _ in spoken], 0
    while at < len(spoken):
        length = next((len(k) for k in known.get(low[at], ()) if tuple(low[at : at + len(k)]) == k), 0)
        step = max(1, length)
        yield " ".join(word for word, _, _ in spoken[at : at + step]), spoken[at][1], length > 0, spoken[at][2]
        at += step


@lru_cache(maxsize=64)
def _name_keys(names: tuple[str, ...]) -> dict[str, list[tuple[str, ...]]]:
    """First word of each name -> the names that begin so, as tuples of lower-case words, longest first."""
    keys: dict[str, list[tuple[str, ...]]] = {}
    for key in sorted({tuple(w.casefold() for w in words(name)) for name in names}, key=lambda k: (-len(k), k)):
        if key:
            keys.setdefault(key[0], []).append(key)
    return keys


@lru_cache(maxsize=64)
def _dropped(leave_out: frozenset[str], language: str) -> frozenset[str]:
    low = {unicodedata.normalize("NFC", word).casefold().strip() for word in leave_out}
    return frozenset(low | {_stem(word, language) for word in low})


@lru_cache(maxsize=32)
def _stop_words(language: str) -> frozenset[str]:
    if language not in STEMMERS:
        return frozenset()
    lines = resource(f"words/stop/{language}.txt").read_text("utf-8").splitlines()
    return frozenset(word.casefold() for line in lines if not line.startswith("#") for word in line.split())


@lru_cache(maxsize=200_000)
def _stem(low: str, language: str) -> str:
    low = (_BASES[language](low) if language in _BASES else low) or low
    if language in _STEMS:
        return _STEMS[language](low)
    stemmer = _stemmer(language)
    return stemmer.stemWord(low) if stemmer else low


@lru_cache(maxsize=32)
def _stemmer(language: str):
    import snowballstemmer

    name = STEMMERS.get(language)
    return snowballstemmer.stemmer(name) if name else None
