"""Dates typed in the way of a country, as Qt knows it, and what the program shows read back."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QDate, QLocale

from keeper.dates.typed import understood
from keeper.days import FIRST_NIGHT, LAST_NIGHT
from keeper.window.desk import wording
from keeper.window.desk.own_spelling import own_spelling
from keeper.window.frame.go_to import GoToDialog

TONIGHT = date(2026, 11, 14)
DAY = date(2019, 6, 4)
COUNTRIES = ("en_GB", "en_US", "de_DE", "fr_FR", "sv_SE", "ja_JP", "tr_TR", "ar_EG")
OTHERS = ("C", "fi_FI", "hu_HU", "ko_KR", "zh_CN", "ru_RU", "es_ES", "pt_BR", "cs_CZ", "pl_PL", "nb_NO", "it_IT", "nl_NL", "lv_LV", "lt_LT", "uk_UA", "el_GR", "vi_VN", "bg_BG", "hr_HR")
SPELLINGS = {name: own_spelling(QLocale(name)) for name in (*COUNTRIES, *OTHERS)}

TYPED = [
    ("en_GB", "4.6.2019", DAY), ("en_GB", "4/6/19", DAY), ("en_GB", "4th June 2019", DAY),
    ("en_US", "6/4/2019", DAY), ("en_US", "June 4, 2019", DAY), ("en_US", "6.4.19", DAY),
    ("de_DE", "4.6.2019", DAY), ("de_DE", "4. Juni 2019", DAY), ("de_DE", "4 June 2019", DAY), ("de_DE", "Dienstag, 4. Juni", date(2024, 6, 4)),
    ("de_DE", "4. M\u00e4rz 2019", date(2019, 3, 4)), ("de_DE", "gestern", date(2026, 11, 13)), ("de_DE", "letzten Sonntag", date(2026, 11, 8)),
    ("fr_FR", "4 juin 2019", DAY), ("fr_FR", "1er f\u00e9vrier 2019", date(2019, 2, 1)), ("fr_FR", "1er fevrier", date(2026, 2, 1)),
    ("fr_FR", "hier", date(2026, 11, 13)), ("fr_FR", "avant-hier", date(2026, 11, 12)), ("fr_FR", "dimanche dernier", date(2026, 11, 8)),
    ("fr_FR", "mar. 4 juin 2019", DAY), ("fr_FR", "04/06/2019", DAY),
    ("sv_SE", "2019-06-04", DAY), ("sv_SE", "den 4 juni 2019", DAY), ("sv_SE", "i g\u00e5r", date(2026, 11, 13)), ("sv_SE", "4/6", date(2026, 4, 6)),
    ("ja_JP", "2019/06/04", DAY), ("ja_JP", "2019\u5e746\u67084\u65e5", DAY), ("ja_JP", "\u6628\u65e5", date(2026, 11, 13)),
    ("ja_JP", "2019\u5e746\u67084\u65e5(\u706b)", DAY), ("ja_JP", "\u65e5\u66dc\u65e5", date(2026, 11, 8)),
    ("tr_TR", "4.6.2019", DAY), ("tr_TR", "4 Haziran 2019", DAY), ("tr_TR", "4 HAZ\u0130RAN 2019", DAY), ("tr_TR", "d\u00fcn", date(2026, 11, 13)),
    ("tr_TR", "30 Kas\u0131m 2025", date(2025, 11, 30)), ("tr_TR", "30 KASIM 2025", date(2025, 11, 30)),
    ("ar_EG", "\u0664/\u0666/\u0662\u0660\u0661\u0669", DAY), ("ar_EG", "4/6/2019", DAY), ("ar_EG", "\u0664 \u064a\u0648\u0646\u064a\u0648 \u0662\u0660\u0661\u0669", DAY),
    ("ar_EG", "\u0623\u0645\u0633", date(2026, 11, 13)), ("ar_EG", "4 june 2019", DAY),
]  # fmt: skip


@pytest.mark.parametrize(("country", "typed", "day"), TYPED)
def test_as_it_is_typed_there(country, typed, day):
    meant = understood(typed, TONIGHT, SPELLINGS[country])
    assert (meant.first, meant.last) == (day, day)


FORMS = ("dddd d MMMM yyyy", "ddd d MMM yyyy", "d MMMM yyyy")


@given(st.dates(FIRST_NIGHT, LAST_NIGHT), st.sampled_from((*COUNTRIES, *OTHERS)))
def test_what_a_country_shows_is_read_back(day, country):
    locale, there = QLocale(country), QDate(day.year, day.month, day.day)
    for form in (QLocale.FormatType.LongFormat, *FORMS):
        assert understood(locale.toString(there, form), TONIGHT, SPELLINGS[country]).first == day, form
    month = understood(locale.toString(there, "MMMM yyyy"), TONIGHT, SPELLINGS[country])
    assert (month.first, month.last.day) == (day.replace(day=1), there.daysInMonth())


@given(st.dates(date(1928, 1, 1), date(2027, 12, 31)), st.sampled_from((*COUNTRIES, *OTHERS)))
def test_a_countrys_short_form_is_read_back(day, country):
    shown = QLocale(country).toString(QDate(day.year, day.month, day.day), QLocale.FormatType.ShortFormat)
    assert understood(shown, TONIGHT, SPELLINGS[country]).first == day


@given(st.dates(FIRST_NIGHT, LAST_NIGHT), st.sampled_from(COUNTRIES))
def test_what_the_program_shows_is_read_back(day, country):
    spelling = SPELLINGS[country]
    for shown in (wording.long_date(day), wording.short_date(day)):
        assert understood(shown, TONIGHT, spelling).first == day
    assert understood(wording.month_and_year(day), TONIGHT, spelling).first == day.replace(day=1)


def test_going_to_a_date_follows_the_system_and_tells_what_it_understood(qtbot, frame):
    before = QLocale()
    try:
        for country, day in (("en_US", date(2019, 3, 6)), ("de_DE", date(2019, 6, 3))):
            QLocale.setDefault(QLocale(country))
            dialog = GoToDialog(frame.desk, frame.night, frame)
            qtbot.addWidget(dialog)
            dialog.typed.setText("3.6.2019")
            assert dialog.told.text() == wording.long_date(day)
            dialog._take()
            assert (dialog.result(), dialog.night) == (1, day)
    finally:
        QLocale.setDefault(before)
