"""A place in the system's menu, an icon, and profiles that open by a double-click."""

import sys
import sysconfig
from pathlib import Path

from core.problems import refuse
from core.words.desktop import MACOS_HAS_AN_APP

WINDOW_PROGRAM = "stillair-window"


def install_desktop() -> str:
    """Put Stillair into the menu of this system for this user; return what to tell."""
    if sys.platform == "win32":
        from gui.desktop import windows

        return windows.install(start_words())
    if sys.platform == "darwin":
        raise refuse(MACOS_HAS_AN_APP)
    from gui.desktop import freedesktop

    return freedesktop.install(start_words())


def remove_desktop() -> str:
    """Take away what `install_desktop` put there; return what to tell."""
    if sys.platform == "win32":
        from gui.desktop import windows

        return windows.remove()
    if sys.platform == "darwin":
        raise refuse(MACOS_HAS_AN_APP)
    from gui.desktop import freedesktop

    return freedesktop.remove()


def start_words() -> tuple[str, ...]:
    """Return the words that start the window: the program beside this one, else Python and the module."""
    ending = ".exe" if sys.platform == "win32" else ""
    folders = [Path(sys.executable).parent]
    if not getattr(sys, "frozen", False):
        folders.insert(0, Path(sysconfig.get_path("scripts")))
    for folder in folders:
        program = folder / f"{WINDOW_PROGRAM}{ending}"
        if program.is_file():
            return (str(program),)
    return (sys.executable, "-m", "gui.app")
