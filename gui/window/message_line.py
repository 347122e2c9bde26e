"""The line over the foot of the window where the program speaks, and is told that it was heard."""

from typing import Final

from PySide6.QtCore import QEvent, QObject, Qt, QTimer, Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent, QEnterEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from gui.widgets.plain_label import PlainLabel

# Slow readers take about 90 ms a letter; the rest is for noticing that something is said.
_NOTICE_MS: Final = 8_000
_LETTER_MS: Final = 90
_WIDEST_PX: Final = 760
_MARGIN_PX: Final = 14


class MessageLine(QWidget):
    """Shows one message over its parent, until it is dismissed, has been read, or the next one comes.

    It takes no room of its own, so that nothing under it moves. While the pointer or the keyboard is on it,
    it stays. ``patience`` runs while it waits to be read.

    Signals
    -------
    gone
        There is room for the next message.
    """

    gone = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._over = parent
        self.setObjectName("message")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.text = PlainLabel(wraps=True)
        self.text.setAccessibleName("Message")
        self.dismiss = QPushButton("Dismiss")
        self.dismiss.setAccessibleName("Dismiss the message")
        self.dismiss.clicked.connect(self.forget)
        self.patience = QTimer(self)
        self.patience.setSingleShot(True)
        self.patience.timeout.connect(self._expire)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 6, 18, 6)
        row.addWidget(self.text, 1)
        row.addWidget(self.dismiss, 0, Qt.AlignmentFlag.AlignTop)
        parent.installEventFilter(self)
        self.hide()

    def say(self, sentence: str) -> None:
        """Show a message."""
        self.text.setText(sentence)
        self._place()
        self.show()
        self.raise_()
        self.patience.start(_NOTICE_MS + _LETTER_MS * len(sentence))
        QAccessible.updateAccessibility(QAccessibleEvent(self.text, QAccessible.Event.Alert))

    def forget(self) -> None:
        """Take the message away: it was heard, or it is no longer true."""
        self.patience.stop()
        self.hide()
        self.gone.emit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.Resize and not self.isHidden():
            self._place()
        return super().eventFilter(watched, event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange) and not self.isHidden():
            self._place()

    def leaveEvent(self, event: QEvent) -> None:
        super().leaveEvent(event)
        if not self.isHidden():
            self.patience.start(_NOTICE_MS)

    def enterEvent(self, event: QEnterEvent) -> None:
        super().enterEvent(event)
        self.patience.stop()

    def _expire(self) -> None:
        if self.dismiss.hasFocus():
            self.patience.start(_NOTICE_MS)
        else:
            self.forget()

    def _place(self) -> None:
        """Lie over the foot of the parent, in its middle."""
        room = self._over.size()
        width = min(room.width() - 2 * _MARGIN_PX, _WIDEST_PX)
        # The lines of the words at this width; without that it would be as high as a narrow column of them.
        height = min(self.heightForWidth(width), room.height())
        self.setGeometry((room.width() - width) // 2, room.height() - height - _MARGIN_PX, width, height)
