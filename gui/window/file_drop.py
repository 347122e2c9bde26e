"""A profile dropped on the window is opened; anything else is refused in a sentence."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, QTimer, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QWidget

from core.words.files import DROP_ELSE, DROP_LOCAL, DROP_ONE


class FileDrop(QObject):
    """Lets one widget take files; ``open_path`` gets a profile, ``tell`` why it is none."""

    def __init__(
        self, target: QWidget, open_path: Callable[[Path], None], tell: Callable[[str], None]
    ) -> None:
        super().__init__(target)
        self._open_path = open_path
        self._tell = tell
        target.setAcceptDrops(True)
        target.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        # Also what will be refused is let in: a sentence says more than a pointer with a bar across.
        if isinstance(event, QDropEvent) and event.mimeData().hasUrls():
            event.acceptProposedAction()
            if event.type() is QEvent.Type.Drop:
                # Whoever dropped it waits until this returns; a question asked here would hold that up.
                QTimer.singleShot(0, self, partial(self._take, event.mimeData().urls()))
            return True
        return False

    def _take(self, urls: Sequence[QUrl]) -> None:
        paths = [Path(url.toLocalFile()) for url in urls if url.isLocalFile()]
        if len(urls) > 1:
            self._tell(DROP_ONE)
        elif not paths:
            self._tell(DROP_LOCAL)
        elif paths[0].suffix.lower() != ".toml":
            self._tell(DROP_ELSE.format(file=paths[0].name))
        else:
            self._open_path(paths[0])
