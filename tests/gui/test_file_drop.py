"""A profile dropped on the window is opened; anything else is refused in a sentence."""

import warnings
from collections.abc import Callable
from pathlib import Path

import attrs
import pytest
from PySide6.QtCore import QEvent, QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from core.record.profile import save_profile
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.dialogs import Unsaved
from gui.widgets.plain_line_edit import PlainLineEdit
from gui.window.shell import Shell
from tests.gui.conftest import make_profile


def drop(target: QWidget, *names: str) -> None:
    """Let go of files, or of addresses, over a widget as the system does."""
    data = QMimeData()
    data.setUrls([QUrl(name) if "://" in name else QUrl.fromLocalFile(name) for name in names])
    hands = (Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier)
    with warnings.catch_warnings():
        # Newer versions of Qt would have fractions of a pixel, which older ones do not take.
        warnings.simplefilter("ignore", DeprecationWarning)
        enter = QDragEnterEvent(QPoint(5, 5), *hands)
    QApplication.sendEvent(target, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(target.window(), QDropEvent(QPointF(5, 5), *hands, QEvent.Type.Drop))


def test_a_profile_dropped_on_the_window_is_opened(
    qtbot: QtBot, shell: Shell, state: AppState, profile_file: Path
) -> None:
    save_profile(profile_file, attrs.evolve(make_profile(), observer="Dropped"))
    drop(shell, str(profile_file))
    qtbot.waitUntil(lambda: state.profile.observer == "Dropped")
    assert state.path == profile_file


def test_a_file_dropped_on_a_field_is_the_window_s_too(
    qtbot: QtBot, make_shell: Callable[..., Shell], state: AppState, profile_file: Path
) -> None:
    shell = make_shell(state, view=0)
    fields = [field for field in shell.findChildren(PlainLineEdit) if field.isVisible()]
    drop(fields[0], str(profile_file))
    qtbot.waitUntil(lambda: state.path == profile_file)


def test_a_drop_asks_about_unsaved_changes_first(
    qtbot: QtBot, shell: Shell, state: AppState, profile_file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def answer(_parent: object, name: str) -> Unsaved:
        asked.append(name)
        return Unsaved.CANCEL

    monkeypatch.setattr(dialogs, "ask_unsaved", answer)
    state.edit_profile("Rename", attrs.evolve(state.profile, observer="Rui"))
    drop(shell, str(profile_file))
    qtbot.waitUntil(lambda: asked == ["Rui"])
    assert state.path is None


@pytest.mark.parametrize(
    ("dropped", "sentence"),
    [
        (["/pictures/moon.jpg"], "ends in .toml; moon.jpg is something else."),
        (["/pictures/a.toml", "/pictures/b.toml"], "ends in .toml, and one at a time."),
        (["https://example.org/a.toml"], "ends in .toml, and it must be on this computer."),
    ],
)
def test_anything_else_dropped_is_refused_in_a_sentence(
    qtbot: QtBot, shell: Shell, state: AppState, dropped: list[str], sentence: str
) -> None:
    before = state.profile
    drop(shell, *dropped)
    qtbot.waitUntil(lambda: shell.message_line.text.text().endswith(sentence))
    assert state.profile == before
