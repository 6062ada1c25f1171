"""How dates are written under the system's locale, as Qt knows it."""

import re
from collections.abc import Callable

from PySide6.QtCore import QDate, QLocale

from keeper.dates.spelling import Spelling, order_of

_SAID = re.compile(r"'([^']+)'")
# What a form of Qt says as it is, such as "de" in Spanish.

_LONG, _SHORT = QLocale.FormatType.LongFormat, QLocale.FormatType.ShortFormat


def own_spelling(locale: QLocale | None = None) -> Spelling:
    """The way of a locale: of the system's, when none is named."""
    locale = locale or QLocale()
    return Spelling(
        order_of(locale.toString(QDate(2031, 12, 25), _SHORT), "31", "12", "25"),
        _names((locale.monthName, locale.standaloneMonthName), 12),
        _names((locale.dayName, locale.standaloneDayName), 7),
        QLocale.languageToCode(locale.language()),
        tuple(word for form in (_LONG, _SHORT) for said in _SAID.findall(locale.dateFormat(form)) for word in said.split()),
    )


def _names(of: tuple[Callable[[int, QLocale.FormatType], str], ...], number: int) -> tuple[tuple[str, ...], ...]:
    return tuple(
        tuple(dict.fromkeys(name(place, form) for name in of for form in (_LONG, _SHORT)))
        for place in range(1, number + 1)
    )
