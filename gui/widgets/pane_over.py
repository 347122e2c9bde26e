"""A pane that lies over all of a widget, and lets mouse and keyboard through."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QWidget


class PaneOver(QWidget):
    """Stays as large as the widget it lies over, its parent; a kind of pane paints itself."""

    def __init__(self, below: QWidget) -> None:
        super().__init__(below)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAttribute(Qt.WidgetAttribute.WA_NoSystemBackground)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setGeometry(below.rect())
        below.installEventFilter(self)
        self.show()
        self.raise_()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        below = self.parentWidget()
        if watched is below and event.type() is QEvent.Type.Resize:
            self.setGeometry(below.rect())
        return False
