"""Nothing of a former profile is shown when another one has been opened."""

import re
from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QAbstractItemView, QApplication, QComboBox, QLabel, QLineEdit, QWidget

from core.record.observer import Profile
from core.sky.bodies import Body
from gui.gear.view import GearView
from gui.height.view import YEAR, HeightView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER

_OWN = ("Back terrace", "Six-inch", "Small refractor", "25 mm", "10 mm", "Ines", "roof ridge")
# A height or a power in a cell of its own.
_FIGURE = re.compile(r"[−-]?\d+(\.\d+)?(°|x)( [NESW]{1,2})?|ceiling \d+x")


def _settle() -> None:
    """Let layouts and what waits for them come to rest."""
    for _ in range(5):
        QApplication.processEvents()


def seen(window: QWidget) -> set[str]:
    """Return every text that stands in a window, those of lists included."""
    texts = {label.text() for label in window.findChildren(QLabel) if label.isVisible()}
    texts |= {line.text() for line in window.findChildren(QLineEdit) if line.isVisible()}
    texts |= {box.currentText() for box in window.findChildren(QComboBox) if box.isVisible()}
    for view in window.findChildren(QAbstractItemView):
        model = view.model()
        if view.isVisible() and model is not None:
            for row in range(model.rowCount()):
                texts |= {str(model.index(row, column).data() or "") for column in range(model.columnCount())}
    return texts


@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_an_empty_profile_shows_nothing_of_the_one_before(
    state: AppState, make_shell: Callable[..., Shell], view: int
) -> None:
    shell = make_shell(state, view=view)
    state.set_planet(Body.SATURN)
    _settle()
    state.load(Profile(), None)
    _settle()
    texts = seen(shell)
    assert [text for text in texts for own in _OWN if own in text] == []
    assert [text for text in texts if _FIGURE.fullmatch(text)] == []


def test_the_year_and_two_telescopes_go_with_their_profile(
    state: AppState, make_shell: Callable[..., Shell]
) -> None:
    shell = make_shell(state, view=HEIGHT)
    height = shell.current_view
    assert isinstance(height, HeightView)
    state.set_planet(Body.SATURN)
    height.show_page(YEAR)
    shell.show_view(GEAR)
    gear = shell.current_view
    assert isinstance(gear, GearView)
    gear.show_side_by_side(True)
    _settle()
    state.load(Profile(), None)
    for view in (GEAR, HEIGHT):
        shell.show_view(view)
        _settle()
        assert [text for text in seen(shell) for own in _OWN if own in text] == []
