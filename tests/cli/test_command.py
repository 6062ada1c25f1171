"""The command line, as a person and as a script use it."""

import io
import os
import subprocess
import sys
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from keeper.actions import finding, opening, reading, writing
from keeper.cli import named_keeper, shown
from keeper.cli.command import DONE, MISUSED, WRONG, main
from keeper.clock import StoppedClock

NIGHT = date(2026, 11, 14)


pytestmark = pytest.mark.usefixtures("at_home")


@pytest.fixture
def columns() -> int:
    return 72


@pytest.fixture
def kept(folder):
    """What the keeper holds of a night."""

    def night(of: date = NIGHT):
        with opening.open_kept(folder) as store:
            return reading.one_night(store, of)

    return night


def pipe(monkeypatch, data: bytes) -> None:
    """Let this come in by standard input."""
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(data), "utf-8"))


def test_a_line_is_written_for_tonight_and_the_keeper_begun(run, kept):
    assert run("write", "The", "kettle", "sang.") == (DONE, "Kept: gratitude, Saturday 14 November 2026.\n", "")
    assert kept().line("gratitude").text == "The kettle sang."


def test_kind_night_and_place_are_said(run, kept):
    status, told, _ = run("write", "Swam.", "--night", "2024-02-29", "--kind", "mem", "--place", "Visby")
    assert (status, told) == (DONE, "Kept: memory, Thursday 29 February 2024, Visby.\n")
    assert kept(date(2024, 2, 29)).line("memory").text == "Swam."
    assert kept(date(2024, 2, 29)).place.name == "Visby"


@pytest.mark.parametrize("args", [(), ("-",)])
@pytest.mark.parametrize(
    ("data", "text"),
    [
        ("Swam in the \u00f8.\nCold.\n".encode(), "Swam in the \u00f8.\nCold."),
        ("\ufeffWith a mark.\r\nTwo.\r\n".encode(), "With a mark.\nTwo."),
    ],
)
def test_a_line_comes_by_the_pipe(run, kept, monkeypatch, args, data, text):
    pipe(monkeypatch, data)
    assert run("write", *args)[0] == DONE
    assert kept().line("gratitude").text == text


def test_what_comes_by_the_pipe_may_be_no_text(run, folder, monkeypatch):
    pipe(monkeypatch, b"\xff\xfe\x00")
    status, told, complaint = run("write")
    assert (status, told) == (WRONG, "")
    assert complaint == "The piped input is not UTF-8 text. Nothing was changed.\n"
    assert not folder.exists()


def test_a_line_that_is_there_is_left_unless_said_otherwise(run, kept):
    run("write", "One.")
    status, told, complaint = run("write", "Two.")
    assert (status, told) == (WRONG, "")
    assert complaint == (
        "There is a gratitude of 2026-11-14 already: \u201cOne.\u201d. To change it, say --add or --replace.\n"
    )
    assert run("write", "One.")[0] == DONE
    assert kept().line("gratitude").text == "One."
    assert run("write", "Two.", "--add")[0] == DONE
    assert kept().line("gratitude").text == "One. Two."
    assert run("write", "Three.", "--replace")[0] == DONE
    assert kept().line("gratitude").text == "Three."
    told = run("show", "--earlier")[1]
    assert "Earlier     One. Two. (gratitude, written " in told


def test_words_that_wait_in_the_window_are_not_lost(run, folder, clock, kept):
    with opening.open_or_begin(folder) as store:
        writing.keep_draft(store, NIGHT, "gratitude", "On its w", clock)
    assert "On its w" in run("write", "Other.")[2]
    assert "Gratitude   On its w (being written, not yet kept)\n" in run("show")[1]
    assert run("write", "Other.", "--replace")[0] == DONE
    assert "Earlier     On its w " in run("show", "--earlier")[1]


@pytest.mark.parametrize("blank", ["", "   ", "\n"])
def test_no_words_are_no_line_and_take_none_out(run, kept, blank):
    run("write", "One.")
    assert run("write", blank, "--replace") == (WRONG, "", "There are no words to keep.\n")
    assert kept().line("gratitude").text == "One."


