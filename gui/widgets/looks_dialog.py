"""How a planet looks: the picture in the eyepiece, and all that is known of its disc beside it."""

from PySide6.QtWidgets import QHBoxLayout, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from core.looks.planet_appearance import PlanetAppearance
from core.situation.situation import Situation
from core.words.looks import heading_words, paragraphs
from core.words.site_clock import SiteClock
from gui.state import AppState, Change
from gui.widgets.eyepiece_pane import EyepiecePane
from gui.widgets.plain_label import PlainLabel
from gui.widgets.sized_dialog import SizedDialog

_LETTERS_WIDE, _LINES_HIGH = 140, 30


class LooksDialog(SizedDialog):
    """The picture on the left, at the highest power that the moment bears; the words on the right."""

    def __init__(
        self,
        state: AppState,
        appearance: PlanetAppearance,
        clock: SiteClock,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent, letters=_LETTERS_WIDE, lines=_LINES_HIGH)
        self.setWindowTitle("How it looks")
        self.heading = PlainLabel(heading_words(appearance, clock), role="heading", wraps=True)
        self.picture = EyepiecePane(state)
        self.text = QPlainTextEdit("\n".join(paragraphs(appearance, clock)))
        self.text.setReadOnly(True)
        self.text.setTabChangesFocus(True)
        self.text.setAccessibleName(self.heading.text())
        self.finish = QPushButton("&Close")
        self.finish.setDefault(True)
        self.finish.clicked.connect(self.accept)
        self._state = state
        self._lay_out()
        self._show(appearance)
        # Without a picture its words stand alone.
        self.picture.setVisible(bool(appearance.sights))
        state.changed.connect(self._on_changed)

    def _lay_out(self) -> None:
        parts = QHBoxLayout()
        parts.setSpacing(14)
        parts.addWidget(self.picture, 7)
        parts.addWidget(self.text, 3)
        foot = QHBoxLayout()
        foot.addStretch(1)
        foot.addWidget(self.finish)
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 18, 20, 16)
        column.setSpacing(10)
        column.addWidget(self.heading)
        column.addLayout(parts, 1)
        column.addLayout(foot)

    def _on_changed(self, change: Change) -> None:
        appearance = self._state.situation.best_appearance
        if change.of(Situation.stillness) and appearance is not None:
            self._show(appearance)

    def _show(self, appearance: PlanetAppearance) -> None:
        self.picture.show_appearance(appearance, _power(appearance))


def _power(appearance: PlanetAppearance) -> float | None:
    """Return the highest power shown that the moment bears, else the lowest; None without a picture."""
    powers = [sight.power for sight in appearance.sights]
    ladder = appearance.ladder
    most = None if ladder is None else ladder.climb_to
    borne = [power for power in powers if most is not None and power <= most]
    return max(borne) if borne else min(powers, default=None)


def show_looks(dialog: LooksDialog) -> None:
    """Show it until it is closed."""
    dialog.exec()
