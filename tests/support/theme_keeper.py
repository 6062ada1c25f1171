"""A keeper with made-up lines on a few subjects, for tests of themes."""

import atexit
import shutil
import tempfile
from datetime import UTC, datetime, time
from functools import cache
from pathlib import Path

from diary_lines import diary

from keeper.actions.opening import open_or_begin
from keeper.actions.themes import asking as themes
from keeper.clock import StoppedClock
from keeper.model import KINDS, Moment
from keeper.store import Store, lines


def fill(store: Store, count: int, seed: int = 0, **more) -> dict[str, str]:
    """Keep so many lines, a night each from 2024 on; the subject of each by its id."""
    made, about = diary(count, seed, **more)
    with store.writing():
        for line in made:
            moment = Moment(datetime.combine(line.night, time(21), UTC), 0, "")
            lines.keep(store, line.night, KINDS[seed % 3], line.text, moment)
    of_night = {line.night: subject for line, subject in zip(made, about, strict=True)}
    kept = lines.between(store, made[0].night, made[-1].night)
    return {line.id: of_night[line.night] for line in kept if line.kind == KINDS[seed % 3]}


@cache
def _made() -> tuple[Store, dict[str, str]]:
    # Made once and copied: finding themes takes longer than most tests.
    folder = Path(tempfile.mkdtemp())
    store = open_or_begin(folder / "keeper")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    atexit.register(store.close)
    about = fill(store, 160)
    themes.rebuild_themes(store, StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=UTC)))
    return store, about


def fill_with_themes(store: Store) -> dict[str, str]:
    """Keep 160 lines with their themes; the subject of each by its id."""
    made, about = _made()
    made.connection.backup(store.connection)
    return about
