"""What a fussy eye finds in a window: words cut off, words over words, things outside."""

from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import QRect
from PySide6.QtWidgets import QAbstractButton, QLabel, QScrollArea, QWidget

from core.drawing.marks import Words
from core.drawing.placing import Box
from gui.widgets.canvas import Canvas
from gui.widgets.elided_label import ElidedLabel
from tests.gui.conftest import pixels

# Letters are measured to the pixel on the screen and to a tenth of one on a drawing.
_SLACK_PX = 1
_SLACK = 0.75


def faults(window: QWidget) -> Iterator[str]:
    """Yield a sentence for each fault of what is shown in a window."""
    yield from _cut_off(window)
    yield from _over_each_other(window)
    for canvas in window.findChildren(Canvas):
        if canvas.isVisible():
            yield from _drawn(canvas)


def brightest(window: QWidget) -> tuple[int, int, int]:
    """Return the most of red, green and blue in any pixel."""
    red, green, blue = (int(np.max(pixels(window)[..., channel])) for channel in range(3))
    return red, green, blue


def _cut_off(window: QWidget) -> Iterator[str]:
    for label in window.findChildren(QLabel):
        if not label.isVisible() or not label.text() or isinstance(label, ElidedLabel):
            continue
        if label.wordWrap():
            if label.height() + _SLACK_PX < label.heightForWidth(label.width()):
                yield f"lines are missing of {label.text()!r}"
        elif label.width() + _SLACK_PX < label.sizeHint().width():
            yield f"letters are missing of {label.text()!r}"
    for button in window.findChildren(QAbstractButton):
        if (
            button.isVisible()
            and button.text()
            and button.width() + _SLACK_PX < button.minimumSizeHint().width()
        ):
            yield f"letters are missing of the button {button.text()!r}"
    for area in window.findChildren(QScrollArea):
        page = area.widget()
        too_wide = area.horizontalScrollBar().maximum()
        if area.isVisible() and page is not None and too_wide > 0:
            yield f"{type(page).__name__} has to be scrolled sideways by {too_wide}"


def _over_each_other(window: QWidget) -> Iterator[str]:
    said: list[QLabel | QAbstractButton] = [
        *window.findChildren(QLabel),
        *window.findChildren(QAbstractButton),
    ]
    shown = [
        widget
        for widget in said
        if widget.isVisible() and widget.text() and not widget.visibleRegion().isEmpty()
    ]
    places = [(widget, _seen(widget, window)) for widget in shown]
    for number, (one, place) in enumerate(places):
        for other, other_place in places[:number]:
            shared = place.intersected(other_place)
            if (
                min(shared.width(), shared.height()) <= 1
                or one.isAncestorOf(other)
                or other.isAncestorOf(one)
            ):
                continue
            if _floats(one) or _floats(other):
                continue
            yield f"{one.text()!r} lies over {other.text()!r}"


def _seen(widget: QWidget, window: QWidget) -> QRect:
    """Return where the part of a widget that no scroll area hides stands in the window."""
    seen = widget.visibleRegion().boundingRect()
    return QRect(widget.mapTo(window, seen.topLeft()), seen.size())


def _floats(widget: QWidget) -> bool:
    """Tell whether a widget is part of a message that floats over the page on purpose."""
    parent: QWidget | None = widget
    while parent is not None:
        if parent.objectName() == "message":
            return True
        parent = parent.parentWidget()
    return False


def _drawn(canvas: Canvas) -> Iterator[str]:
    canvas.ensure_drawn()
    drawing = canvas.shown
    if drawing is None:
        return
    page = drawing.page.box
    boxes: list[tuple[Words, Box]] = [(words, words.box(drawing.page.measure)) for words in drawing.words]
    for words, box in boxes:
        outside = max(
            page.left - box.left, box.right - page.right, page.bottom - box.bottom, box.top - page.top
        )
        if outside > _SLACK:
            yield f"{words.text!r} leaves {canvas.accessibleName()!r} by {outside:.1f}"
    for number, (words, box) in enumerate(boxes):
        for other, other_box in boxes[:number]:
            across = min(box.right, other_box.right) - max(box.left, other_box.left)
            up = min(box.top, other_box.top) - max(box.bottom, other_box.bottom)
            if min(across, up) > _SLACK:
                yield f"{words.text!r} lies over {other.text!r} in {canvas.accessibleName()!r}"
