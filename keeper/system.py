"""What Qt needs of a Linux system, looked for before Qt would end the program without a word."""

import os
import sys
from collections.abc import Iterable

from keeper.errors import MissingLibrary

EVERYWHERE = {
    "libEGL.so.1": ("libegl1", "libglvnd-egl"),
    "libGL.so.1": ("libgl1", "libglvnd-glx"),
    "libxkbcommon.so.0": ("libxkbcommon0", "libxkbcommon"),
    "libdbus-1.so.3": ("libdbus-1-3", "dbus-libs"),
    "libfontconfig.so.1": ("libfontconfig1", "fontconfig"),
    "libfreetype.so.6": ("libfreetype6", "freetype"),
    "libglib-2.0.so.0": ("libglib2.0-0", "glib2"),
    "libgssapi_krb5.so.2": ("libgssapi-krb5-2", "krb5-libs"),
    "libzstd.so.1": ("libzstd1", "libzstd"),
    "libbrotlidec.so.1": ("libbrotli1", "libbrotli"),
    "libbrotlicommon.so.1": ("libbrotli1", "libbrotli"),
    "libX11.so.6": ("libx11-6", "libX11"),
}
"""What Qt needs even where it opens no window."""

_OF_SCREEN = {
    "xcb": {
        "libX11-xcb.so.1": ("libx11-xcb1", "libX11-xcb"),
        "libxcb.so.1": ("libxcb1", "libxcb"),
        "libxcb-cursor.so.0": ("libxcb-cursor0", "xcb-util-cursor"),
        "libxcb-icccm.so.4": ("libxcb-icccm4", "xcb-util-wm"),
        "libxcb-image.so.0": ("libxcb-image0", "xcb-util-image"),
        "libxcb-keysyms.so.1": ("libxcb-keysyms1", "xcb-util-keysyms"),
        "libxcb-randr.so.0": ("libxcb-randr0", "libxcb"),
        "libxcb-render.so.0": ("libxcb-render0", "libxcb"),
        "libxcb-render-util.so.0": ("libxcb-render-util0", "xcb-util-renderutil"),
        "libxcb-shape.so.0": ("libxcb-shape0", "libxcb"),
        "libxcb-shm.so.0": ("libxcb-shm0", "libxcb"),
        "libxcb-sync.so.1": ("libxcb-sync1", "libxcb"),
        "libxcb-util.so.1": ("libxcb-util1", "xcb-util"),
        "libxcb-xfixes.so.0": ("libxcb-xfixes0", "libxcb"),
        "libxcb-xkb.so.1": ("libxcb-xkb1", "libxcb"),
        "libxkbcommon-x11.so.0": ("libxkbcommon-x11-0", "libxkbcommon-x11"),
    },
    "wayland": {
        "libwayland-client.so.0": ("libwayland-client0", "libwayland-client"),
        "libwayland-cursor.so.0": ("libwayland-cursor0", "libwayland-cursor"),
    },
}

PACKAGES = {**EVERYWHERE, **_OF_SCREEN["xcb"], **_OF_SCREEN["wayland"]}
"""Each library: its package on Debian and on Fedora. As ``readelf -d`` tells of Qt's libraries and plug-ins."""

_NAMED_BY = {"xcb": "DISPLAY", "wayland": "WAYLAND_DISPLAY"}


def check_system() -> None:
    """Raise MissingLibrary, with all that is missing at once, where no window could be opened."""
    if not sys.platform.startswith("linux"):
        return
    ways = _ways(os.environ.get("QT_QPA_PLATFORM", ""))
    if ways is None:
        return
    screens = {way: os.environ[_NAMED_BY[way]] for way in ways if os.environ.get(_NAMED_BY[way])}
    if not screens:
        raise MissingLibrary("There is no screen to open a window on. The commands work without one; see keeper --help.")
    lacking = {way: missing((*EVERYWHERE, *_OF_SCREEN[way])) for way in screens}
    ready = {way: screen for way, screen in screens.items() if not lacking[way]}
    if not ready:
        raise MissingLibrary(to_install(lacking[min(screens, key=lambda way: way != "xcb")]))
    if not any(answers(way, screen) for way, screen in ready.items()):
        told = " or ".join(f"{screen} (the variable {_NAMED_BY[way]} names it)" for way, screen in ready.items())
        raise MissingLibrary(f"No screen answers that a window could be opened on: {told}.")


def _ways(asked: str) -> tuple[str, ...] | None:
    """The ways to a screen that Qt may take; None where it needs no screen."""
    named = tuple(part.split(":")[0] for part in asked.split(";") if part)
    if not set(named) <= set(_NAMED_BY):
        return None
    return named or tuple(_NAMED_BY)


def answers(way: str, screen: str) -> bool:
    """Whether a screen can be reached, tried as Qt will: by the connection itself."""
    from ctypes import CDLL, c_char_p, c_int, c_void_p

    if way == "wayland":
        client = CDLL("libwayland-client.so.0")
        client.wl_display_connect.restype, client.wl_display_connect.argtypes = c_void_p, (c_char_p,)
        client.wl_display_disconnect.argtypes = (c_void_p,)
        display = client.wl_display_connect(os.fsencode(screen))
        if display:
            client.wl_display_disconnect(display)
        return bool(display)
    xcb = CDLL("libxcb.so.1")
    xcb.xcb_connect.restype, xcb.xcb_connect.argtypes = c_void_p, (c_char_p, c_void_p)
    xcb.xcb_connection_has_error.restype, xcb.xcb_connection_has_error.argtypes = c_int, (c_void_p,)
    xcb.xcb_disconnect.argtypes = (c_void_p,)
    connection = xcb.xcb_connect(os.fsencode(screen), None)
    try:
        return not xcb.xcb_connection_has_error(connection)
    finally:
        xcb.xcb_disconnect(connection)


def missing(names: Iterable[str]) -> tuple[str, ...]:
    """Those of the libraries that the system does not give."""
    from ctypes import CDLL

    def given(name: str) -> bool:
        try:
            return bool(CDLL(name))
        except OSError:
            return False

    return tuple(name for name in names if not given(name))


def to_install(names: Iterable[str]) -> str:
    """A sentence that names the packages of libraries, in one command."""
    names = tuple(names)
    debian, fedora = (" ".join(dict.fromkeys(PACKAGES[name][which] for name in names)) for which in (0, 1))
    return (
        f"This computer lacks what Qt needs to open a window ({', '.join(names)}). "
        f"On Debian or Ubuntu: sudo apt install {debian}. On Fedora: sudo dnf install {fedora}."
    )


def why_not(said: str) -> str:
    """A sentence for what Python said when Qt could not be imported: all that is missing, not the first of it."""
    if not sys.platform.startswith("linux"):
        return f"Qt could not be loaded: {said}."
    named = tuple(name for name in PACKAGES if name in said)
    screens = [way for way, variable in _NAMED_BY.items() if os.environ.get(variable)]
    wanted = (*EVERYWHERE, *(name for way in screens for name in _OF_SCREEN[way]))
    lacking = dict.fromkeys((*named, *missing(wanted)))
    return to_install(lacking) if lacking else f"Qt could not be loaded: {said}."
