"""What comes from outside and means ill, or is broken: cases without end, each made by its number alone, and their readers.

Each module has ``case(number, folder)``, which puts a file or folder there and
gives its path, and ``Reader(room)``, whose ``read(path)`` reads it as the
program does: true where it was read, false where it was refused with a
sentence; whatever else is raised is a fault. ``room`` is a folder of its own.
"""


import os
import tempfile
import time
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from types import ModuleType

KINDS = ("files", "bags", "pictures", "papers", "cards")

LONGEST = 1.0
"""Seconds of processor time that a case may take."""

_LONGEST_SENTENCE = 700
_SECRET = "nobody\u2019s business"


def must_be_a_sentence(told: Exception) -> None:
    """Raise AssertionError for what no person should have to read."""
    said = str(told)
    assert said.endswith(".") and "Traceback" not in said and len(said) < _LONGEST_SENTENCE and said.isprintable(), said


def tried(kind: str, first: int, many: int, longest: float = LONGEST) -> Iterator[tuple[bool, float, str]]:
    """So many cases of a kind, from a number on: whether each was read, the seconds it took, and what was wrong, if anything."""
    of_kind = import_module(f"meaning_ill.{kind}")
    with tempfile.TemporaryDirectory() as room:
        reader = of_kind.Reader(Path(room))
        for number in range(first, first + many):
            yield _one(of_kind, reader, number, longest)


def _one(of_kind: ModuleType, reader: object, number: int, longest: float) -> tuple[bool, float, str]:
    with tempfile.TemporaryDirectory() as passing:
        beside, given = Path(passing, "beside"), Path(passing, "given")
        beside.mkdir()
        given.mkdir()
        (beside / "secret").write_text(_SECRET)
        path = of_kind.case(number, given)
        begun, read, wrong = time.process_time(), False, ""
        try:
            read = reader.read(path)
        except BaseException as error:
            wrong = f"{type(error).__name__}: {error}"
        lasted = time.process_time() - begun
        if lasted > longest:
            wrong += f" took {lasted:.1f} s"
        if os.listdir(given) != [path.name] or os.listdir(beside) != ["secret"] or (beside / "secret").read_text() != _SECRET:
            wrong += f" wrote {os.listdir(given)}, {os.listdir(beside)}"
        return read, lasted, f"{number} ({path.name}): {wrong.strip()}" if wrong else ""
