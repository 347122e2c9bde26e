"""At the eyepiece: the whole window in a few large words, for the dark and for gloves."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QEvent, QKeyCombination, QObject, QPointF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter
from PySide6.QtWidgets import QWidget

from core.drawing.at_eyepiece import EyepieceScreen, draw_at_eyepiece
from core.drawing.marks import Drawing, Page
from core.drawing.palette import PaletteName, load_palette
from core.record.log_entry import Verdict
from core.situation.situation import Situation
from core.words.air import FIRST_LOOK_KEYS
from core.words.at_eyepiece import EyepieceWords, eyepiece_words
from core.words.glossary import Term
from core.words.verdicts import VERDICT_KEYS
from gui.profile.log_book import LogBook
from gui.state import AppState, Change
from gui.widgets.canvas import Canvas
from gui.widgets.red_filter import DIMMER_STEPS

_NAME = "At the eyepiece; Escape leaves"
_DRESS = (Situation.palette_name, Situation.text_scale, Situation.dimmer)
_FIRST_LOOKS = {key: look for look, key in FIRST_LOOK_KEYS.items()}
_VERDICTS = {key: verdict for verdict, key in VERDICT_KEYS.items()}
_PASSED_ON = (
    QKeyCombination(Qt.KeyboardModifier.ControlModifier, Qt.Key.Key_Q),
    QKeyCombination(Qt.Key.Key_F11),
)
_DIMMER, _BRIGHTER = "-<,_", "+>.="


class AtEyepiece(Canvas):
    """Covers its window until Escape; no other key leaves, and none reaches what lies under it.

    Signals
    -------
    left
        Escape was pressed, and the window is as it was.
    """

    left = Signal()

    def __init__(self, state: AppState, log_book: LogBook, window: QWidget) -> None:
        super().__init__(self._draw_screen, window)
        self._state = state
        self._log_book = log_book
        self._words = eyepiece_words(state.situation)
        self._told = ""
        self.chart: EyepieceScreen | None = None
        self.setAccessibleName(_NAME)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.BlankCursor)
        # What lies under it need not be painted.
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.layers.append(self._dim)
        self.setGeometry(window.rect())
        window.installEventFilter(self)
        state.changed.connect(self._on_changed)
        state.told.connect(self._on_told)
        self._say()
        # The newest child lies over the others, and the night's red pane over it; it must not be raised.
        self.show()
        self.setFocus()

    @property
    def words(self) -> EyepieceWords:
        """What is told."""
        return self._words

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        window = self.parentWidget()
        if watched is window and event.type() in (QEvent.Type.Resize, QEvent.Type.Show):
            self.setGeometry(window.rect())
        return False

    def event(self, event: QEvent) -> bool:
        # No shortcut of the window may act unseen; closing it and the whole screen are the ones that may.
        if (
            event.type() is QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and event.keyCombination() not in _PASSED_ON
        ):
            event.accept()
            return True
        return super().event(event)

    def focusNextPrevChild(self, _next: bool, /) -> bool:
        return True

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.accept()
        act = self._act_of(event)
        # A glove that rests on a key says it once.
        if act is not None and not event.isAutoRepeat():
            act()

    def terms_at(self, _place: QPointF) -> tuple[Term, ...]:
        # Nothing there explains itself: no bright surprise, and no dialog over what is looked at.
        return ()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        event.accept()
        if self.chart is None or event.button() != Qt.MouseButton.LeftButton:
            return
        place = self.to_page(event.position().x(), event.position().y())
        verdict = self.chart.verdict_at(*place)
        if verdict is not None:
            self._give(verdict)
        elif self.chart.is_next_at(*place):
            self._take_next()

    def leave(self) -> None:
        """Uncover the window."""
        self._state.changed.disconnect(self._on_changed)
        self._state.told.disconnect(self._on_told)
        self.hide()
        self.deleteLater()
        self.left.emit()

    def _act_of(self, event: QKeyEvent) -> Callable[[], None] | None:
        key, state = Qt.Key, self._state
        if event.key() == key.Key_Escape:
            return self.leave
        if event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier):
            return None
        text = event.text().upper()
        verdict = _VERDICTS.get(text)
        if verdict is not None:
            return partial(self._give, verdict)
        if text and text in _DIMMER:
            return partial(self._step_dimmer, 1)
        if text and text in _BRIGHTER:
            return partial(self._step_dimmer, -1)
        if text == "F":
            return self._next_filter
        look = _FIRST_LOOKS.get(text)
        if look is not None:
            return partial(state.set_first_look, look)
        acts: dict[Qt.Key, Callable[[], None]] = {
            key.Key_Up: partial(state.step_rung, 1),
            key.Key_PageUp: partial(state.step_rung, 1),
            key.Key_Down: partial(state.step_rung, -1),
            key.Key_PageDown: partial(state.step_rung, -1),
            key.Key_Return: self._take_next,
            key.Key_Enter: self._take_next,
            key.Key_Backspace: self._take_back,
        }
        return acts.get(Qt.Key(event.key()))

    def _give(self, verdict: Verdict) -> None:
        if self._words.can_be_judged:
            self._log_book.give(verdict)

    def _take_next(self) -> None:
        step = self._state.situation.next_step
        if step is not None and step.to is not None:
            self._state.set_rung(step.to.power)

    def _take_back(self) -> None:
        """Take the last verdict back, but no other step of the window."""
        if self._log_book.last_step_is_verdict:
            self._state.undo_stack.undo()

    def _next_filter(self) -> None:
        """Put in the next of the owner's filters; after the last of them, none."""
        ids = ["", *(each.id for each in self._state.profile.filters)]
        in_hand = self._state.situation.filter_in
        number = 0 if in_hand is None else ids.index(in_hand.id)
        self._state.put_in_filter(ids[(number + 1) % len(ids)])

    def _step_dimmer(self, by: int) -> None:
        self._state.set_dimmer(self._state.situation.dimmer + by)

    def _on_told(self, sentence: str) -> None:
        self._told = sentence
        self._say()
        self.redraw()

    def _on_changed(self, change: Change) -> None:
        words = eyepiece_words(self._state.situation)
        if words != self._words:
            self._words = words
            self._say()
            self.redraw()
        elif change.of(*_DRESS):
            self.redraw()

    def _say(self) -> None:
        self.setAccessibleDescription(" ".join(filter(None, (self._words.said, self._told))))

    def _draw_screen(self, page: Page) -> Drawing:
        palette = load_palette(self._state.situation.palette_name)
        self.chart = draw_at_eyepiece(page, self._words.with_notice(self._told), palette=palette)
        return self.chart.drawing

    def _dim(self, painter: QPainter) -> None:
        """Take the light down where the night's own pane does not."""
        situation = self._state.situation
        if situation.palette_name == PaletteName.NIGHT or not situation.dimmer:
            return
        shade = QColor(0, 0, 0)
        shade.setAlphaF(1.0 - DIMMER_STEPS[situation.dimmer])
        painter.fillRect(self.rect(), shade)
