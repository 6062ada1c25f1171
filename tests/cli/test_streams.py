"""Standard streams that are closed or full, and names that are no text: what is done is done, and told where it can be."""

import os
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from keeper.actions import opening, reading, writing
from keeper.cli.command import DONE, WRONG
from keeper.store import create_store

pytestmark = pytest.mark.skipif(not os.path.exists("/dev/full"), reason="There is no disk here that is always full.")

NIGHT = date(2026, 11, 14)
DAY = "2026-11-14"


def shell(command: str, *args: str | bytes, **env: str) -> subprocess.CompletedProcess:
    """A line of the shell in which $K is the command; what is told and complained of, as text."""
    env = {**os.environ, "K": f"{sys.executable} -m keeper", **env}
    done = subprocess.run(["sh", "-c", command, "sh", *args], capture_output=True, timeout=200, env=env)
    assert b"Traceback" not in done.stderr and b"Exception ignored" not in done.stderr
    return done


def kept(folder: Path) -> list[str]:
    with opening.open_kept(folder) as store:
        return [line.text for line in reading.one_night(store, NIGHT).lines]


@pytest.fixture
def begun(folder, clock) -> Path:
    """A keeper with a line."""
    with create_store(folder) as store:
        writing.write_line(store, NIGHT, "memory", "The kettle sang.", clock)
    return folder


@pytest.mark.parametrize("out", [">/dev/full", ">&-", "| true"])
def test_a_line_that_is_kept_is_told_on_the_other_stream(begun, out):
    # In a pipe the shell returns what the last of it returned.
    done = shell(f"($K write Swam. --night {DAY}; echo $? >&2) {out}" if "|" in out else f"$K write Swam. --night {DAY} {out}")
    assert done.returncode == DONE
    if "|" not in out:
        assert done.stderr.decode() == "Kept: gratitude, Saturday 14 November 2026.\n"
    assert kept(begun) == ["Swam.", "The kettle sang."]


@pytest.mark.parametrize("verb", [f"rest {DAY}", f"wake {DAY}", "ask What?"])
@pytest.mark.parametrize("out", [">/dev/full", ">&-"])
def test_whatever_is_done_is_told_so(begun, verb, out):
    done = shell(f"$K {verb} {out}")
    assert done.returncode == DONE
    assert done.stderr.decode().startswith(("Resting: ", "Awake: ", "November 2026 asks", f"{date.today():%B %Y} asks"))


@pytest.mark.parametrize("verb", [f"show {DAY}", "find kettle", "where", "ask", "--help", "--version"])
@pytest.mark.parametrize(
    ("out", "told"),
    [(">/dev/full", "The system refused: no space left on device.\n"),
     (">&-", "Nothing can be printed: standard output is closed.\n")],
)  # fmt: skip
def test_what_only_tells_says_that_it_could_not(begun, verb, out, told):
    done = shell(f"$K {verb} {out}")
    assert (done.returncode, done.stderr.decode()) == (WRONG, told)


@pytest.mark.parametrize("closed", ["<&-", "2>&-", "2>/dev/full", "<&- 2>&-"])
def test_other_streams_may_be_closed_while_it_tells(begun, closed):
    done = shell(f"$K show {DAY} {closed}")
    assert (done.returncode, done.stdout.decode().split("\n")[1]) == (DONE, "Memory      The kettle sang.")


@pytest.mark.parametrize("closed", ["2>&-", "2>/dev/full", "2>&- >&-", "<&- >&- 2>&-"])
def test_complaints_nobody_can_hear_change_nothing_else(begun, closed):
    assert shell(f"$K show nonsense {closed}").returncode == WRONG
    assert shell(f"$K write --night {DAY} Swam. {closed}").returncode == DONE
    assert kept(begun) == ["Swam.", "The kettle sang."]


def test_a_closed_input_is_no_words(begun):
    done = shell(f"$K write --night {DAY} <&-")
    assert (done.returncode, done.stderr.decode()) == (WRONG, "There are no words to keep.\n")


def test_no_file_of_the_keeper_takes_the_place_of_a_closed_stream(begun):
    for _ in range(3):
        shell(f"$K write --night {DAY} --kind g --replace Swam. <&- >&- 2>&-")
    with opening.open_kept(begun) as store:
        assert store.row("PRAGMA integrity_check") == ("ok",)
    assert kept(begun) == ["Swam.", "The kettle sang."]


@pytest.mark.parametrize("named", ["~nobody-such", "~nobody-such/keeper"])
@pytest.mark.parametrize("verb", ["show", "write Swam.", "where", ""])
def test_the_home_of_nobody_is_a_sentence(named, verb):
    done = shell(f"$K {verb}", KEEPER_FOLDER=named, QT_QPA_PLATFORM="offscreen")
    assert done.returncode == WRONG
    assert f"The variable KEEPER_FOLDER names {named}" in done.stderr.decode()


def test_a_folder_whose_name_is_no_text_is_a_keepers_like_any_other(tmp_path):
    name = os.fsencode(tmp_path) + b"/\xff\xfe keeper"
    assert shell(f'$K --in "$1" --begin write Swam. --night {DAY}', name).returncode == DONE
    assert b"Swam." in shell(f'$K --in "$1" show {DAY}', name).stdout
    assert shell('$K --in "$1" where', name).stdout == name + b"\n"
    none = shell('$K --in "$1/none" show', name)
    assert none.returncode == WRONG and none.stderr.startswith(b"There is no keeper in ")
    made = shell('$K --in "$1" book 2026 --to "$1/year.pdf"', name)
    assert made.returncode == DONE and b"left out" in made.stderr and b"Trace" not in made.stderr
    assert Path(os.fsdecode(name), "year.pdf").read_bytes().startswith(b"%PDF")


WARNS = """
import sys, warnings
from keeper.actions.themes import asking as themes
themes.look_again = lambda *_: warnings.warn("ConvergenceWarning: of no use to a person")
from keeper.start import main
sys.exit(main(["themes"]))
"""


def test_a_librarys_warning_does_not_reach_the_person(begun):
    done = subprocess.run([sys.executable, "-c", WARNS], capture_output=True, text=True, timeout=200)
    assert done.stderr == "Not enough yet to tell what keeps coming back.\n"
    asked = subprocess.run([sys.executable, "-W", "default", "-c", WARNS], capture_output=True, text=True, timeout=200)
    assert "of no use to a person" in asked.stderr
