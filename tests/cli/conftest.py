"""What tests of the command line share: a person at home, whose clock stands, and a command done."""

import os

import pytest

from keeper.actions import opening
from keeper.cli import named_keeper
from keeper.cli.command import DONE, main


@pytest.fixture
def columns() -> int:
    """How wide the terminal is; a file of tests may say otherwise."""
    return 100


@pytest.fixture
def clock_stands(clock, monkeypatch):
    """The clock of the computer is the test's."""
    monkeypatch.setattr(named_keeper, "Clock", lambda: clock)


@pytest.fixture
def at_home(folder, clock_stands, columns, monkeypatch):
    """The person's keeper is the test's, and the clock stands."""
    monkeypatch.setenv(opening.WHERE, str(folder))
    monkeypatch.setenv("COLUMNS", str(columns))


@pytest.fixture
def run(capsys):
    """Do a command; returns its status, what it told and what it complained of."""

    def do(*args, window=lambda *_, **__: DONE) -> tuple[int, str, str]:
        status = main([os.fspath(arg) for arg in args], window)
        return status, *capsys.readouterr()

    return do
