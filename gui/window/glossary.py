"""The glossary: every term of the window with its meaning, and a small drawing where it helps."""

from collections.abc import Sequence
from typing import Final

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QHBoxLayout, QListWidget, QPushButton, QVBoxLayout, QWidget

from core.drawing.glossary import draw_sketch
from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.words.controls import DRAWING_OF
from core.words.glossary import GLOSSARY, Term
from gui.widgets.canvas import Canvas
from gui.widgets.low_scroll_area import LowScrollArea
from gui.widgets.plain_label import PlainLabel
from gui.widgets.plain_line_edit import PlainLineEdit
from gui.widgets.sized_dialog import SizedDialog
from gui.widgets.theme import USUAL_POINTS

# With letters of the usual size.
_SKETCH_PX: Final = QSize(320, 150)
_LARGEST_SKETCH_PX: Final = QSize(480, 225)
_LETTERS, _LINES = 92, 26


class GlossaryDialog(SizedDialog):
    """Terms on the left, those of the place it was opened from first; the chosen one on the right."""

    def __init__(self, terms: Sequence[Term], palette_name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent, letters=_LETTERS, lines=_LINES)
        self._palette_name = palette_name
        self._terms = (*terms, *(term for term in GLOSSARY if term not in terms))
        self._shown: list[Term] = []
        self.setWindowTitle("What the words mean")
        self.search = PlainLineEdit()
        self.search.setPlaceholderText("Look for a word")
        self.search.setAccessibleName("Look for a word")
        self.list = QListWidget()
        self.list.setAccessibleName("Terms")
        self.name = PlainLabel(role="heading")
        self.meaning = PlainLabel(wraps=True)
        self.sketch = Canvas(self._draw)
        self.finish = QPushButton("&Close")
        self._lay_out()
        self.search.textChanged.connect(self._show_list)
        self.list.currentRowChanged.connect(self._show_term)
        self.finish.clicked.connect(self.accept)
        self._show_list()
        self.list.setFocus()

    @property
    def term(self) -> Term | None:
        """The term that is shown."""
        row = self.list.currentRow()
        return self._shown[row] if 0 <= row < len(self._shown) else None

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.addWidget(self.search)
        left.addWidget(self.list, 1)
        told = QWidget()
        words = QVBoxLayout(told)
        words.setContentsMargins(0, 0, 0, 0)
        words.setSpacing(10)
        words.addWidget(self.name)
        words.addWidget(self.meaning)
        words.addWidget(self.sketch)
        words.addStretch(1)
        right = QVBoxLayout()
        right.addWidget(LowScrollArea(told), 1)
        foot = QHBoxLayout()
        foot.addStretch(1)
        foot.addWidget(self.finish)
        right.addLayout(foot)
        row = QHBoxLayout(self)
        row.setContentsMargins(20, 18, 20, 16)
        row.setSpacing(18)
        row.addLayout(left, 2)
        row.addLayout(right, 3)

    def fit(self) -> None:
        scale = self.font().pointSizeF() / USUAL_POINTS
        self.sketch.setFixedSize((_SKETCH_PX * scale).boundedTo(_LARGEST_SKETCH_PX))
        # The search and the longest term are seen whole, a term beside its list's scroll bar.
        terms = self.list.sizeHintForColumn(0) + self.list.verticalScrollBar().sizeHint().width()
        self.list.setMinimumWidth(terms + 2 * self.list.frameWidth())
        super().fit()

    def _show_list(self) -> None:
        wanted = self.search.text().strip().casefold()
        self._shown = [
            term for term in self._terms if any(wanted in word.casefold() for word in (term.name, *term.also))
        ]
        self.list.clear()
        self.list.addItems([term.name for term in self._shown])
        self.list.setCurrentRow(0 if self._shown else -1)

    def _show_term(self) -> None:
        term = self.term
        self.name.setText("" if term is None else term.name)
        self.meaning.setText("" if term is None else term.meaning)
        self.sketch.setVisible(term is not None and term.sketch is not None)
        self.sketch.setAccessibleName("" if term is None else DRAWING_OF.format(term=term.name))
        self.sketch.redraw()

    def _draw(self, page: Page) -> Drawing | str:
        palette = load_palette(self._palette_name)
        term = self.term
        if term is None or term.sketch is None:
            return palette.surface
        return draw_sketch(page, term.sketch, palette=palette)
