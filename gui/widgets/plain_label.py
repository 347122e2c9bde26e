"""Labels that show text as it was typed, whatever signs are in it."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget


class PlainLabel(QLabel):
    """A label that never takes its text for rich text; ``role`` names its look to the style sheet."""

    def __init__(
        self, text: str = "", parent: QWidget | None = None, *, role: str = "", wraps: bool = False
    ) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setText(text)
        if role:
            self.setProperty("role", role)
        if wraps:
            self.setWordWrap(True)
            policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
            # A policy set anew forgets that the height follows from the width.
            policy.setHeightForWidth(True)
            self.setSizePolicy(policy)
