"""Two scopes on one planet: what each shows in the eyepiece, at one scale."""

from functools import partial

import attrs
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QCheckBox, QVBoxLayout, QWidget

from core.drawing.eyepiece import draw_pair
from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.ladder.compare import Comparison
from core.ladder.ladder import Ladder
from core.looks.picture.eyepiece import Steps, compute_steps
from core.looks.picture.sight import PICTURE_SIZE, Sight
from core.words.controls import SAME_POWER
from core.words.eyepiece import size_words, turning_words
from core.words.looks import no_picture_words
from core.words.names import labelled
from core.words.quantities import power_text
from gui.state import AppState
from gui.widgets.canvas import Canvas
from gui.widgets.reading_area import ReadingArea, reading_label

_JOB = "eyepiece pair"


class EyepiecePair(QWidget):
    """Each scope at the power to climb to tonight, or both at the lower of the two; ``refresh`` follows."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.canvas = Canvas(self._draw)
        self.canvas.setAccessibleName("Both in the eyepiece at one scale")
        self.same_power = QCheckBox("Both at the same power")
        self.words = reading_label(role="small")
        self.words.setAccessibleName("Which way round each is seen")
        self._scroll = _scrolled(self.same_power, self.words)
        self._state = state
        self._comparison: Comparison | None = None
        self._sights: tuple[Sight, ...] = ()
        self.steps: Steps | None = None
        self._drawn_in = ""
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.canvas, 1)
        column.addWidget(self._scroll)
        self.same_power.toggled.connect(lambda _on: self._show())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._scroll.fit(self.width())

    def refresh(self, comparison: Comparison | None) -> None:
        """Show both telescopes of a comparison as the state gives it now."""
        self._comparison = comparison
        self._show()

    def computed(self, comparison: Comparison) -> Steps | None:
        """Return both pictures now, whether they are in sight or not; None where there is nothing to see."""
        self._comparison = comparison
        sights = self._both()
        return self.steps if sights == self._sights and self.steps else _pictures(sights)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._show()

    def _show(self) -> None:
        if not self.isVisible():  # it is shown afresh when it comes into sight
            return
        sights = self._both()
        for widget in (self.canvas, self.same_power):
            widget.setVisible(bool(sights))
        if not sights:
            ladder = None if self._comparison is None else self._comparison.a.ladder
            self.words.setText(no_picture_words(self._state.situation.appearance_through(ladder)))
        else:
            self.words.setText(
                "\n".join(labelled(sight.scope.name, turning_words(sight)) for sight in sights)
            )
            sizes = [labelled(sight.scope.name, size_words(sight)) for sight in sights]
            self.canvas.setAccessibleDescription("\n".join([*sizes, self.words.text()]))
        self._scroll.fit(self.width())
        if sights != self._sights:
            self._sights = sights
            self._state.jobs.submit(_JOB, partial(_pictures, sights), self._take)
        elif self._drawn_in != self._state.situation.palette_name:
            self.canvas.redraw()
        self._drawn_in = self._state.situation.palette_name

    def _both(self) -> tuple[Sight, ...]:
        """Return what each scope shows, or nothing where one of them shows nothing."""
        if self._comparison is None:
            return ()
        ladders = (self._comparison.a.ladder, self._comparison.b.ladder)
        best = [sight for ladder in ladders if (sight := self._best(ladder)) is not None]
        if len(best) < len(ladders):
            return ()
        lower = min(sight.power for sight in best)
        are_alike = all(sight.power == lower for sight in best)
        self.same_power.setEnabled(not are_alike)
        self.same_power.setText(SAME_POWER.format(power=power_text(lower)))
        if self.same_power.isChecked():
            best = [_at(sight, lower) for sight in best]
        return tuple(best)

    def _best(self, ladder: Ladder) -> Sight | None:
        """Return what a scope shows at the power to climb to, else at its lowest."""
        appearance = self._state.situation.appearance_through(ladder)
        if appearance is None or not appearance.sights:
            return None
        return next(
            (sight for sight in appearance.sights if sight.power == ladder.climb_to), appearance.sights[0]
        )

    def _take(self, steps: Steps | None) -> None:
        self.steps = steps
        self.canvas.redraw()

    def _draw(self, page: Page) -> Drawing | str:
        palette = load_palette(self._state.situation.palette_name)
        if self.steps is None:
            return palette.surface
        names = [sight.scope.name for sight, _ in self.steps.shown]
        return draw_pair(page, self.steps, names, palette=palette).drawing


def _scrolled(*widgets: QWidget) -> ReadingArea:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(2, 0, 2, 0)
    for widget in widgets:
        column.addWidget(widget)
    column.addStretch(1)
    area = ReadingArea(page)
    area.setAccessibleName("About both pictures")
    return area


def _at(sight: Sight, power: float) -> Sight:
    return sight if sight.power == power else attrs.evolve(sight, power=power, true_field_deg=None)


def _pictures(sights: tuple[Sight, ...]) -> Steps | None:
    return compute_steps(sights, PICTURE_SIZE) if sights else None
