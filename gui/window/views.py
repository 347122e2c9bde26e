"""The three views, each loaded only when it is first shown, so that the window itself comes up at once."""

from typing import Final

from PySide6.QtWidgets import QWidget

from gui.profile.log_book import LogBook
from gui.state import AppState

GEAR, HEIGHT, LADDER = range(3)
VIEW_NAMES: Final = ("Gear", "Height", "Ladder")


def make_view(number: int, state: AppState, log_book: LogBook) -> QWidget:
    """Return a new view: Gear (0), Height (1) or Ladder (2)."""
    if number == GEAR:
        from gui.gear.view import GearView

        return GearView(state)
    if number == HEIGHT:
        from gui.height.view import HeightView

        return HeightView(state)
    from gui.ladder.view import LadderView

    return LadderView(state, log_book)
