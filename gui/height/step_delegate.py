"""How a step of the evening is painted: a box to tick, when and what, and under it the words."""

from typing import Final

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QPointF,
    QRect,
    QSize,
    Qt,
)
from PySide6.QtGui import QFont, QMouseEvent, QPainter
from PySide6.QtWidgets import QAbstractItemView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from gui.height.steps_model import ROW_ROLE, StepRow
from gui.widgets.model_index import AnyIndex
from gui.widgets.roomy_delegate import ink
from gui.widgets.signs import paint_sign, sign_size_px
from gui.widgets.wrapped_text import draw_lines, whole_sentences, wrapped_lines

_BOX_PX: Final = 16
_GUTTER_PX: Final = 30
_SIDE_PX: Final = 7
_ABOVE_PX: Final = 3
_MOST_LINES: Final = 12
_BETWEEN_PX: Final = 10


class StepDelegate(QStyledItemDelegate):
    """Paints a step in one line where the list is folded, else with its words; done ones are quiet."""

    is_folded = False

    def __init__(self, view: QAbstractItemView) -> None:
        super().__init__(view)
        self._view = view

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: AnyIndex) -> None:
        cell = QStyleOptionViewItem(option)
        self.initStyleOption(cell, index)
        row = index.data(ROW_ROLE)
        assert isinstance(row, StepRow)
        title, cell.text = cell.text, ""
        cell.features &= ~QStyleOptionViewItem.ViewItemFeature.HasCheckIndicator
        cell.state &= ~QStyle.StateFlag.State_HasFocus
        style = cell.widget.style()
        style.drawControl(QStyle.ControlElement.CE_ItemViewItem, cell, painter, cell.widget)
        self._paint_box(painter, cell, row)
        is_chosen = bool(cell.state & QStyle.StateFlag.State_Selected)
        room = _words_room(cell.rect)
        font = _title_font(cell.font, row)
        painter.setFont(font)
        colour = ink(is_chosen=is_chosen, is_faint=row.is_done)
        painter.setPen(colour)
        side = sign_size_px(cell.font)
        place = QPointF(room.left(), room.top() + (painter.fontMetrics().height() - side) / 2)
        # A caution has a colour of its own, but for where its row is in hand or done.
        own = row.caution and not (is_chosen or row.is_done)
        paint_sign(painter, row.sign, place, side, None if own else colour.name())
        after = side + _BETWEEN_PX // 2
        draw_lines(
            painter,
            wrapped_lines(title, font, max(room.width() - after, 1), 1),
            room.left() + after,
            room.top(),
        )
        if self.is_folded:
            left = after + painter.fontMetrics().horizontalAdvance(title) + _BETWEEN_PX
            room.adjust(left, 0, 0, 0)
        else:
            room.adjust(0, painter.fontMetrics().lineSpacing(), 0, 0)
        if room.width() > 4 * _BETWEEN_PX and self._has_words(row):
            painter.setFont(cell.font)
            painter.setPen(ink(is_chosen=is_chosen, is_faint=True))
            lines = self._lines(row, cell.font, room.width())
            if self.is_folded:
                lines = whole_sentences(row.words, cell.font, room.width(), 1)
            draw_lines(painter, lines, room.left(), room.top())

    def sizeHint(self, option: QStyleOptionViewItem, index: AnyIndex) -> QSize:
        cell = QStyleOptionViewItem(option)
        self.initStyleOption(cell, index)
        row = index.data(ROW_ROLE)
        # A list gives its rows all of its width, but does not say so when it asks for their height.
        width, lines = self._view.viewport().width(), 1
        if not self.is_folded and self._has_words(row):
            lines += len(self._lines(row, cell.font, _words_room(QRect(0, 0, width, 0)).width()))
        return QSize(10, max(lines * cell.fontMetrics.lineSpacing(), _BOX_PX) + 2 * _ABOVE_PX)

    def editorEvent(
        self, event: QEvent, model: QAbstractItemModel, option: QStyleOptionViewItem, index: AnyIndex
    ) -> bool:
        if isinstance(event, QMouseEvent):
            is_click = event.type() is QEvent.Type.MouseButtonRelease
            in_gutter = event.position().x() < option.rect.left() + _GUTTER_PX
            if is_click and in_gutter and event.button() is Qt.MouseButton.LeftButton:
                return self._tick(model, index)
            return False
        return super().editorEvent(event, model, option, index)

    def _tick(self, model: QAbstractItemModel, index: AnyIndex) -> bool:
        is_done = Qt.CheckState(index.data(Qt.ItemDataRole.CheckStateRole)) is Qt.CheckState.Checked
        wanted = Qt.CheckState.Unchecked if is_done else Qt.CheckState.Checked
        return model.setData(index, wanted, Qt.ItemDataRole.CheckStateRole)

    def _paint_box(self, painter: QPainter, cell: QStyleOptionViewItem, row: StepRow) -> None:
        check = QStyleOptionViewItem(cell)
        check.rect = QRect(cell.rect.left() + _SIDE_PX, cell.rect.top() + _ABOVE_PX, _BOX_PX, _BOX_PX)
        on = QStyle.StateFlag.State_On if row.is_done else QStyle.StateFlag.State_Off
        check.state = QStyle.StateFlag.State_Enabled | on
        indicator = QStyle.PrimitiveElement.PE_IndicatorItemViewItemCheck
        cell.widget.style().drawPrimitive(indicator, check, painter, cell.widget)

    def _has_words(self, row: StepRow) -> bool:
        return not row.is_done and bool(row.words)

    def _lines(self, row: StepRow, font: QFont, width: int) -> list[str]:
        return wrapped_lines(row.words, font, max(width, 1), _MOST_LINES)


def _title_font(font: QFont, row: StepRow) -> QFont:
    bold = QFont(font)
    bold.setBold(row.is_next or (row.caution and not row.is_done))
    return bold


def _words_room(rect: QRect) -> QRect:
    return QRect(rect).adjusted(_GUTTER_PX, _ABOVE_PX, -_SIDE_PX, 0)
