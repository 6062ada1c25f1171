"""One thing has one name: what was once said otherwise is in no sentence of the program any more."""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import keeper

ROOT = Path(keeper.__file__).parent
SAID_IN = ("window", "cli", "actions", "book", "exchange", "store", "review")
HELP = "cli"
"""Where the docstring of a command is read by a person, as its help."""

NO_MORE = {
    r"\bthreads?\b": "theme",
    r"\bOnward\b|^(on|back|next) [‹›>]|^‹ (on|back|next)\b": "‹ Back, Next ›",
    r"^Leave( it| it for now)?$": "Cancel, Close or Not now",
    r"\bTake (it )?out\b|^Let out\b|\b[Dd]rop the\b|\bTake from\b|\bTaken from\b|^Leave out\b": "Remove",
    r"\bno more$": "Remove",
    r"^(Take|Put)( it| them| all)? back$|\b[Tt]aken back\b": "Undo, Redo, Undone",
    r"\bput (it|them|each)? ?with\b": "move to",
    r"\bBring in what rests\b|\bLeave out what rests\b": "Show what rests, Hide what rests",
    r"\bunasked\b|\bat rest\b|\brests now\b": "rests, not brought up again",
    r"\bin 100\b": "%",
    r"^Pictures?\b(?! of)": "Photo",
    r"\bA thought on the day\b": "A thought about the day",
    r"(?<!there )\b(is|was|were) no (text|picture|archival)\b": "is not ...",
    r"\banew\b": "again",
    r"\bStill open\b|\bover open nights\b": "without a line; unknown nights",
    r"^How far\b": "Progress",
    r"\bOther parts\b": "Change the contents",
    r"\bThe system would not\b": "The system refused",
    r"\bin place of the (line|file)\b": "Replace the ... that is there",
    r"\bverbs?\b": "command",
    r"\bfewer than \{": "less than",
    r"!(?=\s|$)": "a quiet voice",
}


def test_the_words_are_looked_for_in_every_room_that_speaks():
    """A room that is renamed must not go unread."""
    assert all((ROOT / room).is_dir() for room in SAID_IN) and HELP in SAID_IN
    assert any(said.startswith("Keep a line: TEXT") for _, said in sentences())
    assert len(sentences()) > 1500


@pytest.mark.parametrize("old", NO_MORE)
def test_a_word_that_is_used_no_more_is_in_no_sentence(old):
    still = [f"{where}: {said}" for where, said in sentences() if re.search(old, said)]
    assert not still, f"say {NO_MORE[old]}"


@cache
def sentences() -> tuple[tuple[str, str], ...]:
    """Every text of the program that a person may read, and where it is; what stands for it in braces."""
    return tuple(
        (f"{file.relative_to(ROOT).as_posix()}:{line}", said)
        for room in SAID_IN
        for file in sorted((ROOT / room).rglob("*.py"))
        for line, said in _literals(file, file.relative_to(ROOT).parts[0] == HELP)
    )


def _literals(file: Path, with_help: bool) -> Iterator[tuple[int, str]]:
    nodes = list(ast.walk(ast.parse(file.read_text(encoding="utf-8"))))
    # A text that stands alone is a docstring, and no part of what an f-string says stands for itself.
    apart = {id(one.value) for one in nodes if isinstance(one, ast.Expr)}
    if with_help:
        apart -= {id(one.body[0].value) for one in nodes
                  if isinstance(one, ast.FunctionDef) and isinstance(one.body[0], ast.Expr) and _is_command(one)}  # fmt: skip
    for one in nodes:
        if isinstance(one, ast.JoinedStr):
            apart |= {id(part) for part in one.values}
            yield one.lineno, "".join(part.value if isinstance(part, ast.Constant) else "{}" for part in one.values)
    for one in nodes:
        if (
            isinstance(one, ast.Constant)
            and isinstance(one.value, str)
            and id(one) not in apart
            and _is_said(one.value)
        ):
            yield one.lineno, one.value


def _is_command(function: ast.FunctionDef) -> bool:
    return any(re.search(r"\b(command|group)\(", ast.unparse(one)) for one in function.decorator_list)


def _is_said(text: str) -> bool:
    # SQL and a style sheet are for machines, and so is a name in small letters alone.
    return not re.match(r"\s*(SELECT|INSERT|UPDATE|DELETE|CREATE|WITH|QWidget|JOIN|WHERE|EXISTS)\b", text) and (
        " " in text or text[:1].isupper()
    )
