"""The planet in hand at each power of the scope, in a row under the table of its figures."""

from functools import partial

from PySide6.QtCore import QPointF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QShowEvent
from PySide6.QtWidgets import QWidget

from core.drawing.eyepiece import EyepieceDrawing, draw_steps
from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.looks.picture.eyepiece import Steps, compute_steps, steps_around
from core.looks.picture.sight import Sight
from core.words.eyepiece import AT_EACH_POWER, size_words
from gui.state import AppState
from gui.widgets.canvas import Canvas

_JOB = "pictures of every power"
_PICTURE_PX = 256


class PowersPictures(Canvas):
    """Small pictures at one scale, as many as stand beside each other around the power in hand.

    They are computed away from the window's thread, and only while they can be seen.

    Signals
    -------
    chosen
        The power whose picture was clicked.
    """

    chosen = Signal(float)

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(self._draw_steps, parent)
        self.drawing: EyepieceDrawing | None = None
        self._state = state
        self._steps: Steps | None = None
        self._wanted: tuple[Sight, ...] = ()
        self._computed: tuple[Sight, ...] = ()
        self._in_hand: Sight | None = None

    def minimumSizeHint(self) -> QSize:
        # It takes what is left, and nothing from the table.
        return QSize(0, 0)

    @property
    def has_something(self) -> bool:
        """Whether there is a planet to be seen at more than one power."""
        return len(self._wanted) > 1

    def show_power(self, power: float | None) -> None:
        """Show the powers of the scope in hand around one of them, which is marked."""
        appearance = self._state.situation.appearance
        sights = appearance.sights if appearance is not None else ()
        in_hand = next((sight for sight in sights if sight.power == power), None)
        self._in_hand = in_hand
        ladder = None if appearance is None else appearance.ladder
        top = () if ladder is None or ladder.climb_to is None else (ladder.climb_to,)
        self._wanted = steps_around(sights, in_hand or sights[0], top) if sights else ()
        planet = self._state.situation.planet
        self.setAccessibleName("" if planet is None else AT_EACH_POWER.format(planet=planet.heading))
        self.setAccessibleDescription("" if in_hand is None else size_words(in_hand))
        self.redraw()
        self._compute()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._compute()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        sight = self._sight_at(event.position())
        if event.button() == Qt.MouseButton.LeftButton and sight is not None:
            self.chosen.emit(sight.power)
        else:
            super().mousePressEvent(event)

    def acts_at(self, place: QPointF) -> bool:
        return self._sight_at(place) is not None

    def _sight_at(self, place: QPointF) -> Sight | None:
        drawing = self.drawing
        return None if drawing is None else drawing.sight_at(*self.to_page(place.x(), place.y()))

    def _compute(self) -> None:
        if self._wanted and self._wanted != self._computed and self.isVisible():
            self._computed = self._wanted
            compute = partial(compute_steps, self._wanted, _PICTURE_PX, with_eye=True)
            self._state.jobs.submit(_JOB, compute, self._take)

    def _take(self, steps: Steps) -> None:
        self._steps = steps
        self.redraw()

    def _draw_steps(self, page: Page) -> Drawing | str:
        palette = load_palette(self._state.situation.palette_name)
        self.drawing = None
        if self._steps is None:
            return palette.surface
        self.drawing = draw_steps(page, self._steps, self._in_hand, self.accessibleName(), palette=palette)
        return self.drawing.drawing
