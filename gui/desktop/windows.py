"""The Start menu and "Open with" of Windows, for the user at hand; untried on a real system."""

import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Final

from core.words.desktop import IN_START_MENU, NOT_IN_START_MENU

_CLASSES: Final = r"Software\Classes"
_KIND: Final = "Stillair.Profile"

# The words come as environment variables, so that nothing of them is read as a script.
_SHORTCUT: Final = (
    "$made = (New-Object -ComObject WScript.Shell).CreateShortcut($env:STILLAIR_LINK); "
    "$made.TargetPath = $env:STILLAIR_TARGET; $made.Arguments = $env:STILLAIR_ARGUMENTS; $made.Save()"
)


def install(start_words: Sequence[str]) -> str:
    """Make the shortcut and the registry's entries; return what to tell."""
    target, *arguments = start_words
    told = {
        "STILLAIR_LINK": str(_link()),
        "STILLAIR_TARGET": target,
        "STILLAIR_ARGUMENTS": subprocess.list2cmdline(arguments),
    }
    subprocess.run(
        ["powershell", "-NoProfile", "-NonInteractive", "-Command", _SHORTCUT],
        env={**os.environ, **told},
        check=True,
        capture_output=True,
    )
    if sys.platform == "win32":
        import winreg

        command = f'{subprocess.list2cmdline(start_words)} "%1"'
        for key, name, value in (
            (_KIND, "", "Stillair profile"),
            (rf"{_KIND}\shell\open\command", "", command),
            (r".toml\OpenWithProgids", _KIND, ""),
        ):
            with winreg.CreateKey(winreg.HKEY_CURRENT_USER, rf"{_CLASSES}\{key}") as opened:
                winreg.SetValueEx(opened, name, 0, winreg.REG_SZ, value)
    return IN_START_MENU


def remove() -> str:
    """Take away what ``install`` made; return what to tell."""
    _link().unlink(missing_ok=True)
    if sys.platform == "win32":
        import winreg
        from contextlib import suppress

        for key in (rf"{_KIND}\shell\open\command", rf"{_KIND}\shell\open", rf"{_KIND}\shell", _KIND):
            with suppress(FileNotFoundError):
                winreg.DeleteKey(winreg.HKEY_CURRENT_USER, rf"{_CLASSES}\{key}")
        with (
            suppress(FileNotFoundError),
            winreg.OpenKey(
                winreg.HKEY_CURRENT_USER, rf"{_CLASSES}\.toml\OpenWithProgids", access=winreg.KEY_SET_VALUE
            ) as opened,
        ):
            winreg.DeleteValue(opened, _KIND)
    return NOT_IN_START_MENU


def _link() -> Path:
    return Path(os.environ["APPDATA"]) / "Microsoft" / "Windows" / "Start Menu" / "Programs" / "Stillair.lnk"
