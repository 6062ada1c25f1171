"""Where the program begins; the only wiring.

Kept light: what is imported here and by the window's first page decides how
soon one can type.
"""

import gc
import os
import sys
import warnings
from datetime import date
from pathlib import Path

from keeper import streams
from keeper.errors import KeeperError, MissingLibrary
from keeper.private import keep_to_oneself


def main(arguments: list[str] | None = None) -> int:
    """The command ``keeper``: the window, or one of the verbs."""
    streams.mend()
    keep_to_oneself()
    if not sys.warnoptions:
        # Libraries warn whoever programs with them, not the person.
        warnings.showwarning = lambda *_, **__: None
    arguments = sys.argv[1:] if arguments is None else arguments
    if arguments in ([], ["--demo"]):
        return open_window(demo=bool(arguments))
    from keeper.cli.command import main as command

    return command(arguments, open_window)


def open_window(folder: Path | None = None, night: date | None = None, demo: bool = False) -> int:
    """Open the window on a keeper, or bring the one already open forward.

    ``folder`` is the keeper's; the person's own when None. Returns the exit
    status; what goes wrong is told on the screen or, without one, in the
    terminal.
    """
    # Garbage is left alone until one can type; the window takes it up again.
    gc.disable()
    _import_all_but_qt()
    try:
        check_system()
        from keeper.window.opening import run
    except ImportError as error:
        return _told(MissingLibrary(_missing(str(error))))
    except KeeperError as error:
        return _told(error)
    return run(folder, night, demo)


def _import_all_but_qt() -> None:
    # Once PySide6 is in, it reads the source of every module imported after
    # it; so whatever does without Qt comes first.
    import queue
    import threading

    from keeper.actions import opening, reading, rescue, trouble, writing
    from keeper.window import keys, palette

    del queue, threading, opening, reading, rescue, trouble, writing, keys, palette


def _told(error: KeeperError) -> int:
    print(f"keeper: {error}", file=sys.stderr)
    return 1


PACKAGES = {
    "libEGL.so.1": ("libegl1", "libglvnd-egl"),
    "libGL.so.1": ("libgl1", "libglvnd-glx"),
    "libxkbcommon.so.0": ("libxkbcommon0", "libxkbcommon"),
    "libdbus-1.so.3": ("libdbus-1-3", "dbus-libs"),
    "libfontconfig.so.1": ("libfontconfig1", "fontconfig"),
    "libglib-2.0.so.0": ("libglib2.0-0", "glib2"),
    "libxcb-cursor.so.0": ("libxcb-cursor0", "xcb-util-cursor"),
    "libxcb-icccm.so.4": ("libxcb-icccm4", "xcb-util-wm"),
    "libxcb-image.so.0": ("libxcb-image0", "xcb-util-image"),
    "libxcb-keysyms.so.1": ("libxcb-keysyms1", "xcb-util-keysyms"),
    "libxcb-randr.so.0": ("libxcb-randr0", "libxcb"),
    "libxcb-render-util.so.0": ("libxcb-render-util0", "xcb-util-renderutil"),
    "libxcb-shape.so.0": ("libxcb-shape0", "libxcb"),
    "libxcb-xkb.so.1": ("libxcb-xkb1", "libxcb"),
    "libxkbcommon-x11.so.0": ("libxkbcommon-x11-0", "libxkbcommon-x11"),
}
"""System libraries that Qt needs on Linux: the Debian and the Fedora package of each."""

_FOR_X11 = tuple(name for name in PACKAGES if "xcb" in name or "x11" in name)


def check_system() -> None:
    """On Linux, say what is missing before Qt would end the program without a word.

    Raises MissingLibrary.
    """
    if not sys.platform.startswith("linux"):
        return
    platform = os.environ.get("QT_QPA_PLATFORM", "").split(":")[0]
    if platform in ("offscreen", "minimal", "vnc"):
        return
    screen, wayland = os.environ.get("DISPLAY"), os.environ.get("WAYLAND_DISPLAY")
    if not (screen or wayland or platform):
        raise MissingLibrary(
            "There is no screen to open a window on. The verbs work without one: keeper --help tells them."
        )
    if screen and not wayland and platform in ("", "xcb"):
        _check_screen(screen)
        _check_libraries(_FOR_X11)


def _check_screen(screen: str) -> None:
    # Only a screen of this computer can be looked for; ":7.0" is number 7.
    number = screen.removeprefix("unix").removeprefix(":").split(".")[0]
    sockets = Path("/tmp/.X11-unix")
    if screen.startswith((":", "unix:")) and sockets.is_dir() and not (sockets / f"X{number}").exists():
        raise MissingLibrary(f"There is no screen {screen} to open a window on (the variable DISPLAY names it).")


def _check_libraries(names: tuple[str, ...]) -> None:
    from PySide6.QtCore import QLibrary

    missing = [name for name in names if not QLibrary(name).load()]
    if missing:
        raise MissingLibrary(_to_install(missing))


def _missing(said: str) -> str:
    """A sentence for what Python said when Qt could not be imported."""
    named = [name for name in PACKAGES if name in said]
    return _to_install(named) if named else f"Qt could not be loaded: {said}."


def _to_install(names: list[str]) -> str:
    debian = " ".join(dict.fromkeys(PACKAGES[name][0] for name in names))
    fedora = " ".join(dict.fromkeys(PACKAGES[name][1] for name in names))
    return (
        f"This computer lacks what Qt needs to open a window ({', '.join(names)}). "
        f"On Debian or Ubuntu: sudo apt install {debian}. On Fedora: sudo dnf install {fedora}."
    )


if __name__ == "__main__":
    sys.exit(main())
