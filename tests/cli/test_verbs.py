"""The verbs of the command line: each is where it is listed, and brought in only when it is asked for."""

import subprocess
import sys

import click
import pytest

from keeper.cli.command import keeper
from keeper.cli.verbs import LISTED


@pytest.mark.parametrize("name", LISTED)
def test_a_verb_is_where_it_is_listed_and_called_so(name):
    verb = keeper.get_command(click.Context(keeper), name)
    assert verb.name == name and verb.get_short_help_str(200)


def test_one_that_is_added_is_listed_too():
    group = type(keeper)("keeper")
    group.add_command(click.Command("another"))
    assert group.list_commands(click.Context(group)) == sorted([*LISTED, "another"])
    assert group.get_command(click.Context(group), "another").name == "another"
    assert group.get_command(click.Context(group), "no-such") is None


def test_a_verb_brings_in_no_other():
    asked = "import sys, click; from keeper.cli.command import keeper; keeper.get_command(click.Context(keeper), 'where');" \
            "print(*sorted(m for m in sys.modules if m.startswith(('keeper.cli.nights.', 'keeper.cli.care.'))))"  # fmt: skip
    told = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, timeout=200)
    assert (told.returncode, told.stdout.split()) == (0, [])


def test_showing_a_night_brings_in_little(folder, store):
    store.close()
    look = "import sys, datetime; from keeper.actions.damage import checking; from keeper.actions.opening import open_kept;" \
           "from pathlib import Path; checking.look_over_daily(open_kept(Path(sys.argv[1])), datetime.date.today())"  # fmt: skip
    subprocess.run([sys.executable, "-c", look, str(folder)], check=True, timeout=200)
    shown = "import sys; from keeper.cli.command import main; main(['--in', sys.argv[1], 'show'], None);" \
            "print(*sorted(m for m in sys.modules if m.startswith('keeper.')), file=sys.stderr)"  # fmt: skip
    told = subprocess.run([sys.executable, "-c", shown, str(folder)], capture_output=True, text=True, timeout=200)
    assert (told.returncode, told.stdout.splitlines()[-1]) == (0, "Nothing is kept of this night.")
    brought = set(told.stderr.split())
    assert "keeper.cli.nights.showing" in brought and len(brought) <= 65, sorted(brought)
    not_needed = {"store.damage", "store.photos.known", "actions.history", "actions.readings.noting", "cli.nights.writing", "cli.care"}
    assert not {f"keeper.{name}" for name in not_needed} & brought
