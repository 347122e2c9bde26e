"""A stack of pages that asks for no more room than the page that is shown."""

from collections.abc import Callable

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QStackedWidget, QWidget


class OnePage(QStackedWidget):
    """Shows one of its pages; those behind it do not count, and need not have been made."""

    def __init__(self) -> None:
        super().__init__()
        self._makers: dict[int, Callable[[], QWidget]] = {}
        self.currentChanged.connect(lambda _number: self.updateGeometry())

    def add_later(self, make: Callable[[], QWidget]) -> None:
        """Add a page that is made when it is first shown."""
        self._makers[self.addWidget(QWidget())] = make

    def show_page(self, number: int) -> None:
        """Show a page, the first time by making it."""
        make = self._makers.pop(number, None)
        if make is not None:
            in_its_place = self.widget(number)
            assert in_its_place is not None  # put there by ``add_later``
            self.insertWidget(number, make())
            self.setCurrentIndex(number)
            self.removeWidget(in_its_place)
            in_its_place.deleteLater()
        self.setCurrentIndex(number)

    def sizeHint(self) -> QSize:
        page = self.currentWidget()
        return super().sizeHint() if page is None else page.sizeHint()

    def minimumSizeHint(self) -> QSize:
        page = self.currentWidget()
        return super().minimumSizeHint() if page is None else page.minimumSizeHint()
