"""What a fussy eye finds in a window: words cut off, words over words, things outside, foreign colours."""

from collections.abc import Iterator
from contextlib import contextmanager

import attrs
import numpy as np
import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QColor, QFontMetrics, QFontMetricsF
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QComboBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QScrollArea,
    QStyle,
    QStyleOptionComboBox,
    QStyleOptionFrame,
    QWidget,
)

from core.drawing.marks import Words
from core.drawing.palette import load_palette
from core.drawing.placing import Box
from gui.gear.horizon import HorizonPicture
from gui.widgets.canvas import Canvas
from gui.window.answer_bar import ReasonsPanel
from tests.gui.conftest import pixels

# Letters are measured to the pixel on the screen and to a tenth of one on a drawing.
_SLACK_PX = 1
_SLACK = 0.75
# Of a choice, which the place of its text is told without.
_PADDING_PX = 8
# Through fewer lines than that nobody reads what scrolls.
_LEAST_LINES_READ = 4
_LEAST_LINES_LISTED = 2
_DOTS = "…"
# A colour that fills less of the surface than that is the edge of a letter or of a picture.
_GROUND_SHARE = 0.015
_BRIGHTEST_AT_NIGHT = 190


def faults(window: QWidget) -> Iterator[str]:
    """Yield a sentence for each fault of what is shown in a window."""
    yield from _cut_off(window)
    yield from _cut_with_dots(window)
    yield from _outside(window)
    yield from _slits(window)
    yield from _over_each_other(window)
    for canvas in window.findChildren(Canvas):
        if canvas.isVisible():
            yield from _drawn(canvas)


def foreign_colours(window: QWidget, palette_name: str) -> Iterator[str]:
    """Yield a sentence for each ground that is not of the palette; at night for any pixel that hurts."""
    seen = pixels(window)
    if palette_name == "night":
        red, green, blue = (int(np.max(seen[..., channel])) for channel in range(3))
        if green or blue or red > _BRIGHTEST_AT_NIGHT:
            yield f"a pixel as bright as {red}, {green}, {blue}"
        return
    ratio = window.devicePixelRatioF()
    counted = np.ones(seen.shape[:2], bool)
    for drawn in (*window.findChildren(Canvas), *window.findChildren(HorizonPicture)):
        if drawn.isVisible():  # what is drawn lays tints over each other, and shows pictures
            place = _seen(drawn, window)
            rows = slice(int(place.top() * ratio), int((place.bottom() + 1) * ratio) + 1)
            counted[rows, int(place.left() * ratio) : int((place.right() + 1) * ratio) + 1] = False
    palette = attrs.asdict(load_palette(palette_name), recurse=False)
    own = {QColor(colour).rgb() for colour in palette.values() if isinstance(colour, str)}
    flat = seen[counted].astype(np.uint32)
    packed = (flat[:, 0] << 16) | (flat[:, 1] << 8) | flat[:, 2]
    values, counts = np.unique(packed, return_counts=True)
    for value, count in zip(values, counts, strict=True):
        if count > _GROUND_SHARE * seen.shape[0] * seen.shape[1] and (0xFF000000 | int(value)) not in own:
            yield f"a ground of #{int(value):06x}, {100 * count / packed.size:.1f} % of what is not drawn"


def _cut_off(window: QWidget) -> Iterator[str]:
    for label in window.findChildren(QLabel):
        if not label.isVisible() or not label.text():
            continue
        if label.wordWrap():
            if label.height() + _SLACK_PX < label.heightForWidth(label.width()):
                yield f"lines are missing of {label.text()!r}"
        elif type(label).paintEvent is QLabel.paintEvent and (
            label.width() + _SLACK_PX < label.sizeHint().width()
        ):
            yield f"letters are missing of {label.text()!r}"
    for button in window.findChildren(QAbstractButton):
        if (
            button.isVisible()
            and button.text()
            and button.width() + _SLACK_PX < button.minimumSizeHint().width()
        ):
            yield f"letters are missing of the button {button.text()!r}"
    for line in window.findChildren(QLineEdit):
        yield from _typed(line)
    for area in window.findChildren(QAbstractScrollArea):
        too_wide = area.horizontalScrollBar().maximum()
        if area.isVisible() and too_wide > 0:
            page = area.widget() if isinstance(area, QScrollArea) else area
            yield f"{type(page).__name__} has to be scrolled sideways by {too_wide}"
    for header in window.findChildren(QHeaderView):
        yield from _headings(header)


def _typed(line: QLineEdit) -> Iterator[str]:
    """Yield what does not go into a line: an example is of no use when it is cut."""
    told = line.displayText() or line.placeholderText()
    option = QStyleOptionFrame()
    line.initStyleOption(option)
    room = line.style().subElementRect(QStyle.SubElement.SE_LineEditContents, option, line).width()
    if line.isVisible() and line.fontMetrics().horizontalAdvance(told) > room:
        yield f"letters are missing of the line {told!r}"