@pytest.mark.parametrize(
    ("args", "complaint"),
    [
        (("write", "x", "--night", "2026-02-31"), "February 2026 has 28 days; there is no day 31.\n"),
        (("show", "31 Foo"), "\u201c31 Foo\u201d is not a date. Write one such as 2026-11-14, 14 November 2026 or yesterday.\n"),
        (("write", "x", "--night", "2026-11-16"), "The night of 2026-11-16 is still to come; nothing was kept.\n"),
        (("write", "x" * 100_000), "This is 100,000 characters long; a line holds 20,000.\n"),
        (("write", "a\x07b"), "Character 2 cannot be kept as text (code  0007). Remove it, or type it again.\n"),
        (("write", "x", "--place", "R\x07"), "Character 2 cannot be kept as text (code  0007). Remove it, or type it again.\n"),
        (("write", "a\udcffb"), "These words could not be read: they are not in the encoding of this terminal. Nothing was changed.\n"),
        (("find", "a\udcff"), "These words could not be read: they are not in the encoding of this terminal. Nothing was changed.\n"),
        (("show", "\udcff"), "These words could not be read: they are not in the encoding of this terminal. Nothing was changed.\n"),
        (("find", "x", "--place", "Atlantis"), "No night was spent at a place called \u201cAtlantis\u201d.\n"),
        (("rest", "2020-01-01"), "There is no line on 2020-01-01.\n"),
        (("wake", "2020-01-01", "--kind", "m"), "There is no memory on 2020-01-01.\n"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_a_sentence_and_changes_nothing(run, kept, args, complaint):
    run("write", "One.")
    before = kept()
    assert run(*args) == (WRONG, "", complaint)
    assert kept() == before


@pytest.mark.parametrize(
    "args",
    [("sing",), ("write", "--sing"), ("write", "x", "--kind", "song"), ("find", "--limit", "0"), ("show", "a", "b"),
     ("--in", "/x", "--demo", "show"), ("--in",), ("ask", "What?", "--none")],
)  # fmt: skip
def test_what_is_not_understood_returns_2_and_says_how(run, args):
    status, told, complaint = run(*args)
    assert (status, told) == (MISUSED, "")
    assert "Error: " in complaint


@pytest.mark.parametrize("verb", [(), ("write",), ("show",), ("find",), ("open",), ("where",), ("ask",), ("rest",), ("wake",)])
def test_every_verb_explains_itself(run, verb):
    status, told, _ = run(*verb, "--help")
    assert status == DONE
    assert told.startswith(f"Usage: keeper {' '.join(verb)}".rstrip())
    assert len(told.splitlines()) > 5


def test_after_midnight_it_says_which_night_it_is(run, monkeypatch, kept):
    late = StoppedClock(datetime(2026, 11, 15, 0, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")
    monkeypatch.setattr(named_keeper, "Clock", lambda: late)
    told = run("write", "Late.")[1]
    assert told == "Kept: gratitude, Saturday 14 November 2026. A night ends at 4:00, so\nthis belongs to the evening before.\n"
    assert kept().line("gratitude").text == "Late."


def test_the_rollover_hour_is_the_keepers_own(run, folder, monkeypatch, kept):
    with opening.open_or_begin(folder) as store:
        opening.change_settings(store, {"rollover": "0"})
    late = StoppedClock(datetime(2026, 11, 15, 0, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")
    monkeypatch.setattr(named_keeper, "Clock", lambda: late)
    assert run("write", "Late.")[1] == "Kept: gratitude, Sunday 15 November 2026.\n"


def test_yesterdays_and_tomorrows_line_can_be_written_but_none_later(run, kept):
    assert run("write", "x", "--night", "yesterday")[0] == DONE
    assert run("write", "x", "--night", "2026-11-15")[0] == DONE
    assert kept(NIGHT - timedelta(days=1)).lines and kept(NIGHT + timedelta(days=1)).lines


def test_a_night_is_shown(run):
    run("write", "The ferry was late, and the tuner later, and the landlady said nothing at all about it.", "--place", "Riga")
    run("write", "First.\nSecond.", "--kind", "memory")
    run("ask", "What", "was", "new?")
    assert run("show")[1] == (
        "Saturday 14 November 2026, Riga\n"
        "Question    What was new?\n"
        "Gratitude   The ferry was late, and the tuner later, and the landlady\n"
        "            said nothing at all about it.\n"
        "Memory      First.\n"
        "            Second.\n"
    )
    assert run("show", "2020-01-01") == (DONE, "Wednesday 1 January 2020\nNothing is kept of this night.\n", "")


@pytest.mark.parametrize("verb", [("show",), ("find", "x"), ("rest", "tonight")])
def test_looking_begins_no_keeper(run, folder, verb):
    status, told, complaint = run(*verb)
    assert (status, told) == (WRONG, "")
    assert complaint.startswith("There is no keeper in ")
    assert not folder.exists()


@pytest.fixture
def harbour(folder, clock):
    """A keeper with some lines at two places."""
    with opening.open_or_begin(folder) as store:
        for day, (text, kind, place) in enumerate(
            [("The ferry was late.\nVery.", "memory", "Riga"), ("Ferries are\tpatient.", "gratitude", "L\u00fcbeck"),
             ("No boats. Late again, it was.", "gratitude", "L\u00fcbeck"), ("The ferry, the ferry!", "memory", "Riga")]
        ):  # fmt: skip
            night = date(2026, 10, 30) + timedelta(days=day)
            writing.set_place(store, night, place, clock)
            writing.write_line(store, night, kind, text, clock)


def nights(told: str) -> list[str]:
    """The nights of rows found that have every word."""
    return [row.split("\t")[0] for row in told.splitlines() if not row.endswith("\tnearest")]


def test_lines_are_found_one_row_each_in_a_pipe(run, harbour):
    assert run("find", "ferr") == (
        DONE,
        "2026-11-02\tmemory\tRiga\tThe ferry, the ferry!\n"
        "2026-10-31\tgratitude\tL\u00fcbeck\tFerries are patient.\n"
        "2026-10-30\tmemory\tRiga\tThe ferry was late. Very.\n",
        "",
    )


def test_lines_are_laid_out_in_a_terminal(run, harbour, monkeypatch):
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    assert run("find", "ferries")[1].split("\n\n")[0] == "2026-10-31, gratitude, L\u00fcbeck\n    Ferries are     patient."


@pytest.mark.parametrize(
    ("args", "days"),
    [
        (("late", "ferr"), ["2026-10-30"]),
        (("was late",), ["2026-10-30"]),
        (("was", "late"), ["2026-11-01", "2026-10-30"]),
        (('"was la"',), []),
        (("ferr", "--place", "lubeck"), ["2026-10-31"]),
        (("--kind", "g"), ["2026-11-01", "2026-10-31"]),
        (("ferr", "--from", "2026-10-31", "--to", "2026-11-01"), ["2026-10-31"]),
        (("--to", "2026-10"), ["2026-10-31", "2026-10-30"]),
        (("--from", "2026-11"), ["2026-11-02", "2026-11-01"]),
        (("zebra",), []),
    ],
)
def test_finding_is_narrowed(run, harbour, args, days):
    status, told, complaint = run("find", *args)
    assert nights(told) == days
    assert (status, complaint) == ((DONE, "") if days else (WRONG, "No line has every word; these are the nearest.\n"))


def test_the_nearest_are_told_as_such(run, harbour, monkeypatch):
    status, told, complaint = run("find", "quay", "patientt")
    assert (status, complaint) == (WRONG, "No line has every word; these are the nearest.\n")
    assert told.splitlines()[0] == "2026-10-31\tgratitude\tL\u00fcbeck\tFerries are patient.\tnearest"
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True, raising=False)
    assert "2026-10-31, gratitude, L\u00fcbeck (nearest: patient)\n" in run("find", "quay", "patientt")[1]


def test_the_best_match_comes_first_when_asked_for(run, harbour):
    assert nights(run("find", "ferry", "--best")[1])[0] == "2026-11-02"


def test_it_says_when_there_is_more(run, harbour):
    status, told, complaint = run("find", "ferr", "--limit", "2")
    assert (status, len(told.splitlines()), complaint) == (DONE, 2, "2 of 3; --limit shows more.\n")


@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=20))
def test_whatever_is_sought_there_is_an_answer(folder, clock, typed):
    with opening.open_or_begin(folder) as store:
        writing.write_line(store, NIGHT, "memory", "A ferry.", clock)
    assert main(["find", "--", typed], lambda: DONE) in (DONE, WRONG)


def test_a_line_rests_and_wakes(run, harbour, folder):
    assert run("rest", "2026-10-30") == (DONE, "Resting: Friday 30 October 2026.\n", "")
    assert "Very. (resting)" in run("show", "2026-10-30")[1]
    assert nights(run("find", "late", "ferr")[1]) == ["2026-10-30"]
    assert run("wake", "2026-10-30", "--kind", "memory")[0] == DONE
    assert "(resting)" not in run("show", "2026-10-30")[1]


def test_a_months_question_is_shown_set_and_taken_back(run):
    assert run("ask") == (DONE, "No question is set for November 2026.\n", "")
    assert run("ask", "What", "was", "new?")[1] == "November 2026 asks: What was new?\n"
    assert run("ask")[1] == "What was new?\n"
    assert run("ask", "Who sang?")[1] == "November 2026 asks: Who sang?\nBefore: What was new?\n"
    assert run("ask", "--month", "2026-12", "Snow?")[1] == "December 2026 asks: Snow?\n"
    assert run("ask", "--none")[1] == "November 2026 asks nothing.\nBefore: Who sang?\n"


def test_where_is_one_row_whether_begun_or_not(run, folder):
    assert run("where") == (DONE, f"{folder}\n", "Nothing is kept there yet.\n")
    run("write", "One.")
    assert run("where") == (DONE, f"{folder}\n", "")
    assert not (folder / "where").exists()


def test_another_folder_is_named_before_the_verb(run, tmp_path, folder):
    assert run("--in", str(tmp_path / "other"), "--begin", "write", "Elsewhere.")[0] == DONE
    assert "Elsewhere." in run("--in", str(tmp_path / "other"), "show")[1]
    assert not folder.exists()


def test_the_demo_is_laid_out_and_ones_own_keeper_not_touched(run, tmp_path, folder, monkeypatch, clock):
    with opening.open_or_begin(tmp_path / "shipped") as store:
        writing.write_line(store, NIGHT, "memory", "As shipped.", clock)
    monkeypatch.setattr(opening, "demo_keeper", lambda: tmp_path / "shipped")
    monkeypatch.setattr(opening, "demo_folder", lambda: tmp_path / "demo")
    assert "As shipped." in run("--demo", "show", "yesterday")[1]
    assert run("--demo", "write", "Played.")[1] == "Kept: gratitude, Sunday 15 November 2026.\n"
    assert run("--demo", "find", "played")[0] == DONE
    assert not folder.exists()


@pytest.mark.parametrize(
    ("args", "night"),
    [(("open",), None), (("open", "2026-11-02"), date(2026, 11, 2)), ((), None)],
)
def test_the_window_is_opened_on_the_night(run, harbour, folder, args, night):
    opened = []
    assert run("--in", str(folder), *args, window=lambda *a, **k: opened.append((a, k)) or 5)[0] == 5
    assert opened == [((folder,), {"night": night, "demo": False})]


def test_a_keeper_that_is_none_is_a_sentence(run, folder):
    folder.mkdir()
    (folder / "keeper.db").write_text("a note " * 100)
    status, told, complaint = run("show")
    assert (status, told) == (WRONG, "")
    assert "is not a keeper, or it is damaged" in complaint


def test_codes_in_a_file_from_elsewhere_do_not_steer_the_terminal(run, folder, clock):
    with opening.open_or_begin(folder) as store:
        writing.write_line(store, NIGHT, "memory", "Plain.", clock)
        store.connection.execute("UPDATE line SET text = 'Red \x1b[31m \x9b31m'")
    for verb in (("show",), ("find", "--kind", "m")):
        told = run(*verb)[1]
        assert "Red [31m 31m" in told
        assert "\x1b" not in told and "\x9b" not in told


@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=200))
def test_wrapping_loses_no_word(text):
    assert "".join(shown.wrapped(text).split()) == "".join(writing.readable(text).split())


def keeper(*args: str | bytes, data: bytes = b"", **env: str) -> subprocess.CompletedProcess:
    """The real command, in a process of its own."""
    return subprocess.run([sys.executable, "-m", "keeper", *args], input=data, capture_output=True, timeout=200,
                          env={**os.environ, **env})  # fmt: skip


def test_the_real_command_writes_and_shows(folder):
    assert keeper("write", "--night", "2026-11-14", data="Swam in the \u00f8.".encode()).returncode == DONE
    done = keeper("show", "2026-11-14", PYTHONUTF8="1")
    assert (done.returncode, done.stderr) == (DONE, b"")
    assert "Swam in the \u00f8." in done.stdout.decode()


def test_a_terminal_without_the_letters_shows_others_for_them(folder, clock):
    with opening.open_or_begin(folder) as store:
        writing.write_line(store, NIGHT, "memory", "Swam in the \u00f8, \u65e5.", clock)
    for encoding in ("ascii", "latin-1"):
        done = keeper("show", "2026-11-14", PYTHONIOENCODING=encoding)
        assert (done.returncode, done.stderr) == (DONE, b"")
        assert b"Swam in the " in done.stdout


@pytest.mark.skipif(sys.platform == "win32", reason="arguments are always text there")
def test_bytes_that_are_no_text_are_a_sentence(folder):
    done = keeper("write", b"a\xffb")
    assert (done.returncode, done.stdout) == (WRONG, b"")
    assert done.stderr.startswith(b"These words could not be read")
    assert not folder.exists()


def test_a_reader_that_has_had_enough_is_no_trouble(folder, clock):
    with opening.open_or_begin(folder) as store, store.writing():
        for day in range(2000):
            writing.write_line(store, NIGHT - timedelta(days=day), "memory", "much to say " * 20, clock)
    # Python without buffers forgets what a pipe did not take, and notices nothing.
    env = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
    running = subprocess.Popen(
        [sys.executable, "-m", "keeper", "find", "--limit", "5000"],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=env,
    )  # fmt: skip
    assert running.stdout.readline()
    running.stdout.close()
    assert running.stderr.read() == b""
    running.stderr.close()
    assert running.wait(200) == WRONG


def test_another_program_sees_the_line_at_once(folder, clock):
    with opening.open_or_begin(folder) as store:
        before = store.version()
        assert keeper("write", "From the terminal.", "--night", "2026-11-14").returncode == DONE
        assert store.version() != before
        assert [f.line.text for f in finding.find(store, finding.Sought("terminal"))] == ["From the terminal."]
        assert Path(folder, "keeper.db").exists()
