"""The table of figures of two telescopes takes the lines that its words need, and no more."""

from collections.abc import Callable

from PySide6.QtWidgets import QApplication

from gui.gear.view import GearView
from gui.state import AppState
from gui.widgets.roomy_delegate import ABOVE_PX, RoomyDelegate
from gui.window.shell import Shell
from gui.window.views import GEAR


def test_no_row_of_figures_has_empty_lines_when_the_page_is_first_seen(
    make_shell: Callable[..., Shell], state: AppState
) -> None:
    """They pushed the last figures out of sight."""
    view = make_shell(state, view=GEAR, size=(1600, 1000)).current_view
    assert isinstance(view, GearView)
    view.show_side_by_side(True)
    for _ in range(5):
        QApplication.processEvents()

    table, delegate = view.side_by_side.figures, view.side_by_side.figures.itemDelegate()
    assert isinstance(delegate, RoomyDelegate)
    for row in range(table.rowCount()):
        items = [item for column in range(3) if (item := table.item(row, column)) is not None]
        lines = max(
            len(delegate.lines(item.text(), item.font(), table.columnWidth(item.column()))) for item in items
        )
        assert table.rowHeight(row) < (lines + 1) * table.fontMetrics().lineSpacing() + 2 * ABOVE_PX
