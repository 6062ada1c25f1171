"""People told of on the command line."""

from datetime import date
from types import SimpleNamespace

from click.testing import CliRunner

from keeper.actions import people
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
