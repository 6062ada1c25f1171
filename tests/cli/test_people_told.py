"""People told of on the command line."""

from datetime import date
from types import SimpleNamespace

from click.testing import CliRunner

from keeper.actions import people
from keeper.actions.one_person import days
from keeper.actions.writing import write_line
from keeper.cli.nights.people import people as verb


def test_people_are_listed_and_one_is_told_of(store, clock):
    named = SimpleNamespace(store=store)
    write_line(store, date(2026, 5, 1), "memory", "Tea with Ilze", clock)
    assert "No name is marked" in CliRunner().invoke(verb, [], obj=named).output
    people.add(store, "Ilze")
    assert "Ilze\t1" in CliRunner().invoke(verb, [], obj=named).output
    told = CliRunner().invoke(verb, ["Ilze"], obj=named).output
    assert "lines\t1" in told and "1 May 2026" in told


def test_their_days_stand_beside_them_the_birthday_first(store, clock):
    named = SimpleNamespace(store=store, tonight=date(2026, 5, 2))
    for name in ("Ilze", "Oddny"):
        people.add(store, name)
    ilze = people.named(store, "Ilze")
    days.remember(store, ilze.id, "Her name day", "2 January", date(2026, 5, 2))
    days.remember(store, ilze.id, "", "29 February 1960", date(2026, 5, 2))
    rows = CliRunner().invoke(verb, [], obj=named).output.splitlines()
    assert rows == ["Ilze\t0\tbirthday 29 February 1960\tHer name day 2 January", "Oddny\t0"]
