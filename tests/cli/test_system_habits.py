"""The command line writes dates and numbers as the system does."""

import locale

import pytest

from keeper.actions import opening
from keeper.cli import command, named_keeper
from keeper.cli import habits as own_habits
from keeper.dates import written
from keeper.dates.written import Habits

GERMAN = {"thousands_sep": ".", "decimal_point": ","}
AMERICAN = {"thousands_sep": ",", "decimal_point": "."}


@pytest.mark.parametrize(
    ("signs", "short", "whole", "habits"),
    [
        ({"thousands_sep": "", "decimal_point": "."}, "12/27/01", "Thu Dec 27 00:00:00 2001", Habits()),
        (GERMAN, "27.12.2001", "Do 27 Dez 2001 00:00:00", Habits(".", ",")),
        (AMERICAN, "12/27/2001", "Thu 27 Dec 2001 12:00:00 AM", Habits(month_first=True)),
        ({"thousands_sep": ".", "decimal_point": ","}, "27-12-2001", "Prş 27 Ara 2001 00:00:00", Habits(".", ",")),
        ({"thousands_sep": " ", "decimal_point": ","}, "2001-12-27", "tor 27 dec 2001 00:00:00", Habits(" ", ",")),
        (AMERICAN, "2001年12月27日", "2001年12月27日 00時00分00秒", Habits(month_first=True)),
    ],
)
def test_habits_follow_what_the_system_tells(signs, short, whole, habits):
    assert own_habits.told(signs, short, whole) == habits


def test_asking_changes_nothing_for_others():
    own_habits.habits.cache_clear()
    before = locale.setlocale(locale.LC_ALL)
    own_habits.habits()
    assert locale.setlocale(locale.LC_ALL) == before


def test_a_locale_that_is_not_installed_is_no_trouble(monkeypatch):
    own_habits.habits.cache_clear()
    monkeypatch.setenv("LC_ALL", "xx_XX.UTF-8")
    assert own_habits.habits() == Habits()
    own_habits.habits.cache_clear()


def test_the_sentences_of_the_command_follow_it(monkeypatch, folder, clock, capsys):
    monkeypatch.setenv(opening.WHERE, str(folder))
    monkeypatch.setattr(named_keeper, "Clock", lambda: clock)
    monkeypatch.setattr(own_habits, "habits", lambda: Habits(".", ",", 4, month_first=True))
    try:
        command.main(["write", "--night", "2026-11-12", "The", "felt", "is", "dry."], None)
    finally:
        written.follow(Habits)
    assert "Thursday, November 12, 2026" in capsys.readouterr().out
