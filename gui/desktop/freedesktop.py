"""The menu entry, the icon and the kind of file of a desktop that follows the freedesktop.org standards.

Desktop Entry Specification 1.5, Icon Theme Specification 0.13, Shared MIME-info Specification 0.22.
"""

import os
import shutil
import subprocess
from collections.abc import Sequence
from importlib import resources
from pathlib import Path
from typing import Final

from core.problems import refuse
from core.record.files import write_atomically
from core.words.commands import CANNOT_BE_MADE
from core.words.desktop import IN_MENU, NOT_IN_MENU

ICON_SIZES: Final = (16, 22, 24, 32, 48, 64, 128, 256, 512)
MIME_TYPE: Final = "application/x-stillair-profile"

_ENTRY: Final = """\
[Desktop Entry]
Type=Application
Name=Stillair
GenericName=Planet observing
Comment=Plan and keep the sharpest view of a planet that your telescope and the air allow
Exec={command} %f
Icon=stillair
Terminal=false
Categories=Education;Science;Astronomy;
Keywords=planet;telescope;eyepiece;seeing;
MimeType={mime_type};application/toml;
StartupWMClass=stillair
"""

# A name of its own decides at once; any other TOML file stays with its editor, Stillair being offered.
_KIND: Final = """\
<?xml version="1.0" encoding="UTF-8"?>
<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">
  <mime-type type="{mime_type}">
    <comment>Stillair profile</comment>
    <icon name="stillair"/>
    <sub-class-of type="text/plain"/>
    <glob pattern="*.stillair.toml" weight="60"/>
  </mime-type>
</mime-info>
"""


def install(start_words: Sequence[str]) -> str:
    """Write the entry, the icons and the kind of file for this user; return what to tell."""
    from gui.desktop.icon import icon_png

    command = " ".join(map(quoted, start_words))
    files: dict[Path, str | bytes] = {
        _entry_file(): _ENTRY.format(command=command, mime_type=MIME_TYPE),
        _kind_file(): _KIND.format(mime_type=MIME_TYPE),
        _icon_file("scalable"): resources.files("resources").joinpath("stillair.svg").read_bytes(),
    }
    files |= {_icon_file(size): icon_png(size) for size in ICON_SIZES}
    for path, content in files.items():
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise refuse(CANNOT_BE_MADE.format(error=error.strerror), where=str(path.parent)) from None
        write_atomically(path, content)
    _take_note()
    return IN_MENU


def remove() -> str:
    """Take the files of ``install`` away; return what to tell."""
    icons = (_icon_file(size) for size in ("scalable", *ICON_SIZES))
    for path in (_entry_file(), _kind_file(), *icons):
        path.unlink(missing_ok=True)
    _take_note()
    return NOT_IN_MENU


def quoted(word: str) -> str:
    """Return a word of a command as an entry's ``Exec`` key has it."""
    for sign in ("\\", '"', "`", "$"):
        word = word.replace(sign, f"\\{sign}")
    # Twice, since the value of every key has escapes of its own.
    return '"{}"'.format(word.replace("\\", "\\\\").replace("%", "%%"))


def _data_home() -> Path:
    given = os.environ.get("XDG_DATA_HOME", "")
    # A relative path there is to be ignored, by the Base Directory Specification.
    return Path(given) if Path(given).is_absolute() else Path.home() / ".local" / "share"


def _entry_file() -> Path:
    return _data_home() / "applications" / "stillair.desktop"


def _kind_file() -> Path:
    return _data_home() / "mime" / "packages" / "stillair.xml"


def _icon_file(size: int | str) -> Path:
    folder = size if isinstance(size, str) else f"{size}x{size}"
    name = "stillair.svg" if isinstance(size, str) else "stillair.png"
    return _data_home() / "icons" / "hicolor" / folder / "apps" / name


def _take_note() -> None:
    """Let the desktop read its files anew; without the programs for that it does at the next login."""
    home = _data_home()
    for program, folder in (
        ("update-mime-database", home / "mime"),
        ("update-desktop-database", home / "applications"),
        ("gtk-update-icon-cache", home / "icons" / "hicolor"),
    ):
        found = shutil.which(program)
        if found and folder.is_dir():
            words = [found, "-q", "-t", "-f"] if program == "gtk-update-icon-cache" else [found]
            subprocess.run([*words, str(folder)], check=False, capture_output=True)
