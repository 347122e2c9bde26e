"""A row that folds where it is too narrow for all its controls."""

from PySide6.QtWidgets import QPushButton, QWidget
from pytestqt.qtbot import QtBot

from gui.widgets.folding_row import FoldingRow


def test_controls_keep_their_order_and_go_on_below_where_the_line_is_full(qtbot: QtBot) -> None:
    widget = QWidget()
    qtbot.addWidget(widget)
    row = FoldingRow(widget, spacing=6)
    buttons = [QPushButton(name) for name in ("first", "second", "third")]
    for button in buttons:
        button.setFixedSize(100, 30)
        row.addWidget(button)
    buttons.insert(1, QPushButton("hidden"))
    row.addWidget(buttons[1])
    buttons[1].hide()

    widget.resize(220, 200)
    widget.show()
    qtbot.waitExposed(widget)

    assert [(button.x(), button.y()) for button in buttons if button.isVisible()] == [
        (0, 0),
        (106, 0),
        (0, 36),
    ]
    assert (row.heightForWidth(312), row.heightForWidth(220), row.heightForWidth(90)) == (30, 66, 102)
    assert (row.sizeHint().width(), row.minimumSize().width()) == (312, 100)
