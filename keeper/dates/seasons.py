"""Seasons as people name them, and the months each has where one lives north or south of the equator.

Months: the meteorologist's seasons of three whole months (Trenberth, BAMS 64, 1983). The names are written from
knowledge of the languages; a case or a plural may be added to each.
"""

from functools import cache

from keeper.dates.spelling import Spelling, same

SEASONS = ("winter", "spring", "summer", "autumn")
"""In their order, winter first, by their English names."""

_MONTHS = ((12, 1, 2), (3, 4, 5), (6, 7, 8), (9, 10, 11))

_NAMES = {
    "en": ("winter", "spring springtime", "summer summertime", "autumn fall"), "de": ("winter", "frühling frühjahr", "sommer", "herbst"),
    "sv": ("vinter vintern", "vår våren", "sommar sommaren", "höst hösten"), "da": ("vinter", "forår foråret", "sommer", "efterår efteråret"),
    "nb": ("vinter", "vår våren", "sommer", "høst høsten"), "nl": ("winter", "lente voorjaar", "zomer", "herfst najaar"),
    "fi": ("talvi talvella", "kevät keväällä", "kesä kesällä", "syksy syksyllä"), "et": ("talv talvel", "kevad kevadel", "suvi suvel", "sügis sügisel"),
    "lv": ("ziema ziemā", "pavasaris pavasarī", "vasara vasarā", "rudens rudenī"),
    "lt": ("žiema žiemą", "pavasaris pavasarį", "vasara vasarą", "ruduo rudenį"),
    "pl": ("zima zimą zimie", "wiosna wiosną wiosnę", "lato latem lecie", "jesień jesienią"),
    "cs": ("zima zimě", "jaro jaře", "léto létě", "podzim podzimu"), "fr": ("hiver", "printemps", "été", "automne"),
    "es": ("invierno", "primavera", "verano", "otoño"), "it": ("inverno", "primavera", "estate", "autunno"),
    "pt": ("inverno", "primavera", "verão", "outono"), "ru": ("зима зимой", "весна весной", "лето летом", "осень осенью"),
    "uk": ("зима взимку", "весна навесні", "літо влітку", "осінь восени"), "hu": ("tél télen", "tavasz tavasszal", "nyár nyáron", "ősz ősszel"),
    "tr": ("kış kışın", "ilkbahar ilkbaharda", "yaz yazın", "sonbahar sonbaharda"),
    "el": ("χειμώνας χειμώνα", "άνοιξη", "καλοκαίρι", "φθινόπωρο"), "ja": ("冬", "春", "夏", "秋"), "zh": ("冬天", "春天", "夏天", "秋天"),
    "ko": ("겨울 겨울에", "봄 봄에", "여름 여름에", "가을 가을에"), "ar": ("شتاء الشتاء", "ربيع الربيع", "صيف الصيف", "خريف الخريف"),
}  # fmt: skip


@cache
def season_names(spelling: Spelling) -> dict[str, int]:
    """What each name means, as a place in SEASONS: those of the person's language and the English."""
    spelt = (*enumerate(_NAMES["en"]), *enumerate(_NAMES.get(spelling.language, ())))
    return {same(name): season for season, names in spelt for name in names.split()}


def months_of(season: int, south: bool = False) -> tuple[int, ...]:
    """The months (1 to 12) of a season by its place in SEASONS; half a year on where one lives in the south."""
    return _MONTHS[(season + 2 * south) % 4]


def season_of(months: tuple[int, ...], south: bool = False) -> str:
    """Which of SEASONS has just these months; "" for none."""
    return next((name for place, name in enumerate(SEASONS) if set(months_of(place, south)) == set(months)), "")
