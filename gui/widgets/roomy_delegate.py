"""Cells of a table with room around their text, which is broken into lines where it must be."""

from PySide6.QtCore import QObject, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QGuiApplication, QPainter, QPalette
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from gui.widgets.model_index import AnyIndex
from gui.widgets.wrapped_text import draw_lines, wrapped_lines

SIDE_PX = 8
ABOVE_PX = 6


class RoomyDelegate(QStyledItemDelegate):
    """Paints text from the top of its cell; aligned to the left in at most so many lines, else in one."""

    def __init__(self, most_lines: int, parent: QObject) -> None:
        super().__init__(parent)
        self._most_lines = most_lines

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: AnyIndex) -> None:
        cell = QStyleOptionViewItem(option)
        self.initStyleOption(cell, index)
        text, cell.text = cell.text, ""
        cell.state &= ~QStyle.StateFlag.State_HasFocus
        cell.widget.style().drawControl(QStyle.ControlElement.CE_ItemViewItem, cell, painter, cell.widget)
        room = QRect(cell.rect).adjusted(SIDE_PX, ABOVE_PX, -SIDE_PX, 0)
        painter.setPen(ink(is_chosen=bool(cell.state & QStyle.StateFlag.State_Selected)))
        painter.setFont(cell.font)
        if cell.displayAlignment & Qt.AlignmentFlag.AlignRight:
            painter.drawText(room, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop, text)
        else:
            draw_lines(painter, self.lines(text, cell.font, cell.rect.width()), room.left(), room.top())

    def sizeHint(self, option: QStyleOptionViewItem, index: AnyIndex) -> QSize:
        cell = QStyleOptionViewItem(option)
        self.initStyleOption(cell, index)
        count = max(1, len(self.lines(cell.text, cell.font, cell.rect.width())))
        return QSize(cell.rect.width(), count * cell.fontMetrics.lineSpacing() + 2 * ABOVE_PX)

    def lines(self, text: str, font: QFont, cell_width: int) -> list[str]:
        """Return the lines of a text in a cell of a width in pixels."""
        return wrapped_lines(text, font, max(cell_width - 2 * SIDE_PX, 1), self._most_lines)


def ink(*, is_chosen: bool, is_faint: bool = False) -> QColor:
    """Return the colour of letters; the application's own, since a style sheet thins out placeholders."""
    if is_chosen:
        return QGuiApplication.palette().color(QPalette.ColorRole.HighlightedText)
    role = QPalette.ColorRole.PlaceholderText if is_faint else QPalette.ColorRole.Text
    return QGuiApplication.palette().color(role)
