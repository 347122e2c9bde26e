"""A pane of red glass before a window, for eyes that are used to the dark."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QWidget

from gui.widgets.all_windows import all_windows
from gui.widgets.night_pointer import FOLLOWED, NightPointer
from gui.widgets.pane_over import PaneOver

# Nothing is brighter than this, whatever draws it.
_BRIGHTEST = QColor(190, 0, 0)
# It comes before the first frame of every widget.
_POLISH = QEvent.Type.Polish
# By how much each step of the dimmer takes the light down.
DIMMER_STEPS = (1.0, 0.7, 0.5, 0.35)


class RedFilter(PaneOver):
    """Takes green, blue and all brighter red out of every pixel of its parent, a window.

    Style and palette make the window red; this is the guarantee for what neither of them reaches: the
    text cursor (drawn by inverting), icons of a file dialog, a style's own white highlights.
    """

    def __init__(self, window: QWidget, step: int) -> None:
        super().__init__(window)
        self.step = step

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        window = self.parentWidget()
        if watched is window:
            if event.type() in (QEvent.Type.Resize, QEvent.Type.Show, QEvent.Type.LayoutRequest):
                self.setGeometry(window.rect())
                self.raise_()
            elif event.type() is QEvent.Type.ChildAdded:
                self.raise_()
            elif event.type() is QEvent.Type.ParentChange and not window.isWindow():
                # Measured before it was put into a window, which has a filter of its own.
                self.hide()
                self.deleteLater()
        return False

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_Darken)
        painter.fillRect(event.rect(), _BRIGHTEST)
        if self.step:
            painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_Multiply)
            painter.fillRect(event.rect(), QColor(round(255 * DIMMER_STEPS[self.step]), 0, 0))
        painter.end()


class RedFilters(QObject):
    """Puts a red filter before every window of the program, those to come included, while switched on.

    The pointer, which no pane lies before, is then one of the program's own.
    """

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._app = app
        self._on = False
        self._step = 0
        self._pointer = NightPointer()

    def dim(self, step: int) -> None:
        """Take the light of every window down to a step of the dimmer, 0 for none."""
        self._step = step
        self._pointer.dim(DIMMER_STEPS[step])
        if not self._on:
            return
        for window in all_windows():
            for cover in _covers(window):
                cover.step = step
                cover.update()

    def set_on(self, on: bool) -> None:
        """Switch the filters on or off, everywhere at once."""
        if on == self._on:
            return
        self._on = on
        self._pointer.set_on(on)
        if on:
            self._app.installEventFilter(self)
            for window in all_windows():
                self._cover(window)
        else:
            self._app.removeEventFilter(self)
            for window in all_windows():
                for cover in _covers(window):
                    cover.hide()
                    cover.deleteLater()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        # All events of the program come by here.
        kind = event.type()
        if kind in FOLLOWED:
            self._pointer.heed(watched, kind)
        elif kind is _POLISH and isinstance(watched, QWidget) and watched.isWindow():
            self._cover(watched)
        return False

    def _cover(self, window: QWidget) -> None:
        if not _covers(window):
            RedFilter(window, self._step)


def _covers(window: QWidget) -> list[RedFilter]:
    return window.findChildren(RedFilter, options=Qt.FindChildOption.FindDirectChildrenOnly)
