"""The window over the whole screen, where no dialog brings a bright frame of the desktop with it."""

from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPalette
from PySide6.QtWidgets import QApplication, QDialog, QFrame, QLayout, QVBoxLayout, QWidget

from gui.widgets.pane_over import PaneOver
from gui.widgets.plain_label import PlainLabel

_SHOW, _STATE = QEvent.Type.Show, QEvent.Type.WindowStateChange
_FRAMELESS = Qt.WindowType.FramelessWindowHint


class FullScreen(QObject):
    """Takes a window to the whole screen and back, its dialogs with it.

    In full screen every dialog, Qt's own questions and file choosers among them, has no frame but an edge
    and a title of the program's own, and stands inside the window.
    """

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._watches = False
        window.installEventFilter(self)

    def toggle(self) -> None:
        """Fill the screen, or go back."""
        if self._window.isFullScreen():
            self._window.showNormal()
        else:
            self._window.showFullScreen()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        # All events of the program come by here while in full screen.
        kind = event.type()
        if kind is _SHOW:
            if isinstance(watched, QDialog) and not event.spontaneous() and self._is_own(watched):
                # Sent before the system hears of the dialog.
                self._take_in(watched)
        elif kind is _STATE and watched is self._window:
            self._watch(self._window.isFullScreen())
        return False

    def _is_own(self, dialog: QDialog) -> bool:
        return self._watches and is_dialog_of(dialog, self._window)

    def _watch(self, on: bool) -> None:
        """Look at every dialog to come while in full screen, and at those that are open now."""
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
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 6, 14, 6)
        self.title = PlainLabel(title, role="heading")
        self.title.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        column.addWidget(self.title)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        handle = self.window().windowHandle()
        if event.button() == Qt.MouseButton.LeftButton and handle is not None:
            handle.startSystemMove()
        super().mousePressEvent(event)


class _Edge(PaneOver):
    """A thin line around a dialog that has no frame."""

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(QColor(self.palette().color(QPalette.ColorRole.PlaceholderText)))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()
