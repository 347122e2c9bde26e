"""Whether a window can be opened at all, found out before Qt tries: it ends the process when it cannot.

What is looked at: the system libraries that Qt needs, the platform that it is told to use, and, on Linux,
whether a display answers.
"""

import ctypes
import importlib
import os
import re
import socket
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

from core.words.errors import (
    DISPLAY_DOES_NOT_ANSWER,
    NO_DISPLAY,
    NO_PLATFORM,
    PLATFORM_DOES_NOT_LOAD,
    QT_DOES_NOT_LOAD,
    install_words,
    no_window_words,
)

# System libraries that Qt's widgets and its two display platforms load, and the Debian packages of each.
WIDGETS_PACKAGES = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libfreetype.so.6": "libfreetype6",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libX11.so.6": "libx11-6",
    "libxkbcommon.so.0": "libxkbcommon0",
}
XCB_PACKAGES = {
    "libX11-xcb.so.1": "libx11-xcb1",
    "libxcb.so.1": "libxcb1",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-randr.so.0": "libxcb-randr0",
    "libxcb-render.so.0": "libxcb-render0",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxcb-shm.so.0": "libxcb-shm0",
    "libxcb-sync.so.1": "libxcb-sync1",
    "libxcb-util.so.1": "libxcb-util1",
    "libxcb-xfixes.so.0": "libxcb-xfixes0",
    "libxcb-xkb.so.1": "libxcb-xkb1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
WAYLAND_PACKAGES = {
    "libwayland-client.so.0": "libwayland-client0",
    "libwayland-cursor.so.0": "libwayland-cursor0",
}

Load = Callable[[str], object]


class NoWindowError(Exception):
    """No window can be opened on this machine as it is; the message is one sentence for a person."""


def check_window(environ: Mapping[str, str] = os.environ, *, load: Load = ctypes.CDLL) -> None:
    """Raise NoWindowError where a window cannot be opened."""
    check_qt(load=load)
    if sys.platform != "linux":
        return
    problems = []
    for platform in _platforms(environ):
        problem = _platform_problem(platform, environ, load)
        if problem is None:
            return
        problems.append(problem)
    if not problems:
        problems = [NO_DISPLAY]
    raise NoWindowError(no_window_words(problems))


def check_qt(*, load: Load = ctypes.CDLL) -> None:
    """Raise NoWindowError where Qt's widgets cannot be loaded, with the system packages that are missing."""
    try:
        importlib.import_module("PySide6.QtWidgets")
    except ImportError as error:
        missing = _missing(WIDGETS_PACKAGES, load)
        reason = install_words(missing) if missing else QT_DOES_NOT_LOAD.format(error=_first_line(error))
        raise NoWindowError(no_window_words([reason])) from None


def _platforms(environ: Mapping[str, str]) -> list[str]:
    """Return the platforms that Qt will try, in its order."""
    if chosen := environ.get("QT_QPA_PLATFORM", "").strip():
        return [name.partition(":")[0] for name in chosen.split(";") if name]
    found = []
    if environ.get("WAYLAND_DISPLAY"):
        found.append("wayland")
    if environ.get("DISPLAY"):
        found.append("xcb")
    return found


def _platform_problem(platform: str, environ: Mapping[str, str], load: Load) -> str | None:
    # Before Qt 6.10 there were two plugins for Wayland, libqwayland-egl and libqwayland-generic.
    plugins = sorted(_plugin_folder().glob(f"libq{platform}*.so"))
    if not plugins:
        return NO_PLATFORM.format(platform=platform)
    packages = {"xcb": XCB_PACKAGES, "wayland": WAYLAND_PACKAGES}.get(platform)
    if packages is None:
        return None
    if missing := _missing(packages, load):
        return install_words(missing)
    try:
        load(str(plugins[-1]))
    except OSError as error:
        return PLATFORM_DOES_NOT_LOAD.format(platform=platform, error=_first_line(error))
    if platform == "xcb":
        display = environ.get("DISPLAY", "")
        return None if _x_answers(display) else DISPLAY_DOES_NOT_ANSWER.format(display=display)
    display = environ.get("WAYLAND_DISPLAY", "")
    return None if _wayland_answers(display, environ) else DISPLAY_DOES_NOT_ANSWER.format(display=display)


def _plugin_folder() -> Path:
    from PySide6.QtCore import QLibraryInfo

    return Path(QLibraryInfo.path(QLibraryInfo.LibraryPath.PluginsPath)) / "platforms"


def _missing(packages: Mapping[str, str], load: Load) -> dict[str, str]:
    """Return those of the libraries that the system does not have, with their packages."""
    missing = {}
    for library, package in packages.items():
        try:
            load(library)
        except OSError:
            missing[library] = package
    return missing


def _x_answers(display: str) -> bool:
    """Tell whether an X server takes a connection."""
    xcb = ctypes.CDLL("libxcb.so.1")
    xcb.xcb_connect.restype = ctypes.c_void_p
    xcb.xcb_connect.argtypes = [ctypes.c_char_p, ctypes.POINTER(ctypes.c_int)]
    xcb.xcb_connection_has_error.argtypes = [ctypes.c_void_p]
    xcb.xcb_disconnect.argtypes = [ctypes.c_void_p]
    connection = xcb.xcb_connect(os.fsencode(display), None)
    failed = bool(xcb.xcb_connection_has_error(connection))
    xcb.xcb_disconnect(connection)
    return not failed


def _wayland_answers(display: str, environ: Mapping[str, str]) -> bool:
    """Tell whether a Wayland compositor takes a connection."""
    path = Path(environ.get("XDG_RUNTIME_DIR", "")) / display
    try:
        with socket.socket(socket.AF_UNIX) as connection:
            connection.connect(str(path))
    except OSError:
        return False
    return True


def _first_line(error: Exception) -> str:
    return re.sub(r"\s+", " ", (str(error).splitlines() or ["no reason given"])[0])
