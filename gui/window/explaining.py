"""The terms of the trade that a window shows now, those of what has the keyboard first."""

from collections.abc import Iterator

from PySide6.QtWidgets import QAbstractButton, QLabel, QWidget

from core.words.glossary import Term, terms_in, terms_in_all
from gui.widgets.canvas import Canvas
from gui.widgets.plain_label import PlainLabel


def terms_in_sight(window: QWidget) -> tuple[Term, ...]:
    """Return the terms in the words of a window, each once."""
    # Qt may give none, whatever its types say.
    focused: object = window.focusWidget()
    first = terms_in(" ".join(_words_of(focused, window))) if isinstance(focused, QWidget) else ()
    return tuple(dict.fromkeys((*first, *terms_in_all(_words_in(window)))))


def _words_of(control: QWidget, window: QWidget) -> Iterator[str]:
    """Yield what a control is called, on the screen and to a reader of it."""
    yield from (label.text() for label in window.findChildren(QLabel) if label.buddy() is control)
    yield control.accessibleName()
    if isinstance(control, QAbstractButton):
        yield control.text()


def _words_in(window: QWidget) -> Iterator[str]:
    yield from (label.text() for label in window.findChildren(PlainLabel) if label.isVisible())
    for canvas in window.findChildren(Canvas):
        if canvas.isVisible() and canvas.shown is not None:
            yield from (words.text for words in canvas.shown.words)
