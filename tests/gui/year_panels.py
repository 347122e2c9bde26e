"""The year outlook as it is made for a test."""

from collections.abc import Callable
from datetime import date

from gui.height.year_panel import YearPanel
from gui.state import AppState

TONIGHT = date(2026, 12, 5)
PanelMaker = Callable[[AppState], YearPanel]
