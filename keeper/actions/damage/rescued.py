"""Words that were rescued when nothing could be written, offered when the keeper is well again."""

import re
import tempfile
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from keeper.actions import reading, writing
from keeper.clock import Clock
from keeper.errors import KeeperError
from keeper.model import KINDS
from keeper.store import Store

_NAMED, _DECIDED = "keeper-unkept-", "keeper-was-unkept-"
_BEGINS = re.compile(r"^(\d{4}-\d\d-\d\d) (\S+): ", re.MULTILINE)
_OF_OTHERS = re.compile(r"^[a-z][a-z ]* (\d{4}(-\d\d){0,2}|[0-9a-f-]{36}): ", re.MULTILINE)
"""How the words of other fields begin, such as a question's: those come last."""

_ID_LENGTH = 36


@dataclass(frozen=True)
class Rescued:
    """Words of a line that waits in a file. ``there`` is what the night has of that kind already."""

    file: Path
    night: date
    kind: str
    text: str
    there: str = ""


def waiting(store: Store) -> tuple[Rescued, ...]:
    """The words that wait beside the keeper, in the home folder and among passing files, and are in no line yet."""
    found = []
    for file in _files(store.folder):
        for one in _in(file):
            there = reading.one_night(store, one.night).line(one.kind)
            if there is None or one.text not in there.text:
                found.append(Rescued(file, one.night, one.kind, one.text, there.text if there else ""))
    return tuple(found)


def keep(store: Store, chosen: Iterable[Rescued], clock: Clock) -> tuple[Rescued, ...]:
    """Keep these as lines, added to what is there; those that could not be are returned."""
    left = []
    for one in chosen:
        try:
            writing.write_once(store, one.night, one.kind, one.text, clock, "add")
        except KeeperError:
            left.append(one)
    return tuple(left)


def decided(files: Iterable[Path]) -> None:
    """Offer what is in these files no more. They stay where they are, by another name."""
    for file in set(files):
        with suppress(OSError):
            file.rename(file.with_name(file.name.replace(_NAMED, _DECIDED, 1)))


def _files(folder: Path) -> Iterator[Path]:
    places = [folder.parent, Path(tempfile.gettempdir())]
    with suppress(RuntimeError):
        places.insert(1, Path.home())
    for place in dict.fromkeys(places):
        with suppress(OSError):
            yield from sorted(place.glob(f"{_NAMED}*.txt"))


def _in(file: Path) -> Iterator[Rescued]:
    try:
        text = file.read_text("utf-8", "replace")
    except OSError:
        return
    if others := _OF_OTHERS.search(text):
        text = text[: others.start()]
    begins = list(_BEGINS.finditer(text))
    ends = [one.start() for one in begins[1:]] + [len(text)]
    for begin, end in zip(begins, ends, strict=True):
        night, kind, words = begin[1], begin[2], text[begin.end() : end].strip()
        with suppress(ValueError):
            # What is no line, such as a question, is left to be read there.
            if words and (kind in KINDS or len(kind) == _ID_LENGTH):
                yield Rescued(file, date.fromisoformat(night), kind, words)
