"""What comes from outside and means ill, or is broken: cases without end, each made by its number alone, and their readers.

Each module has ``case(number, folder)``, which puts a file or folder there and
gives its path, and ``Reader(room)``, whose ``read(path)`` reads it as the
program does: true where it was read, false where it was refused with a
sentence; whatever else is raised is a fault. ``room`` is a folder of its own.
"""


import os
import shutil
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
    with tempfile.TemporaryDirectory() as room, tempfile.TemporaryDirectory() as passing:
        reader, wrong = of_kind.Reader(Path(room)), "nothing is there yet"
        for number in range(first, first + many):
            if wrong:
                _lay_out(Path(passing))
            read, lasted, wrong = _one(of_kind, reader, number, longest, Path(passing))
            yield read, lasted, wrong


def _lay_out(passing: Path) -> None:
    """What is beside a case, anew: once for many of them, since it takes as long as reading one."""
    for name in ("beside", "given"):
        shutil.rmtree(passing / name, ignore_errors=True)
        (passing / name).mkdir()
    (passing / "beside" / "secret").write_text(_SECRET)


def _one(of_kind: ModuleType, reader: object, number: int, longest: float, passing: Path) -> tuple[bool, float, str]:
    beside, given = passing / "beside", passing / "given"
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
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path)
    else:
        path.unlink(missing_ok=True)
    return read, lasted, f"{number} ({path.name}): {wrong.strip()}" if wrong else ""
