"""Closer looks by command: the sentences of the pages, the numbers as rows, and what cannot be asked."""

import pytest
from noted.courses_noted import begin, dip_after, note

from keeper.cautions import LABEL, OF_THE_BODY
from keeper.cli.command import main
from keeper.review.patterns.whole import NO_CAUSE


@pytest.fixture
def command(folder, capsys):
    def run(*args: str) -> tuple[int, str, str]:
        code = main(["--in", str(folder), *args], lambda *_, **__: 0)
        told = capsys.readouterr()
        return code, told.out, told.err

    return run


def plain(told: str) -> str:
    """What was told, whatever the width of the terminal."""
    return " ".join(told.split())


def test_around_tells_the_sentence_and_the_caution(store, command):
    dip_after(store)
    code, out, aside = command("around", "fer", "mood", "--nights", "3")
    assert code == 0 and plain(out).startswith("On the night after (10 nights with “ferry”), mood was 2.9 on average;")
    assert plain(aside) == f"{NO_CAUSE} {OF_THE_BODY}"


def test_the_numbers_are_rows_with_tabs_between(store, command):
    dip_after(store)
    rows = [line.split("\t") for line in command("around", "ferry", "mood", "--nights", "2", "--numbers")[1].splitlines() if "\t" in line]
    assert [row[0] for row in rows] == ["Night", "2 nights before", "the night before", "the night itself", "the night after", "2 nights after"]
    assert {len(row) for row in rows} == {6} and rows[4][5] == "10"


def test_after_tells_how_often_and_within_a_phase(store, command):
    for name, yes in (("begun", 0), ("ferry", 5), ("train", 6)):
        begin(store, name, "mark")
        note(store, name, [float(number % 20 == yes) for number in range(200)])
    code, out, aside = command("after", "ferry", "train", "--within", "1", "--phase", "1", "9", "--of", "begun")
    assert code == 0 and plain(aside) == f"{NO_CAUSE} {LABEL}"
    assert plain(out).startswith("On the night after one with “ferry”, in nights 1 to 9 after one with “begun”, “train” came on 10 of 10 occasions")
    code, out, aside = command("after", "ferry", "train", "--phase", "1", "9")
    assert (code, out) == (1, "") and "A phase needs both" in plain(aside)


def test_changes_tells_the_dates_and_where_nothing_can_be_said_returns_1(store, command):
    begin(store, "mood")
    note(store, "mood", [7 + number % 2 - 3 * (number >= 120) for number in range(240)])
    begin(store, "stress")
    code, out, aside = command("changes", "mood")
    assert code == 0 and plain(aside) == LABEL and "shifted once: around 1 May 2026 from 7.5 to 4.5." in plain(out)
    code, out, _ = command("changes", "stress")
    assert code == 1 and plain(out) == "Nothing can be said yet: it takes 60 nights with stress, and there are 0."
    code, out, aside = command("changes", "sleep")
    assert (code, out) == (1, "") and "mood, stress" in plain(aside)
