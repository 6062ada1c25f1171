"""Korean, which writes its particles and endings on to its words: what a word is without them.

The longest word of the shipped table that it begins with is the word (longest match, as in Korean retrieval since J. H. Lee
and J. S. Ahn, Using n-grams for Korean text retrieval, SIGIR 1996); of words that the table does not know the particles are
taken off.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from keeper.study.language.listed import ranks

PARTICLES = tuple(sorted(
    ["은", "는", "이", "가", "을", "를", "의", "에", "에서", "에게", "에게서", "한테", "께서", "로", "으로", "와", "과", "도", "만", "까지", "부터", "보다", "처럼", "마다", "조차", "밖에", "라도", "이라도", "나", "이나", "랑", "이랑", "하고", "들", "들이", "들은", "들을", "들의", "들에게", "들과", "들도", "에는", "에도", "에만", "에서는", "에서도", "으로는", "으로도", "로는", "로도", "로서", "으로서", "로써", "으로써", "과는", "와는", "과의", "와의", "에서의", "으로의", "로의", "에의", "까지의", "부터의", "만이", "만을", "이란", "란", "이라는", "라는", "이라고", "라고", "이며", "이고", "이다", "였다", "이었다", "입니다", "였습니다", "이었습니다", "인", "이지만", "지만", "적", "적인", "적으로", "적이", "야", "아", "네", "씨", "씨가", "씨는", "씨와", "씨를"],
    key=lambda one: (-len(one), one),
))  # fmt: skip
_DOING = ("하", "했", "한", "할", "함", "해", "합", "되", "된", "됐", "될", "됨", "돼", "됩", "시키", "시켰", "시킨", "시킬")
_BEING = ("있", "없", "않", "했", "합니", "됐", "됩니", "됐", "싶", "이었", "였")  # what begins so is a form of to be, to do, to wish
SHORT = frozenset(
    ["눈", "물", "산", "강", "집", "책", "밥", "개", "말", "길", "꽃", "비", "달", "별", "불", "술", "차", "빵", "옷", "방", "문", "손", "발", "목", "배", "귀", "코", "입", "몸", "피", "땅", "돈", "꿈", "춤", "잠", "글", "새", "소", "닭", "쥐", "뱀", "곰", "풀", "숲", "섬", "절", "역", "벽", "칼", "공", "빛", "봄", "낮", "밤", "병", "약", "뼈", "살", "떡", "국", "김", "콩", "쌀", "컵", "종", "북", "돌", "흙", "벌", "시", "형", "딸", "삶", "논", "밭", "뜰", "솔", "탑", "궁", "항", "곡", "탕", "죽", "면", "껌", "실", "천", "솜", "금", "철", "납", "재", "굴", "꿀", "젖", "알", "털", "뿔", "혀", "턱", "팔", "숨", "땀", "침", "똥", "잎", "무", "파", "감", "귤", "잣", "회", "햄", "잼", "솥", "잔", "줄", "끈"]
)
"""Words of one syllable that say what a line is about; others of that length are endings, or parts of words."""
_OF_NAMES = "(?:씨|님)?이?(?:" + "|".join(PARTICLES) + "|에게는|에게도|한테서|한테는|한테도|께|께서는|랑은|이라|여)?"
"""A pattern of what is written on to a name: who is honoured, 이 behind a consonant, particles."""


def behind_name(name: str) -> str:
    """A pattern of what may be written on to a name; "" where nothing is: another script, or one syllable, as many words begin."""
    last = name.split()[-1] if name.split() else ""
    return _OF_NAMES if len(last) > 1 and is_korean(last[-1]) else ""


@lru_cache(maxsize=100_000)
def named(word: str, names: tuple[str, ...]) -> str:
    """The last word of one of the names without what is written on to it; any other word as it is."""
    for name in names:
        last = unicodedata.normalize("NFC", name).split()[-1:]
        if last and word.startswith(last[0]) and re.fullmatch(behind_name(last[0]), word[len(last[0]) :]):
            return last[0]
    return word


def is_korean(word: str) -> bool:
    """Whether a word begins in the Korean script."""
    return "\uac00" <= word[:1] <= "\ud7a3"


@lru_cache(maxsize=100_000)
def base(word: str) -> str:
    """A word without what is written on to it; "" where nothing of it tells what a line is about."""
    if not is_korean(word):
        return word
    if word.startswith(_BEING):
        return ""
    known = ranks("ko")
    found = _known(word, known) or _without_particle(word)
    return found if len(found) > 1 or found in SHORT else ""


def _known(word: str, known: dict[str, int]) -> str:
    if word in known and len(word) > 1:
        return word
    for particle in PARTICLES:
        left = word.removesuffix(particle)
        if left != word and left in (known if len(left) > 1 else SHORT):
            return left
    return next((word[:end] for end in range(len(word) - 1, 1, -1) if word[:end] in known), "")


def _without_particle(word: str) -> str:
    left = next((word.removesuffix(one) for one in PARTICLES if word.endswith(one) and len(word) > len(one)), word)
    if left != word:
        return left
    return next((word[:end] for end in range(len(word) - 1, 1, -1) if word[end:].startswith(_DOING)), word)
