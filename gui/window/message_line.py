"""The line at the foot of the window where the program speaks, and is told that it was heard."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from gui.widgets.plain_label import PlainLabel


class MessageLine(QWidget):
    """Shows one message until it is dismissed or the next one comes; hidden while there is none."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("message")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.text = PlainLabel(wraps=True)
        self.text.setAccessibleName("Message")
        self.dismiss = QPushButton("Dismiss")
        self.dismiss.setAccessibleName("Dismiss the message")
        self.dismiss.clicked.connect(self.hide)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 6, 18, 6)
        row.addWidget(self.text, 1)
        row.addWidget(self.dismiss, 0, Qt.AlignmentFlag.AlignTop)
        self.hide()

    def say(self, sentence: str) -> None:
        """Show a message."""
        self.text.setText(sentence)
        self.show()
        QAccessible.updateAccessibility(QAccessibleEvent(self.text, QAccessible.Event.Alert))
