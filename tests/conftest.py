"""What all tests share: a real keeper in a folder of its own, and a clock that stands."""

import atexit
import os
import shutil
import sqlite3
import sys
import tempfile
from datetime import datetime
from functools import cache
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

# What the program unpacks for itself, or notes of the keepers it opened, is not to touch the home of whoever runs the tests.
os.environ["XDG_CACHE_HOME"] = tempfile.mkdtemp(prefix="keeper-tests-")
os.environ["XDG_DATA_HOME"] = os.path.join(os.environ["XDG_CACHE_HOME"], "data")

if sys.platform.startswith("linux") and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

# For tests/fifty_years.py, and for what several tests use.
sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parent / "support"))

from hypothesis import HealthCheck, settings

from keeper import system
from keeper.actions.opening import open_or_begin
from keeper.clock import StoppedClock
from keeper.store.file import opening

# Tests start hundreds of programs: what one compiled, the others have. A wish to leave no such files is for other runs.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

atexit.register(shutil.rmtree, os.environ["XDG_CACHE_HOME"], ignore_errors=True)

if sys.platform.startswith("linux") and (lacking := system.missing(system.EVERYWHERE)):
    # Before pytest-qt brings Qt in, which would end in a traceback.
    sys.exit(system.to_install(lacking))

# A busy machine may pause anywhere: that is no fault of the program. The same is tried each time; others by
# ``--hypothesis-profile hunting``.
settings.register_profile(
    "keeper", deadline=None, max_examples=40, derandomize=True, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
settings.register_profile("hunting", settings.get_profile("keeper"), derandomize=False, max_examples=300)
settings.load_profile("keeper")


BACKWARDS = os.environ.get("PYTEST_XDIST_WORKER", "gw0")[-1] in "13579"
"""Every other process reads the tests from the last to the first, so that each compiles half of them, not all."""


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(collector):
    report = yield
    if BACKWARDS and isinstance(collector, pytest.Directory):
        report.result.reverse()
    return report


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items):
    """All processes agree on the order, however they read; what asks for rights, or for none, is known by it."""
    items.sort(key=lambda item: item.path.parts)
    for item in items:
        if not {"small_disk", "unprivileged"}.isdisjoint(getattr(item, "fixturenames", ())):
            item.add_marker("of_rights")


@pytest.fixture(autouse=True)
def every_action_is_an_act(monkeypatch):
    """Whatever an action changes of what is watched has a name, or the test that did it fails, whatever it tests."""
    from acts_named import must_be_named

    monkeypatch.setattr("keeper.store.history.noting.unnamed", must_be_named)


@cache
def _as_begun() -> sqlite3.Connection:
    """A file of today's shape with nothing in it, made once by the migrations."""
    connection = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    opening.upgrade(opening.Store(Path(os.environ["XDG_CACHE_HOME"]) / "as-begun", connection))
    return connection


def _begun_as_copy(store: opening.Store) -> None:
    _as_begun().backup(store.connection)
    store.connection.execute("PRAGMA journal_mode = WAL")


def _not_forced(file: Path, connected=opening.connected) -> sqlite3.Connection:
    connection = connected(file)
    connection.execute("PRAGMA synchronous = OFF")
    return connection


@pytest.fixture(autouse=True)
def what_is_the_same_for_all_is_not_waited_for(request, monkeypatch):
    """The disk is not waited for, and a new keeper's tables are copied from one that the migrations made.

    Together they take longer than most tests. Tests of the file itself, programs that a test starts, and
    measurements have both as a person has.
    """
    if not {"bench", "file"}.isdisjoint(request.path.relative_to(Path(__file__).parent).parts):
        return
    for forces in ("sync", "fsync"):
        monkeypatch.setattr(os, forces, lambda *_: None, raising=False)
    for room in ("opening", "beginning"):
        monkeypatch.setattr(f"keeper.store.file.{room}.connected", _not_forced)
    monkeypatch.setattr("keeper.store.file.beginning.upgrade", _begun_as_copy)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch) -> Path:
    """Where the test's keeper is, or will be: the usual folder of somebody whose data lies in the test's own."""
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    if not sys.platform.startswith("linux"):
        monkeypatch.setattr("keeper.actions.opening.usual_folder", lambda: tmp_path / "data" / "keeper" / "keeper")
    (tmp_path / "data" / "keeper").mkdir(parents=True)
    return tmp_path / "data" / "keeper" / "keeper"


@pytest.fixture
def store(folder: Path):
    """A keeper just begun, in a real file."""
    with open_or_begin(folder) as opened:
        yield opened


@pytest.fixture
def clock() -> StoppedClock:
    """An evening in Riga in November 2026."""
    return StoppedClock(datetime(2026, 11, 14, 22, 30, tzinfo=ZoneInfo("Europe/Riga")), "Europe/Riga")


@pytest.fixture
def small_disk(tmp_path):
    """A disk that can be filled, and closed to writing."""
    from small_disk import SmallDisk

    disk = SmallDisk(tmp_path / "disk")
    yield disk
    disk.end()


@pytest.fixture
def unprivileged():
    """Call it to give up the rights of the superuser, for whom nothing is forbidden."""
    if not hasattr(os, "geteuid"):
        pytest.skip("Permissions are different here.")
    mine = os.geteuid()
    yield lambda: os.seteuid(65534) if mine == 0 else None
    os.seteuid(mine)
