"""What the program says when the system lacks something."""

import os
import shutil
import subprocess
import sys

import pytest

from keeper import system
from keeper.errors import MissingLibrary

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="Only on Linux.")

NO_LIBRARY = {"libnothing.so.0": ("libnothing0", "libnothing"), "libnowhere.so.3": ("libnowhere3", "nowhere")}


@pytest.fixture(autouse=True)
def no_screen(monkeypatch):
    """No screen is named, and no library is looked for that this computer may lack."""
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(system, "EVERYWHERE", {})
    monkeypatch.setattr(system, "_OF_SCREEN", {"xcb": {}, "wayland": {}})


def test_without_a_screen_it_says_so():
    with pytest.raises(MissingLibrary, match="no screen"):
        system.check_system()


@pytest.mark.parametrize("platform", ["offscreen", "vnc:size=800x600", "minimal"])
def test_a_platform_without_a_screen_wants_none(monkeypatch, platform):
    monkeypatch.setenv("QT_QPA_PLATFORM", platform)
    assert system.check_system() is None


@pytest.mark.parametrize("screen", [":987", "unix:987.0", "not a screen"])
def test_a_screen_that_is_not_there_is_said(monkeypatch, screen):
    if not system.missing(("libxcb.so.1",)):
        monkeypatch.setenv("DISPLAY", screen)
        with pytest.raises(MissingLibrary, match=f"{screen} .the variable DISPLAY"):
            system.check_system()


def test_a_screen_left_behind_by_a_server_that_is_gone_is_no_screen(monkeypatch, tmp_path):
    # The folder of sockets may hold one to which nobody listens any more.
    monkeypatch.setattr(system, "answers", lambda way, screen: way == "wayland")
    monkeypatch.setenv("DISPLAY", ":987")
    with pytest.raises(MissingLibrary, match="No screen answers"):
        system.check_system()
    monkeypatch.setenv("WAYLAND_DISPLAY", "wayland-9")
    assert system.check_system() is None


@pytest.mark.skipif(not shutil.which("Xvfb"), reason="Xvfb is not installed.")
def test_a_screen_that_is_there_is_reached(monkeypatch):
    # The server takes a number that is free, and tells it.
    told, tells = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(tells), "-noreset", "-nolisten", "tcp", "-screen", "0", "640x480x24"],
        stderr=subprocess.DEVNULL, pass_fds=(tells,),
    )  # fmt: skip
    os.close(tells)
    try:
        with open(told, encoding="ascii") as heard:
            monkeypatch.setenv("DISPLAY", f":{heard.readline().strip()}")
        assert system.check_system() is None
    finally:
        server.terminate()
        server.wait()


def test_all_that_is_missing_is_named_in_one_command(monkeypatch):
    monkeypatch.setenv("DISPLAY", ":987")
    monkeypatch.setattr(system, "PACKAGES", {**system.PACKAGES, **NO_LIBRARY})
    monkeypatch.setattr(system, "EVERYWHERE", {"libnothing.so.0": ()})
    monkeypatch.setattr(system, "_OF_SCREEN", {"xcb": {"libnowhere.so.3": ()}})
    with pytest.raises(MissingLibrary, match=r"apt install libnothing0 libnowhere3\. .*dnf install libnothing nowhere"):
        system.check_system()


def test_what_qt_could_not_load_is_named_with_all_else_that_is_missing(monkeypatch):
    monkeypatch.setattr(system, "PACKAGES", {**system.PACKAGES, **NO_LIBRARY})
    monkeypatch.setattr(system, "EVERYWHERE", {"libnothing.so.0": ()})
    said = system.why_not("libEGL.so.1: cannot open shared object file: No such file or directory")
    assert "sudo apt install libegl1 libnothing0." in said and "Traceback" not in said
    monkeypatch.setattr(system, "EVERYWHERE", {})
    assert system.why_not("a reason") == "Qt could not be loaded: a reason."


def test_every_library_that_qt_is_linked_with_is_looked_for():
    """What ``readelf`` (GNU binutils) reads as NEEDED in Qt's own files, but for what every system or Qt itself gives."""
    if not shutil.which("readelf"):
        pytest.skip("readelf is not installed.")
    from importlib.util import find_spec
    from pathlib import Path

    qt = Path(find_spec("PySide6").submodule_search_locations[0]) / "Qt"
    files = [*(qt / "lib" / f"libQt6{name}.so.6" for name in ("Core", "Gui", "Widgets", "Network", "DBus", "XcbQpa")),
             qt / "plugins/platforms/libqxcb.so", qt / "plugins/platforms/libqwayland.so"]  # fmt: skip
    read = subprocess.run(["readelf", "-d", *filter(Path.exists, files)], capture_output=True, text=True, timeout=200).stdout
    needed = {line.split("[")[1].rstrip("]") for line in read.splitlines() if "(NEEDED)" in line}
    bundled = {path.name for path in (qt / "lib").iterdir()}
    common = ("libc.", "libm.", "libdl.", "libpthread.", "librt.", "libgcc_s.", "libstdc++.", "ld-linux", "libz.", "libresolv.")
    with_another = {"libgthread-2.0.so.0"}  # comes with libglib-2.0.so.0
    assert needed and {one for one in needed - bundled - with_another if not one.startswith(common)} <= set(system.PACKAGES)


def test_the_command_without_a_screen_ends_with_a_sentence():
    env = {**os.environ, "DISPLAY": ":987"}
    done = subprocess.run([sys.executable, "-m", "keeper"], env=env, capture_output=True, text=True, timeout=200)
    assert done.returncode == 1
    assert done.stderr.startswith("keeper: ") and "Traceback" not in done.stderr
