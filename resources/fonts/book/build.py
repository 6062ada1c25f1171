"""Makes the typefaces that stand in where the book's own have no letter: Hebrew, Arabic, East Asia, signs, emoji.

Run ``python resources/fonts/book/build.py FOLDER`` from the checkout. FOLDER
holds the unpacked npm packages named in PACKAGES (``npm pack NAME``), each in
a folder of its own below it; fonttools must be installed. Neither is needed to
run the program. See CREDITS.txt.
"""

import sys
from pathlib import Path

from fontTools import subset

HERE = Path(__file__).resolve().parent
TWO_BYTES = [bytes((high, low)) for high in range(0xA1, 0xFF) for low in range(0xA1, 0xFF)]
BIG5_COMMON = [
    bytes((high, low)) for high in range(0xA1, 0xC7) for low in [*range(0x40, 0x7F), *range(0xA1, 0xFF)]
]


def decoded(codec, codes):
    """The characters that an older national standard has."""
    return set("".join(code.decode(codec, "ignore") for code in codes))


def east_asian():
    """GB 2312, JIS X 0208 and the common part of Big5, without what the book's own faces have."""
    wanted = decoded("gb2312", TWO_BYTES) | decoded("euc_jp", TWO_BYTES) | decoded("big5", BIG5_COMMON)
    return [ord(letter) for letter in wanted if ord(letter) >= 0x2E80]


def hangul():
    """The syllables of KS X 1001."""
    return [ord(letter) for letter in decoded("euc_kr", TWO_BYTES) if "\uac00" <= letter <= "\ud7a3"]


def signs():
    """Arrows, sums, technical and other signs."""
    return [*range(0x2190, 0x2C00), *range(0x1F000, 0x1F100), *range(0x1F780, 0x1F7E0)]


PACKAGES = {
    "noto-serif-hebrew": ("NotoSerifHebrew", None),
    "noto-naskh-arabic": ("NotoNaskhArabic", None),
    "noto-emoji": ("NotoEmoji", None),
    "noto-serif-sc": ("NotoSerifSC", east_asian),
    "noto-serif-kr": ("NotoSerifKR", hangul),
    "noto-sans-math": ("NotoSansMath", signs),
    "noto-sans-symbols-2": ("NotoSansSymbols2", signs),
}
"""Each package of @expo-google-fonts, its face, and which letters are taken (all)."""


def options(whole):
    """Hints are for screens of old; the tables of upright columns are not used."""
    chosen = subset.Options(hinting=False, glyph_names=False, notdef_outline=True, name_IDs=["*"])
    chosen.layout_features = ["*"] if whole else []
    chosen.drop_tables += ["vhea", "vmtx", "VORG", "DSIG"]
    return chosen


def main(folder):
    """Write one file for each face."""
    for package, (face, letters) in PACKAGES.items():
        source = next(Path(folder).glob(f"*{package}*/package/400Regular/{face}_400Regular.ttf"))
        chosen = options(letters is None)
        font = subset.load_font(str(source), chosen)
        subsetter = subset.Subsetter(chosen)
        subsetter.populate(unicodes=letters() if letters else font.getBestCmap())
        subsetter.subset(font)
        target = HERE / f"{face}-Regular.ttf"
        subset.save_font(font, str(target), chosen)
        print(target.name, target.stat().st_size, len(font.getBestCmap()))


if __name__ == "__main__":
    main(sys.argv[1])
