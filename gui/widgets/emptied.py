"""Making room in a layout for other widgets."""

from PySide6.QtWidgets import QLayout


def empty(layout: QLayout) -> None:
    """Take all widgets out of a layout, at once out of sight."""
    while (item := layout.takeAt(0)) is not None:
        widget = item.widget()
        if widget is not None:
            widget.hide()
            widget.deleteLater()
