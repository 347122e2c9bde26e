"""Dialogs without a frame of the desktop, which would be bright whatever the palette."""

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, Qt
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QApplication, QDialog, QFrame, QLayout, QVBoxLayout, QWidget

from gui.widgets.pane_over import PaneOver
from gui.widgets.plain_label import PlainLabel

_SHOW, _STATE = QEvent.Type.Show, QEvent.Type.WindowStateChange
_FRAMELESS = Qt.WindowType.FramelessWindowHint


class FramelessDialogs(QObject):
    """Takes the desktop's bright frame off the dialogs of a window, in full screen and in the dark.

    Every dialog to come, Qt's own questions and file choosers among them, and each that is open, has then no
    frame but an edge and a title of the program's own, by which it is dragged, and stands inside the window.
    """

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._is_dark = False
        self._watches = False
        window.installEventFilter(self)

    def keep_dark(self, is_dark: bool) -> None:
        """Take note whether a bright frame would dazzle in any window, not only in full screen."""
        self._is_dark = is_dark
        self._watch()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        # All events of the program come by here while it watches.
        kind = event.type()
        if kind is _SHOW:
            if isinstance(watched, QDialog) and not event.spontaneous() and self._is_own(watched):
                # Sent before the system hears of the dialog.
                self._take_in(watched)
        elif kind is _STATE and watched is self._window:
            self._watch()
        return False

    def _is_own(self, dialog: QDialog) -> bool:
        return self._watches and is_dialog_of(dialog, self._window)

    def _watch(self) -> None:
        """Look at every dialog to come and at those that are open now, as long as frames are not wanted."""
        on = self._is_dark or self._window.isFullScreen()
        if on == self._watches:
            return
        self._watches = on
        # The whole program's events pass by only as long as they must.
        app = QApplication.instance()
        assert app is not None
        if not on:
            # What is open keeps its own title and edge until it is closed.
            app.removeEventFilter(self)
            return
        app.installEventFilter(self)
        for dialog in self._window.findChildren(QDialog):
            if dialog.isVisible():
                self._take_in(dialog)

    def _take_in(self, dialog: QDialog) -> None:
        """Put a dialog without a frame into the middle of the window."""
        if not dialog.windowFlags() & _FRAMELESS:
            # Another frame for a widget would hide it, which ends a dialog.
            dialog.overrideWindowFlags(dialog.windowFlags() | _FRAMELESS)
            dialog.windowHandle().setFlags(dialog.windowFlags())
            _add_title(dialog)
        room = self._window.geometry()
        place = QRect(dialog.pos(), dialog.size().boundedTo(room.size()))
        place.moveCenter(room.center())
        dialog.setGeometry(place)


def is_dialog_of(dialog: QDialog, window: QWidget) -> bool:
    """Tell whether a dialog belongs to a window, be it as a question of another dialog there."""
    parent = dialog.parentWidget()
    while parent is not None and parent is not window:
        parent = parent.parentWidget()
    return parent is not None


def _add_title(dialog: QDialog) -> None:
    """Give a dialog a title and an edge of the program's own."""
    layout = dialog.layout()
    if isinstance(layout, QLayout):
        bar = TitleBar(dialog.windowTitle(), dialog)
        layout.setMenuBar(bar)
        bar.show()
        dialog.resize(dialog.width(), dialog.height() + bar.sizeHint().height())
    _Edge(dialog)


class TitleBar(QFrame):
    """What a dialog is called, in place of the title in a frame; it is dragged by it."""

    def __init__(self, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("role", "titleBar")
        self._held_at: QPoint | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 6, 14, 6)
        self.title = PlainLabel(title, role="heading")
        self.title.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        column.addWidget(self.title)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        handle = self.window().windowHandle()
        if event.button() == Qt.MouseButton.LeftButton and handle is not None:
            # Where the system does not move a window for the asking, it follows the pointer by itself.
            is_moved = handle.startSystemMove()
            self._held_at = None if is_moved else event.globalPosition().toPoint() - self.window().pos()
        super().mousePressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._held_at is not None and event.buttons() & Qt.MouseButton.LeftButton:
            self.window().move(event.globalPosition().toPoint() - self._held_at)
        super().mouseMoveEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._held_at = None
        super().mouseReleaseEvent(event)


class _Edge(PaneOver):
    """A thin line around a dialog that has no frame."""

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(QColor(self.palette().color(QPalette.ColorRole.PlaceholderText)))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()
