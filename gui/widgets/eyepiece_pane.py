"""The picture in the eyepiece at the rung in hand, with what is to be said about it."""

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QEvent, QPointF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QBoxLayout, QButtonGroup, QGridLayout, QPushButton, QVBoxLayout, QWidget

from core.drawing.eyepiece import EyepieceDrawing, draw_eyepiece
from core.drawing.marks import Drawing, Page
from core.drawing.palette import load_palette
from core.looks.picture.eyepiece import Pictures, compute_pictures
from core.looks.picture.sight import Sight
from core.looks.picture.stillness import Stillness
from core.looks.planet_appearance import PlanetAppearance
from core.situation.situation import Situation
from core.words.controls import IN_THE_EYEPIECE
from core.words.eyepiece import (
    PICTURE_LIMITS,
    STILLNESS_LABEL,
    close_up_words,
    moon_words,
    size_words,
    turning_words,
)
from core.words.looks import air_words, no_picture_words
from core.words.quantities import power_text
from gui.state import AppState, Change
from gui.widgets import dialogs
from gui.widgets.canvas import Canvas
from gui.widgets.in_room import NO_LIMIT_PX
from gui.widgets.reading_area import ReadingArea, reading_label
from gui.widgets.theme import USUAL_POINTS

_JOB = "eyepiece"
_LEAST_WIDTH_PX, _LEAST_HEIGHT_PX = 200, 185
_LEAST_LINES, _AROUND_PX = 4, 8
# How many times wider than high the pane is where words get a column of their own.
_WORDS_BESIDE = 1.45


class EyepieceCanvas(Canvas):
    """The pictures of one power and of its neighbours; a click on a small one takes its power in hand.

    Signals
    -------
    chosen
        The power that was clicked, as its ``Sight``.
    """

    chosen = Signal(object)

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(self._draw_pictures, parent)
        self.drawing: EyepieceDrawing | None = None
        self._state = state
        self._pictures: Pictures | None = None

    def minimumSizeHint(self) -> QSize:
        # In less the words under the two pictures would meet.
        letters = self.font().pointSizeF() / USUAL_POINTS
        return QSize(_LEAST_WIDTH_PX, round(_LEAST_HEIGHT_PX * letters))

    @property
    def pictures(self) -> Pictures | None:
        """What is shown."""
        return self._pictures

    def show_pictures(self, pictures: Pictures | None) -> None:
        """Show other pictures, or none."""
        self._pictures = pictures
        self.redraw()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self.drawing is None or event.button() != Qt.MouseButton.LeftButton:
            super().mousePressEvent(event)
            return
        sight = self.drawing.sight_at(*self.to_page(event.position().x(), event.position().y()))
        if sight is not None:
            self.chosen.emit(sight)

    def acts_at(self, place: QPointF) -> bool:
        return (
            self.drawing is not None
            and self.drawing.sight_at(*self.to_page(place.x(), place.y())) is not None
        )

    def _draw_pictures(self, page: Page) -> Drawing | str:
        palette = load_palette(self._state.situation.palette_name)
        self.drawing = None
        if self._pictures is None:
            return palette.surface
        self.drawing = draw_eyepiece(page, self._pictures, palette=palette)
        return self.drawing.drawing


