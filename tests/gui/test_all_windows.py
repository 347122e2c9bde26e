"""The list of all windows, while windows that nothing holds any more wait to be cleared away."""

import gc

import pytest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from gui.widgets.all_windows import all_windows


def test_nothing_is_cleared_away_while_the_windows_are_listed(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Cleared away then, a window in the list is gone before its turn: PySide6 6.11 crashes on it.
    searched: list[bool] = []
    of_qt = QApplication.topLevelWidgets

    def listed() -> list[QWidget]:
        searched.append(gc.isenabled())
        return of_qt()

    monkeypatch.setattr(QApplication, "topLevelWidgets", listed)
    window = QWidget()
    qtbot.addWidget(window)

    assert window in all_windows()
    assert gc.isenabled()
    gc.disable()
    try:
        all_windows()
        assert not gc.isenabled()
    finally:
        gc.enable()
    assert searched == [False, False]
