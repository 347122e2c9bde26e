"""Words that scroll where there is no room for all of them."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QScrollArea, QSizePolicy, QWidget

from gui.widgets.plain_label import PlainLabel

_BORDER_PX = 2  # in the style sheet
_LEAST_LINES = 2
_LEAST_LETTERS = 16


def reading_label(text: str = "", *, role: str = "") -> PlainLabel:
    """Return a wrapped label for a page of words, as high as its text is at the width it gets."""
    label = PlainLabel(text, role=role, wraps=True)
    policy = label.sizePolicy()
    # Else it would ask for the height that it has when it is much narrower.
    policy.setVerticalPolicy(QSizePolicy.Policy.Preferred)
    label.setSizePolicy(policy)
    return label


class ReadingArea(QScrollArea):
    """A page of words that never asks the window to grow; the keyboard scrolls it."""

    def __init__(self, page: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._page = page
        self._wanted = 0
        page.setObjectName("page")
        self.setProperty("role", "reading")
        self.setWidget(page)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def minimumSizeHint(self) -> QSize:
        metrics = self.fontMetrics()
        return QSize(_LEAST_LETTERS * metrics.averageCharWidth(), _LEAST_LINES * metrics.lineSpacing())

    def sizeHint(self) -> QSize:
        return self.minimumSizeHint().expandedTo(QSize(0, self._wanted))

    @property
    def wanted_height(self) -> int:
        """The height that the words need, 0 while that is not asked for."""
        return self._wanted

    def fit(self, width: int | None) -> None:
        """Ask for the height that the words need in a width, or with None take whatever there is."""
        policy = QSizePolicy.Policy
        self.setSizePolicy(policy.Expanding, policy.Expanding if width is None else policy.Maximum)
        wanted = 0 if width is None else self._height_for(width - 2 * _BORDER_PX) + 2 * _BORDER_PX
        if wanted != self._wanted:
            self._wanted = wanted
            self.updateGeometry()

    def _height_for(self, width: int) -> int:
        page = self._page
        return page.heightForWidth(width) if page.hasHeightForWidth() else page.sizeHint().height()
