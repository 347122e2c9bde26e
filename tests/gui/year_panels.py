"""The year outlook as it is made for a test."""

from collections.abc import Callable
from datetime import date

from pytestqt.qtbot import QtBot

from gui.height.year_panel import YearPanel
from gui.state import AppState
from tests.gui.showing import show

TONIGHT = date(2026, 12, 5)
PanelMaker = Callable[[AppState], YearPanel]


def shown_panel(qtbot: QtBot, state: AppState) -> YearPanel:
    panel = YearPanel(state)
    show(qtbot, panel, size=(980, 520))
    panel.canvas.ensure_drawn()
    return panel
