"""Rows of labels and fields, whose heights follow from their widths."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QSpacerItem, QWidget

from gui.widgets.plain_label import PlainLabel


class _Label(PlainLabel):
    """A label as high as the control it belongs to, so that both texts stand on one line."""

    def sizeHint(self) -> QSize:
        hint = super().sizeHint()
        # A box for several lines has its label beside the first.
        height = min(self.buddy().sizeHint().height(), 2 * hint.height())
        return hint.expandedTo(QSize(0, height))

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()


class FieldRows(QGridLayout):
    """Labels on the left, fields on the right, and rows that span both.

    Qt's own form layout is not used: with hidden rows it forgets that a sentence needs more lines in a
    narrow column.
    """

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._labels: dict[QWidget, _Label] = {}
        self.setColumnStretch(1, 1)
        self.setHorizontalSpacing(10)
        self.setVerticalSpacing(6)

    def add_row(self, label: str, field: QWidget, editor: QWidget) -> None:
        """Add a field with its label, which belongs to the control inside."""
        shown = _Label(label)
        shown.setBuddy(editor)
        self._labels[field] = shown
        row = self.rowCount()
        self.addWidget(shown, row, 0, Qt.AlignmentFlag.AlignTop)
        self.addWidget(field, row, 1)

    def add_unlabelled(self, field: QWidget) -> None:
        """Add a field that names itself, below the other fields."""
        self.addWidget(field, self.rowCount(), 1)

    def add_wide(self, widget: QWidget) -> None:
        """Add a row that takes the whole width."""
        self.addWidget(widget, self.rowCount(), 0, 1, 2)

    def end(self) -> None:
        """Leave the room below the last row empty."""
        room = QSpacerItem(0, 0, QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Expanding)
        row = self.rowCount()
        self.addItem(room, row, 0)
        self.setRowStretch(row, 1)

    def show_row(self, widget: QWidget, is_shown: bool) -> None:
        """Show or hide a row by its field or its one widget."""
        # Before the window is shown every widget counts as hidden, so the wish is what is compared.
        if widget.isHidden() == is_shown:
            widget.setVisible(is_shown)
            if (label := self._labels.get(widget)) is not None:
                label.setVisible(is_shown)