def _headings(header: QHeaderView) -> Iterator[str]:
    if not header.isVisible() or header.orientation() is not Qt.Orientation.Horizontal:
        return
    for section in range(header.count()):
        named = header.model().headerData(section, Qt.Orientation.Horizontal)
        if header.isSectionHidden(section) or not named:
            continue
        wraps = bool(header.defaultAlignment() & Qt.AlignmentFlag(Qt.TextFlag.TextWordWrap))
        parts = str(named).split() if wraps else [str(named)]
        if header.sectionSize(section) < max(map(header.fontMetrics().horizontalAdvance, parts)):
            yield f"letters are missing of the heading {named!r}"


def _cut_with_dots(window: QWidget) -> Iterator[str]:
    """Yield every text that is painted with dots in place of its end."""
    with _watched_dots() as cut:
        window.grab()
    for text in dict.fromkeys(cut):
        yield f"cut with dots: {text!r}"
    for picker in window.findChildren(QComboBox):
        if picker.isVisible() and type(picker).paintEvent is QComboBox.paintEvent:
            option = QStyleOptionComboBox()
            picker.initStyleOption(option)
            control, place = QStyle.ComplexControl.CC_ComboBox, QStyle.SubControl.SC_ComboBoxEditField
            room = picker.style().subControlRect(control, option, place, picker).width()
            if picker.fontMetrics().horizontalAdvance(picker.currentText()) > room + _PADDING_PX:
                yield f"letters are missing of the choice {picker.currentText()!r}"


@contextmanager
def _watched_dots() -> Iterator[list[str]]:
    """Collect the texts that are cut meanwhile."""
    cut: list[str] = []

    def watch(patch: pytest.MonkeyPatch, kind: type[QFontMetrics | QFontMetricsF]) -> None:
        whole = kind.elidedText

        def watched(metrics: object, text: str, *rest: object) -> str:
            shown: str = whole(metrics, text, *rest)  # type: ignore[arg-type]
            if shown != text:
                cut.append(text)
            return shown

        patch.setattr(kind, "elidedText", watched)

    with pytest.MonkeyPatch.context() as patch:
        watch(patch, QFontMetrics)
        watch(patch, QFontMetricsF)
        yield cut


def _outside(window: QWidget) -> Iterator[str]:
    """Yield what stands outside of the window, or of what it is part of, where nothing can be scrolled."""
    for widget in window.findChildren(QWidget):
        if not widget.isVisible() or not _says_something(widget):
            continue
        place, above = QRect(QPoint(0, 0), widget.size()), widget
        for parent in _parents(widget, window):
            place.translate(above.pos())
            room = parent.rect().adjusted(-_SLACK_PX, -_SLACK_PX, _SLACK_PX, _SLACK_PX)
            if not room.contains(place):
                yield f"{_said(widget)!r} stands outside of {type(parent).__name__}"
                break
            above = parent


def _parents(widget: QWidget, window: QWidget) -> Iterator[QWidget]:
    """Yield what a widget stands in, up to the window or to a page that can be scrolled."""
    while widget is not window:
        parent: object = widget.parentWidget()
        # Qt for Python may take a widget for the item of a layout that had been at its place in memory.
        if not isinstance(parent, QWidget) or _is_page(parent):
            return
        yield parent
        widget = parent


def _is_page(widget: QWidget) -> bool:
    holder: object = widget.parentWidget()
    return isinstance(holder, QAbstractScrollArea)


def _says_something(widget: QWidget) -> bool:
    return isinstance(widget, QLabel | QAbstractButton | QLineEdit | QComboBox | Canvas) and bool(
        _said(widget)
    )


def _said(widget: QWidget) -> str:
    return widget.text() if isinstance(widget, QLabel | QAbstractButton) else widget.accessibleName()


def _slits(window: QWidget) -> Iterator[str]:
    """Yield what has to be read through a slit of a few lines."""
    for area in window.findChildren(QAbstractScrollArea):
        bar = area.verticalScrollBar()
        lines = area.viewport().height() / area.fontMetrics().lineSpacing()
        most = _LEAST_LINES_LISTED if isinstance(area, QAbstractItemView) else _LEAST_LINES_READ
        least = min(most, lines + bar.maximum() / area.fontMetrics().lineSpacing())
        if (
            area.isVisible()
            and bar.maximum() > _SLACK_PX
            and lines < least
            and not area.visibleRegion().isEmpty()
        ):
            yield f"{area.accessibleName() or type(area).__name__} is read through {lines:.1f} lines"


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
    """Tell whether a widget is part of a message or of reasons that float over the page on purpose."""
    parent: QWidget | None = widget
    while parent is not None:
        if parent.objectName() == "message" or isinstance(parent, ReasonsPanel):
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
        if words.text.endswith(_DOTS):
            yield f"cut with dots: {words.text!r} in {canvas.accessibleName()!r}"
    for number, (words, box) in enumerate(boxes):
        for other, other_box in boxes[:number]:
            across = min(box.right, other_box.right) - max(box.left, other_box.left)
            up = min(box.top, other_box.top) - max(box.bottom, other_box.bottom)
            if min(across, up) > _SLACK:
                yield f"{words.text!r} lies over {other.text!r} in {canvas.accessibleName()!r}"
