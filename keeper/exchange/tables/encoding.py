"""In which encoding a file of text is written."""

import codecs
from pathlib import Path

_MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF32_LE, "utf-32"), (codecs.BOM_UTF32_BE, "utf-32"),
          (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))  # fmt: skip

OFFERED = ("utf-8", "cp1252", "cp1250", "cp1251", "cp1253", "cp1254", "cp1255", "cp1256", "cp1257", "mac_roman", "cp850",
           "koi8_r", "shift_jis", "euc_jp", "gb18030", "big5", "euc_kr", "utf-16", "utf-16-le", "utf-16-be")  # fmt: skip
"""Encodings to choose from, as Python calls them."""

_GUESSED = tuple(name for name in OFFERED if not name.startswith("utf"))

_TYPED = "\u2018\u2019\u201a\u201c\u201d\u201e\u2013\u2014\u2026\u20ac\u00a0\u00ab\u00bb\u00a1\u00bf\u00b0\u00b7\u2022\u00bd\u00bc\u00d7"

_AT_ONCE, _LOOKED_AT = 1 << 20, 12_000


def encoding_of(path: Path) -> str:
    """The encoding, as Python calls it: by its mark, else UTF-8 if all of it can be that, else the likeliest.

    Raises OSError.
    """
    with path.open("rb") as file:
        first = file.read(_AT_ONCE)
        for mark, name in _MARKS:
            if first.startswith(mark):
                return name
        if wide := _without_mark(first[:2000]):
            return wide
        decoder, part = codecs.getincrementaldecoder("utf-8")(), first
        try:
            while part:
                # The end may lie within a letter, and then it is none.
                after = file.read(_AT_ONCE)
                decoder.decode(part, final=not after)
                part = after
        except UnicodeDecodeError:
            return _likeliest(part)
        return "utf-8"


def _without_mark(first: bytes) -> str:
    """UTF-16 tells itself: every other byte of Latin letters is nought."""
    even, odd = first[0::2].count(0), first[1::2].count(0)
    if max(even, odd) < len(first) // 5 or not first:
        return ""
    return "utf-16-be" if even > odd * 3 else "utf-16-le" if odd > even * 3 else ""


def _likeliest(part: bytes) -> str:
    # Only the lines that tell: most of a text is ASCII in whatever encoding.
    telling = b"\n".join(line for line in part.splitlines() if not line.isascii())[:_LOOKED_AT]
    return "cp1252" if _is_western(telling) else _by_library(telling)


def _is_western(telling: bytes) -> bool:
    """Whether in the most usual encoding all that is not ASCII are letters among others, or signs that people type."""
    text = telling.decode("cp1252", "replace")
    foreign = [at for at, letter in enumerate(text) if not letter.isascii()]
    signs = sum(not text[at].isalpha() and text[at] not in _TYPED for at in foreign)
    # In Greek or Russian they stand one beside another.
    beside = sum(text[at].isalpha() and not text[at - 1 : at].isascii() for at in foreign)
    return signs * 20 <= len(foreign) and beside * 4 <= len(foreign)


def _by_library(telling: bytes) -> str:
    from charset_normalizer import from_bytes

    try:
        best = from_bytes(telling, cp_isolation=list(_GUESSED), steps=5, chunk_size=1024).best()
    except Exception:
        # A library's guess about bytes of whatever kind: without it there is the most usual one.
        best = None
    return best.encoding if best and best.encoding in _GUESSED else "cp1252"
