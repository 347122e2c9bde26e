"""A stack of pages that asks for no more room than the page that is shown."""

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QStackedWidget


class OnePage(QStackedWidget):
    """Shows one of its pages; those behind it do not count."""

    def __init__(self) -> None:
        super().__init__()
        self.currentChanged.connect(lambda _number: self.updateGeometry())

    def sizeHint(self) -> QSize:
        page = self.currentWidget()
        return super().sizeHint() if page is None else page.sizeHint()

    def minimumSizeHint(self) -> QSize:
        page = self.currentWidget()
        return super().minimumSizeHint() if page is None else page.minimumSizeHint()