class StillnessChoice(QWidget):
    """Which moments the picture shows: as it mostly looks, or a calm one."""

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._state = state
        self.setAccessibleName("Which moments the picture shows")
        self.group = QButtonGroup(self)
        self.buttons = {stillness: QPushButton(STILLNESS_LABEL[stillness]) for stillness in Stillness}
        self._column = column = QBoxLayout(QBoxLayout.Direction.TopToBottom, self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        for stillness, button in self.buttons.items():
            button.setCheckable(True)
            # One of several, to a reader of the screen.
            button.setAutoExclusive(True)
            button.clicked.connect(partial(state.set_stillness, stillness))
            self.group.addButton(button)
            column.addWidget(button)
        state.changed.connect(self._on_changed)
        self._show()

    def set_side_by_side(self, *, on: bool) -> None:
        """Put the two choices side by side, or one over the other."""
        direction = QBoxLayout.Direction
        self._column.setDirection(direction.LeftToRight if on else direction.TopToBottom)

    def _on_changed(self, change: Change) -> None:
        if change.of(Situation.stillness):
            self._show()

    def _show(self) -> None:
        self.buttons[self._state.situation.stillness].setChecked(True)


class EyepiecePane(QWidget):
    """The pictures, and under them size, turning and limits in words.

    On a slow machine pictures take long enough to be felt: they are computed away from the window's
    thread, and only while the pane can be seen.
    """

    def __init__(self, state: AppState, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        # What is shown without a parent would be a window of its own for a moment.
        self.canvas = EyepieceCanvas(state, self)
        self.size_words = reading_label()
        self.size_words.setAccessibleName("How large it looks")
        self.way_words = reading_label(role="small")
        self.way_words.setAccessibleName("Which way round it is seen")
        self.moments = StillnessChoice(state, self)
        self.limits = QPushButton("What it leaves out")
        self.limits.setAccessibleName("What the picture leaves out")
        self.limits.setProperty("role", "flat")
        self._state = state
        self._wanted: tuple[Sequence[Sight], Sight, tuple[float, ...]] | None = None
        self._is_stale = False
        self._lay_out()
        self.limits.clicked.connect(self._tell_limits)

    def show_appearance(
        self, appearance: PlanetAppearance | None, power: float | None, *, following: float | None = None
    ) -> None:
        """Show what a power gives, and the one to go to next beside it; or say why nothing can be seen."""
        sights = appearance.sights if appearance is not None else ()
        in_hand = next((sight for sight in sights if sight.power == power), None)
        for widget in (self.canvas, self.way_words, self.moments, self.limits):
            widget.setVisible(in_hand is not None)
        if appearance is None or in_hand is None:
            self.size_words.setText(no_picture_words(appearance))
            self._arrange()
            self._wanted = None
            self._state.jobs.cancel(_JOB)
            self.canvas.show_pictures(None)
            return
        self.size_words.setText(" ".join(filter(None, (size_words(in_hand), close_up_words(in_hand)))))
        limit = air_words(appearance) if appearance.dispersion_limits else ""
        self.way_words.setText(" ".join(filter(None, (turning_words(in_hand), moon_words(in_hand), limit))))
        name = IN_THE_EYEPIECE.format(power=power_text(in_hand.power))
        self.canvas.setAccessibleName(name)
        self._arrange()
        told = (self.size_words, self.way_words)
        self.canvas.setAccessibleDescription(" ".join(label.text() for label in told))
        ladder = appearance.ladder
        wanted = (following, None if ladder is None else ladder.climb_to)
        also = tuple(power for power in wanted if power is not None)
        if self._wanted != (sights, in_hand, also):
            self._wanted = (sights, in_hand, also)
            self._is_stale = True
            self._compute()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._compute()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.StyleChange:
            self.canvas.redraw()

    def _lay_out(self) -> None:
        page = QWidget()
        words = QVBoxLayout(page)
        words.setContentsMargins(2, 0, 2, 0)
        words.setSpacing(6)
        words.addWidget(self.size_words)
        words.addWidget(self.way_words)
        words.addWidget(self.limits, 0, Qt.AlignmentFlag.AlignLeft)
        words.addStretch(1)
        self._words = ReadingArea(page)
        self._words.setAccessibleName("About the picture in the eyepiece")
        self._whole = QGridLayout(self)
        self._whole.setContentsMargins(0, 0, 0, 0)
        self._whole.setSpacing(8)

    def _arrange(self) -> None:
        """Put words and the choice of moments beside the pictures, or under them where there is height.

        The choice of moments never scrolls.
        """
        shown = self.moments.isVisibleTo(self)
        # A third of the width goes to the words then, and holds at least what can be pressed there.
        has_room = self.width() // 3 >= self.limits.minimumSizeHint().width() + 3 * _AROUND_PX
        beside = shown and has_room and self.width() > _WORDS_BESIDE * self.height()
        for widget in (self.canvas, self.moments, self._words):
            self._whole.removeWidget(widget)
        if beside:
            self._whole.addWidget(self.canvas, 0, 0, 2, 1)
            self._whole.addWidget(self.moments, 0, 1)
            self._whole.addWidget(self._words, 1, 1)
        else:
            self._whole.addWidget(self.canvas, 0, 0, 1, 2)
            self._whole.addWidget(self.moments, 1, 0, 1, 2)
            self._whole.addWidget(self._words, 2, 0, 1, 2)
        for row in range(3):
            self._whole.setRowStretch(row, int(row == (1 if beside else 0)))
        self._whole.setColumnStretch(0, 2 if beside else 1)
        self._whole.setColumnStretch(1, 1 if beside else 0)
        self.moments.set_side_by_side(on=not beside)
        self._words.fit(None if beside else self.width())
        lines = _LEAST_LINES * self.fontMetrics().lineSpacing() + _AROUND_PX
        self._words.setMinimumHeight(min(lines, self._words.sizeHint().height()) if shown else 0)
        self._words.setMaximumHeight(NO_LIMIT_PX if beside or not shown else max(lines, self.height() // 4))

    def _compute(self) -> None:
        if self._wanted is None or not self._is_stale or not self.isVisible():
            return
        self._is_stale = False
        self._state.jobs.submit(_JOB, partial(compute_pictures, *self._wanted), self.canvas.show_pictures)

    def _tell_limits(self) -> None:
        heading = "What the picture shows, and what it leaves out"
        dialogs.show_text(self, "The picture in the eyepiece", heading, "\n\n".join(PICTURE_LIMITS))
