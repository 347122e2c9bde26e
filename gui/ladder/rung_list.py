"""The rungs in words, beside the drawing: one row each, its power in large numerals."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPalette
from PySide6.QtWidgets import (
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from core.ladder.ladder import Ladder, Rung, Standing
from core.words.climbing import rung_figures
from core.words.ladder import part_text
from core.words.quantities import power_text

_RUNG = Qt.ItemDataRole.UserRole
_PART = Qt.ItemDataRole.UserRole + 1
_PAD_PX = 5
_LARGER = 1.45
_SMALLER = 0.9

_AnyIndex = QModelIndex | QPersistentModelIndex


class RungList(QListWidget):
    """The rungs of a ladder, highest power first."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setItemDelegate(RungDelegate(self))
        self.setAccessibleName("Rungs of the ladder, highest power first")
        self._rungs: tuple[Rung, ...] = ()

    @property
    def rung(self) -> Rung | None:
        """The rung in hand, or None."""
        row = self.currentRow()
        return self._rungs[row] if 0 <= row < len(self._rungs) else None

    def show_ladder(self, ladder: Ladder | None, in_hand: Rung | None) -> None:
        """Show the rungs of another ladder, or none, and the rung in hand."""
        self.clear()
        self._rungs = tuple(reversed(ladder.rungs)) if ladder else ()
        for rung in self._rungs:
            assert ladder is not None  # there are no rungs without one
            self.addItem(_item(rung, part_text(rung, ladder)))
        self.show_rung(in_hand)

    def show_rung(self, rung: Rung | None) -> None:
        """Show which rung is in hand."""
        self.setCurrentRow(self._rungs.index(rung) if rung in self._rungs else -1)


class RungDelegate(QStyledItemDelegate):
    """Paints a rung: power large on the left; eyepiece and part, and under them the figures."""

    def sizeHint(self, option: QStyleOptionViewItem, index: _AnyIndex) -> QSize:
        first, second = QFontMetrics(option.font), QFontMetrics(_scaled(option.font, _SMALLER))
        return QSize(240, first.lineSpacing() + second.lineSpacing() + 2 * _PAD_PX)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: _AnyIndex) -> None:
        rung = index.data(_RUNG)
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        ink, faint = _inks(option.palette, selected=selected)
        if rung.standing is Standing.ABOVE and not selected:
            ink = faint
        painter.save()
        if selected:
            painter.fillRect(option.rect, option.palette.highlight())
            painter.setPen(option.palette.color(QPalette.ColorRole.Accent))
            painter.drawRect(option.rect.adjusted(0, 0, -1, -1))
        large, small = _scaled(option.font, _LARGER), _scaled(option.font, _SMALLER)
        numeral_width = QFontMetrics(large).horizontalAdvance("0000x")
        box = option.rect.adjusted(_PAD_PX, _PAD_PX, -_PAD_PX, -_PAD_PX)
        numeral = QRect(box.left(), box.top(), numeral_width, box.height())
        painter.setPen(ink)
        painter.setFont(large)
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        painter.drawText(numeral, right, power_text(rung.power))
        words = box.adjusted(numeral_width + 3 * _PAD_PX, 0, 0, 0)
        part = index.data(_PART)
        heading = f"{rung.label}  –  {part}" if part else rung.label
        _write(painter, words, Qt.AlignmentFlag.AlignTop, option.font, heading)
        painter.setPen(ink if selected else faint)
        _write(painter, words, Qt.AlignmentFlag.AlignBottom, small, rung_figures(rung))
        painter.restore()


def _item(rung: Rung, part: str) -> QListWidgetItem:
    item = QListWidgetItem()
    item.setData(_RUNG, rung)
    item.setData(_PART, part)
    said = [power_text(rung.power), rung.label, part, rung_figures(rung)]
    item.setData(Qt.ItemDataRole.AccessibleTextRole, ", ".join(word for word in said if word))
    return item


def _inks(palette: QPalette, *, selected: bool) -> tuple[QColor, QColor]:
    """Return the colours of words that matter and of words that wait."""
    role = QPalette.ColorRole.HighlightedText if selected else QPalette.ColorRole.Text
    return palette.color(role), palette.color(QPalette.ColorRole.PlaceholderText)


def _scaled(font: QFont, by: float) -> QFont:
    scaled = QFont(font)
    scaled.setPointSizeF(font.pointSizeF() * by)
    return scaled


def _write(painter: QPainter, box: QRect, side: Qt.AlignmentFlag, font: QFont, text: str) -> None:
    painter.setFont(font)
    shown = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, box.width())
    painter.drawText(box, side | Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextSingleLine, shown)
