"""Where a window stands and how large it is: kept for the next start, and on a screen that is there then."""

from typing import Final

from PySide6.QtCore import QByteArray, QSize
from PySide6.QtWidgets import QWidget

USUAL_SIZE: Final = QSize(1280, 800)
# What a window manager puts around the window: mostly a title above, thin edges elsewhere.
_FRAME: Final = QSize(12, 40)


def place_of(window: QWidget) -> str:
    """Return where a window stands, or stood before it filled the screen, in Qt's own writing as letters."""
    return bytes(window.saveGeometry().toBase64().data()).decode("ascii")


def take_place(window: QWidget, place: str, room: QSize) -> None:
    """Put a window where it stood, else as large as usual or as fits into a screen of that ``room``.

    A screen that has gone or shrunk meanwhile leaves no part of it out of reach: that is Qt's own work.
    """
    kept = QByteArray.fromBase64(QByteArray(place.encode("ascii", "replace")))
    if kept.isEmpty() or not window.restoreGeometry(kept):
        window.resize(USUAL_SIZE.boundedTo(room - _FRAME))
        return
    if window.isFullScreen():
        window.setWindowState(window.windowState() & ~window.windowState().WindowFullScreen)
