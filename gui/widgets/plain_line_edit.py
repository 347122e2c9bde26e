"""A line to type in that leaves undo and redo to the profile's own steps."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QCompleter, QLineEdit, QSizePolicy, QWidget


def is_undo_or_redo(event: QEvent) -> bool:
    """Tell whether a key event asks for undo or redo."""
    if not isinstance(event, QKeyEvent):
        return False
    return event.matches(QKeySequence.StandardKey.Undo) or event.matches(QKeySequence.StandardKey.Redo)


class PlainLineEdit(QLineEdit):
    """A line edit whose Ctrl+Z takes back steps of the profile, not letters.

    Each accepted keystroke is a step of the profile already, so a second history in the line would only
    get in the way. ``holds_unaccepted`` says that the text is none of those steps: then Ctrl+Z first
    brings back the last accepted text. With ``letters`` it is that wide and no wider; an example in it is
    always seen whole.

    Signals
    -------
    entered
        The keyboard has come here.
    leaving
        The keyboard is about to go elsewhere.
    took_back
        The text that is not accepted should give way to the last one that was.
    """

    entered = Signal()
    leaving = Signal()
    took_back = Signal()

    holds_unaccepted = False

    def __init__(self, parent: QWidget | None = None, *, letters: int | None = None) -> None:
        super().__init__(parent)
        self._letters = letters
        if letters is not None:
            self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        hint = super().sizeHint()
        if self._letters is not None:
            wanted = self._letters * self.fontMetrics().horizontalAdvance("0") + self._around()
            hint.setWidth(max(wanted, self._least()))
        return hint

    def minimumSizeHint(self) -> QSize:
        if self._letters is not None:
            return self.sizeHint()
        return super().minimumSizeHint().expandedTo(QSize(self._least(), 0))

    def _around(self) -> int:
        """Return how wide the frame is, with the room beside the text."""
        # Qt counts 17 letters x; the rest is around them.
        return super().sizeHint().width() - 17 * self.fontMetrics().horizontalAdvance("x")

    def _least(self) -> int:
        """Return how wide the example is with what is around it, 0 without one."""
        example = self.placeholderText()
        return self.fontMetrics().horizontalAdvance(example) + self._around() if example else 0

    def set_completions(self, words: Sequence[str]) -> QCompleter:
        """Offer words that contain what is typed; return what offers them."""
        completer = QCompleter(words, self)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.setCompleter(completer)
        return completer

    def event(self, event: QEvent) -> bool:
        if (
            event.type() is QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and is_undo_or_redo(event)
        ):
            # Accepting keeps the key here; ignoring lets the window's own Undo and Redo have it.
            event.setAccepted(self.holds_unaccepted and event.matches(QKeySequence.StandardKey.Undo))
            return event.isAccepted()
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not is_undo_or_redo(event):
            super().keyPressEvent(event)
        elif self.holds_unaccepted and event.matches(QKeySequence.StandardKey.Undo):
            self.took_back.emit()
        else:
            event.ignore()

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        # A file dropped here is meant for the window.
        if event.mimeData().hasUrls():
            event.ignore()
        else:
            super().dragEnterEvent(event)

    def focusNextPrevChild(self, next: bool) -> bool:  # noqa: A002 - named by Qt
        # Told before the keyboard moves on, so that it can go to what appears only now.
        self.leaving.emit()
        return super().focusNextPrevChild(next)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self.leaving.emit()
        super().focusOutEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit()
