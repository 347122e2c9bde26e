"""A one-line label that tells the same at more or less length, as it has room."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.widgets.plain_label import PlainLabel


class FittingLabel(PlainLabel):
    """Shows the first of some wordings that goes into its width, the longest of them first.

    It takes what room others leave it, and asks for none.
    """

    def __init__(self, parent: QWidget | None = None, *, role: str = "") -> None:
        super().__init__(parent=parent, role=role)
        self._wordings: tuple[str, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def show_wordings(self, wordings: Sequence[str]) -> None:
        """Show the first of some wordings that fits; with none take no room at all."""
        self._wordings = tuple(wordings)
        self._fit()
        self.setVisible(bool(wordings))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self._fit()

    def _fit(self) -> None:
        across = self.fontMetrics().horizontalAdvance
        fitting = (words for words in self._wordings if across(words) <= self.width())
        self.setText(next(fitting, ""))
