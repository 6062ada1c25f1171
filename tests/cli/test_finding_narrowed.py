"""keeper find, narrowed by phrases, read as a person would, kept under a name, put into a file."""

from datetime import date

import pytest

from keeper.actions import opening, writing
from keeper.actions.opening import open_or_begin
from keeper.cli.telling import DONE, WRONG

LINES = (
    (date(2024, 6, 2), "Turku", "Pauli rowed us over."),
    (date(2025, 1, 5), "Turku", "Ice in the harbour."),
    (date(2025, 1, 6), "Visby", "Felt and brass."),
)


@pytest.fixture
def kept(folder, clock):
    """Three lines at two places."""
    with open_or_begin(folder) as store:
        for night, place, text in LINES:
            writing.write_line(store, night, "memory", text, clock)
            writing.set_place(store, night, place, clock)
    return folder


def nights(told: str) -> list[str]:
    """The nights of the rows."""
    return [row.split("\t")[0] for row in told.splitlines()]


def test_what_is_typed_is_read_as_a_person_would(run, kept):
    status, told, aside = run("find", "a", "sunday", "in", "Turku")
    assert (status, nights(told)) == (DONE, ["2025-01-05", "2024-06-02"])
    assert aside.startswith("Read as: in Turku, on Sundays. 2 lines.")


def test_phrases_narrow(run, kept):
    assert nights(run("find", "--only", "winter")[1]) == ["2025-01-06", "2025-01-05"]
    assert nights(run("find", "--only", "winter", "--only", "on sundays")[1]) == ["2025-01-05"]
    assert nights(run("find", "--place", "turku", "--place", "visby", "--only", "monday")[1]) == ["2025-01-06"]
    status, told, aside = run("find", "--only", "xyzzy")
    assert (status, told) == (WRONG, "") and "Nothing here is called" in aside


def test_months_are_counted(run, kept):
    assert run("find", "--only", "turku", "--months") == (DONE, "2025-01\t1\n2024-06\t1\n", "")


def test_a_search_is_kept_and_found_again(run, kept):
    assert "Kept as \u201cIce\u201d." in run("find", "ice", "--only", "turku", "--keep", "Ice")[2]
    assert nights(run("find", "--kept", "ice")[1]) == ["2025-01-05"]
    assert run("find", "--kept", "ice", "--only", "summer")[1] == ""
    assert "No search is kept as" in run("find", "--kept", "herring")[2]
    assert "The search \u201cIce\u201d kept" in run("undo")[1] + run("lately")[1]


def test_all_of_it_into_a_file_which_is_not_replaced_unasked(run, kept, tmp_path):
    target = tmp_path / "found.csv"
    assert run("find", "--only", "turku", "--into", target)[0] == DONE
    assert target.read_text("utf-8-sig").splitlines()[1].startswith("2024-06-02,Sunday,Memory,Turku,")
    assert run("find", "ice", "--into", target)[0] == WRONG
    assert run("find", "ice", "--into", target, "--replace")[0] == DONE


def test_earlier_wordings_and_what_was_taken_out(run, kept, clock):
    with opening.open_kept(kept) as store:
        writing.write_line(store, LINES[1][0], "memory", "Frost in the harbour.", clock)
        writing.write_line(store, LINES[2][0], "memory", "", clock)
    status, told, _ = run("find", "--earlier", "ice")
    assert status == DONE and told.splitlines()[0].split("\t")[0::3] == ["2025-01-05", "Ice in the harbour."]
    assert any("Memory taken out" in row for row in run("find", "--earlier", "felt")[1].splitlines())
    assert run("find", "--earlier", "nowhere") == (WRONG, "", "Nothing found.\n")
