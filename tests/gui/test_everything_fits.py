"""Every view in every size: no words cut off or over each other, nothing outside."""

from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QApplication

from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR
from tests.gui.fitting import faults


@pytest.mark.parametrize("scale", [1.0, 1.5])
@pytest.mark.parametrize("view", [GEAR])
@pytest.mark.parametrize("size", [(1000, 640), (1280, 800), (1600, 1000)])
def test_every_view_fits(
    make_shell: Callable[..., Shell],
    state: AppState,
    view: int,
    size: tuple[int, int],
    scale: float,
) -> None:
    state.set_text_scale(scale)
    shell = make_shell(state, view=view, size=size)
    for _ in range(3):  # a layout settles in a few rounds
        QApplication.processEvents()

    assert list(faults(shell)) == []
