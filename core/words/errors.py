"""What is told of an error inside the program, and of a machine on which no window can be opened."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Final

_WENT_WRONG: Final = "Something went wrong inside Stillair, and your profile is as it was."
_WENT_WRONG_REPORTED: Final = (
    "Something went wrong inside Stillair, and your profile is as it was. A report without personal data is "
    "in {path}; nothing is sent."
)
_NO_WINDOW: Final = (
    "No window can be opened here: {reasons}; stillair heights PROFILE tells the evening in the terminal."
)
NO_DISPLAY: Final = "there is no display (neither DISPLAY nor WAYLAND_DISPLAY is set)"
QT_DOES_NOT_LOAD: Final = "Qt does not load ({error})"
NO_PLATFORM: Final = "Qt has no platform {platform!r}, which QT_QPA_PLATFORM asks for"
PLATFORM_DOES_NOT_LOAD: Final = "Qt's platform {platform} does not load ({error})"
DISPLAY_DOES_NOT_ANSWER: Final = "the display {display!r} does not answer"
_INSTALL: Final = "the system lacks {libraries}; on Debian or Ubuntu install {packages}"
NOT_STARTED: Final = "Stillair could not start: {error}"


def went_wrong_words(report: Path | None) -> str:
    """Return the sentence for an error that nobody foresaw, and where its report lies."""
    return _WENT_WRONG if report is None else _WENT_WRONG_REPORTED.format(path=report)


def no_window_words(reasons: Sequence[str]) -> str:
    """Return why no window can be opened, in one sentence, and what there is in its place."""
    return _NO_WINDOW.format(reasons="; ".join(reasons))


def install_words(missing: Mapping[str, str]) -> str:
    """Return which system libraries are missing, and the packages that hold them."""
    return _INSTALL.format(libraries=", ".join(missing), packages=" ".join(missing.values()))
