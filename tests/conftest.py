"""What all tests share: a real keeper in a folder of its own, and a clock that stands."""

import atexit
import gc
import os
import shutil
import sqlite3
import sys
import tempfile
from datetime import UTC, datetime
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

from keeper import private, system
from keeper.actions.opening import open_or_begin
from keeper.clock import StoppedClock
from keeper.store.file import beginning, opening
from keeper.store.file.folder import FILE
from keeper.store.file.sentences import told
from keeper.store.ids import new_id
from keeper.store.moments import utc_text

# Tests start hundreds of programs: what one compiled, the others have. A wish to leave no such files is for other runs.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# Nor do those programs bring in what only tests have.
AS_A_PERSON_HAS = str(Path(__file__).parent / "support" / "as_a_person_has")
os.environ["PYTHONPATH"] = os.pathsep.join(filter(None, (AS_A_PERSON_HAS, os.environ.get("PYTHONPATH"))))

atexit.register(shutil.rmtree, os.environ["XDG_CACHE_HOME"], ignore_errors=True)

if sys.platform.startswith("linux") and (lacking := system.missing(system.EVERYWHERE)):
    # Before pytest-qt brings Qt in, which would end in a traceback.
    sys.exit(system.to_install(lacking))

# A busy machine may pause anywhere: that is no fault of the program. The same is tried each time; others by
# ``--hypothesis-profile hunting``.
settings.register_profile(
    "keeper", deadline=None, max_examples=25, derandomize=True, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
settings.register_profile("hunting", settings.get_profile("keeper"), derandomize=False, max_examples=300)
settings.load_profile("keeper")


def pytest_configure():
    """The keepers of the tests themselves are begun by what a person has, too."""
    sys.path.insert(0, AS_A_PERSON_HAS)
    import sqlite_utils  # noqa: F401

    while AS_A_PERSON_HAS in sys.path:
        sys.path.remove(AS_A_PERSON_HAS)


BACKWARDS = os.environ.get("PYTEST_XDIST_WORKER", "gw0")[-1] in "13579"
"""Every other process reads the tests from the last to the first, so that each compiles half of them, not all."""


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(collector):
    report = yield
    if BACKWARDS and isinstance(collector, pytest.Directory):
        report.result.reverse()
    return report


def pytest_collectstart():
    """Nothing that is read is garbage: to look for it takes seconds, and all of it again at every look later."""
    gc.disable()


def pytest_collection_finish():
    gc.collect()
    gc.freeze()
    gc.enable()


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
def _as_begun(begun) -> tuple[bytes, str, str]:
    """The file of a keeper with nothing in it, made once as the program makes it; its id, and when it was begun."""
    folder = Path(os.environ["XDG_CACHE_HOME"]) / "as-begun"
    folder.mkdir()
    with begun(folder, folder / FILE) as store:
        (its_id,), (begun_at,) = store.rows("SELECT value FROM about ORDER BY name DESC")
    made = (folder / FILE).read_bytes()
    assert made.count(its_id.encode()) == made.count(begun_at.encode()) == 1
    return made, its_id, begun_at


def _begun_as_copy(folder: Path, file: Path, begun=beginning._begun) -> opening.Store:
    made, its_id, begun_at = _as_begun(begun)
    own = made.replace(its_id.encode(), new_id().encode()).replace(begun_at.encode(), utc_text(datetime.now(UTC)).encode())
    with told(folder), open(file, "xb", opener=private.opener) as empty:
        empty.write(own)
    return opening.open_store(folder)


def _not_forced(file: Path, connected=opening.connected) -> sqlite3.Connection:
    connection = connected(file)
    connection.execute("PRAGMA synchronous = OFF")
    return connection


@pytest.fixture(autouse=True)
def what_is_the_same_for_all_is_not_waited_for(request, monkeypatch):
    """The disk is not waited for, and a new keeper is a copy of one that the program began.

    Together they take longer than most tests. Tests of the file itself, of the demo and of who may do what, programs
    that a test starts, and measurements have both as a person has.
    """
    if not {"bench", "demo", "file"}.isdisjoint(request.path.relative_to(Path(__file__).parent).parts):
        return
    for forces in ("sync", "fsync"):
        monkeypatch.setattr(os, forces, lambda *_: None, raising=False)
    for room in ("opening", "beginning"):
        monkeypatch.setattr(f"keeper.store.file.{room}.connected", _not_forced)
    if not request.node.get_closest_marker("of_rights"):
        monkeypatch.setattr(beginning, "_begun", _begun_as_copy)


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
def really_apart():
    """Asked for by a test that wants a process of its own for what the tests of its room do in theirs."""


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
