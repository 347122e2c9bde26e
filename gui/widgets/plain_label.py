"""Labels that show text as it was typed, whatever signs are in it."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QEnterEvent, QMouseEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from core.words.glossary import Term, terms_in
from gui.widgets.explained import explainer_of, told_shortly
from gui.widgets.plain_tip import plain_tip


class PlainLabel(QLabel):
    """A label that never takes its text for rich text; ``role`` names its look to the style sheet.

    Where terms of the trade stand in it the pointer tells the first in short, and a click opens the glossary.
    """

    def __init__(
        self, text: str = "", parent: QWidget | None = None, *, role: str = "", wraps: bool = False
    ) -> None:
        super().__init__(parent)
        self._tells_term = False
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

    def show_words(self, words: str) -> None:
        """Show some words, or with none take no room at all."""
        self.setText(words)
        self.setVisible(bool(words))

    def enterEvent(self, event: QEnterEvent) -> None:
        super().enterEvent(event)
        terms = self._explained_terms()
        if terms and (not self.toolTip() or self._tells_term):
            self._tells_term = True
            self.setToolTip(plain_tip(told_shortly(terms[0])))
        elif self._tells_term:
            self._tells_term = False
            self.setToolTip("")
        self.setCursor(Qt.CursorShape.WhatsThisCursor if terms else Qt.CursorShape.ArrowCursor)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        window, terms = explainer_of(self), self._explained_terms()
        is_click = event.button() == Qt.MouseButton.LeftButton and self.rect().contains(
            event.position().toPoint()
        )
        if window is not None and terms and is_click:
            window.explain(terms)

    def _explained_terms(self) -> tuple[Term, ...]:
        return terms_in(self.text()) if explainer_of(self) is not None else ()
