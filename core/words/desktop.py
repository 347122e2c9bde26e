"""What is told of the program's place in the menu of a system."""

from typing import Final

IN_MENU: Final = (
    "Stillair is in the menu now. Profiles named *.stillair.toml open with it, and it is offered for other "
    "*.toml files. stillair --remove-desktop takes that away again."
)
NOT_IN_MENU: Final = "Stillair is no longer in the menu; your profiles and the log are as they were."
IN_START_MENU: Final = (
    "Stillair is in the Start menu now, and offered under Open with for *.toml files. "
    "stillair --remove-desktop takes that away again."
)
NOT_IN_START_MENU: Final = (
    "Stillair is no longer in the Start menu; your profiles and the log are as they were."
)
MACOS_HAS_AN_APP: Final = (
    "on macOS the program's folder holds Stillair.app: drag it into Applications, or out of there into the "
    "bin; it brings its icon and the opening of profiles along"
)
