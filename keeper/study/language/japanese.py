"""Japanese, which is written without spaces: its words as a dictionary parts them, and the names of people in it.

The words are parted by MeCab (T. Kudo) with the IPA dictionary; the names of the parts of speech are that dictionary's.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from threading import Lock

NOUN, VERB, ADJECTIVE, BEFORE = "名詞", "動詞", "形容詞", "接頭詞"
_SUFFIX, _PROPER, _PERSON = "接尾", "固有名詞", "人名"
_EMPTY_NOUNS = frozenset({"非自立", "代名詞", "数", "特殊", "接続詞的", "動詞非自立的"})
_ALONE = "自立"
_COUNTS = "助数詞"

HONORIFICS = ("先生", "さん", "くん", "ちゃん", "さま", "君", "様", "氏", "殿")
"""What stands behind the name of a person."""

_LONGEST = 10_000  # letters parted at a time
_HAN, _HIRAGANA = re.compile("[\u3400-\u9fff\U00020000-\U0003ffff]"), re.compile("[\u3041-\u309f]{2,}")
_lock = Lock()


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of text as the dictionary knows it: as written, part of speech, the finer kinds of it, and its own form."""

    text: str
    part: str
    kinds: tuple[str, ...]
    plain: str


def pieces(text: str) -> tuple[Piece, ...] | None:
    """The pieces of a text in order, without blanks; None where the library or its dictionary is missing."""
    tagger = _tagger()
    if tagger is None:
        return None
    # It takes C strings, and parts no more than a row at a time.
    clean = "".join(letter if letter.isprintable() else " " for letter in text)
    with _lock:
        told = "\n".join(tagger.parse(clean[at : at + _LONGEST]) for at in range(0, len(clean), _LONGEST))
    return tuple(_piece(*row.split("\t", 1)) for row in told.splitlines() if "\t" in row)


def _piece(text: str, told: str) -> Piece:
    features = told.split(",")
    plain = features[6] if len(features) > 6 and features[6] != "*" else text
    return Piece(text, features[0], tuple(features[1:4]), plain)


@lru_cache(maxsize=1)
def _tagger():
    try:
        import ipadic
        import MeCab

        return MeCab.Tagger(ipadic.MECAB_ARGS)
    except (ImportError, RuntimeError):
        return None


def content_words(text: str) -> list[tuple[str, str]] | None:
    """(stem, word) of each noun, verb and adjective, in order; None where they cannot be told apart.

    What stands before and behind a noun belongs to it: お茶, 自転車屋, 田中さん. Verbs and adjectives are given in the
    form of the dictionary; their stem is what does not bend (食べる: 食べ).
    """
    found = pieces(text)
    return None if found is None else [word for word in _joined(found) if word[0]]


def _joined(found: tuple[Piece, ...]) -> Iterator[tuple[str, str]]:
    noun = ""
    for piece in found:
        if piece.part == BEFORE:
            if noun:
                yield noun, noun
            noun = piece.text
        elif _belongs(piece, noun):
            noun += piece.text
        else:
            if noun:
                yield noun, noun
            noun = piece.text if _is_noun(piece) else ""
            if piece.part in (VERB, ADJECTIVE) and piece.kinds[0] == _ALONE:
                yield (piece.plain[:-1] or piece.plain), piece.plain
    if noun:
        yield noun, noun


def _is_noun(piece: Piece) -> bool:
    return piece.part == NOUN and piece.kinds[0] not in _EMPTY_NOUNS and piece.kinds[0] != _SUFFIX


def _belongs(piece: Piece, noun: str) -> bool:
    """Whether a piece goes on with the noun before it: a suffix, or the noun behind お or ご."""
    if not noun or piece.part != NOUN or _COUNTS in piece.kinds:
        return False
    return piece.kinds[0] == _SUFFIX or (noun in ("お", "ご", "御") and _is_noun(piece))


def bends(word: str) -> bool:
    """Whether a word ends in hiragana, as verbs and adjectives do in the form of the dictionary."""
    return len(word) > 1 and "\u3041" <= word[-1] <= "\u309f"


def people(text: str) -> list[str]:
    """Names of people, each with what honours them behind it (田中さん, アンナ先生), in order.

    A common noun so honoured is somebody's trade (店員さん), or kin, and no name.
    """
    found, named, before = pieces(text) or (), [], []
    for piece in found:
        if piece.text in HONORIFICS and before:
            named.append("".join(before) + piece.text)
        if _may_be_name(piece):
            before = [*before, piece.text] if before and _PERSON in piece.kinds else [piece.text]
        else:
            before = []
    return named


def _may_be_name(piece: Piece) -> bool:
    if piece.text in HONORIFICS:
        return False
    if piece.part == NOUN and (piece.kinds[0] == _PROPER or not _HAN.search(piece.text)):
        return piece.kinds[0] not in _EMPTY_NOUNS and piece.kinds[0] != _SUFFIX
    # A name in hiragana may be taken for a verb: けんじくん.
    return piece.part == VERB and _HIRAGANA.fullmatch(piece.text) is not None
