"""A window that nobody touches rests: nothing is laid out or painted anew until something changes."""

from collections import Counter
from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QApplication

from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER
from tests.gui.surfaces import dialogs, pages

# More rounds than any layout takes to come to rest.
_ROUNDS_TO_REST = 20
_ROUNDS_AT_REST = 10
# In one of so many stretches nothing happens.
_STRETCHES = 5
_UNREST = {QEvent.Type.LayoutRequest, QEvent.Type.UpdateRequest, QEvent.Type.Paint}


class _Unrest(QObject):
    """Counts what each part of the window is asked to lay out or to paint."""

    def __init__(self) -> None:
        super().__init__()
        self.seen: Counter[str] = Counter()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - named by Qt
        if event.type() in _UNREST:
            self.seen[f"{type(watched).__name__}: {event.type().name}"] += 1
        return False


@pytest.fixture(autouse=True)
def steady_caret(qapp: QApplication) -> Iterator[None]:
    """Keep the caret of a text field from blinking."""
    usual_ms = qapp.cursorFlashTime()
    qapp.setCursorFlashTime(0)
    yield
    qapp.setCursorFlashTime(usual_ms)


def unrest() -> Counter[str]:
    """Return what goes on in the program after it should have come to rest.

    What comes once, because work in the background is done, is no unrest: a stretch of rest follows it.
    """
    application = QApplication.instance()
    assert application is not None
    for _ in range(_ROUNDS_TO_REST):
        QApplication.processEvents()
    seen: Counter[str] = Counter()
    for _ in range(_STRETCHES):
        watch = _Unrest()
        application.installEventFilter(watch)
        for _ in range(_ROUNDS_AT_REST):
            QApplication.processEvents()
        application.removeEventFilter(watch)
        seen = watch.seen
        if not seen:
            break
    return seen


@pytest.mark.parametrize("text", [1.0, 1.5, 2.0])
@pytest.mark.parametrize("size", [(1000, 640), (1600, 1000)])
@pytest.mark.parametrize("view", [GEAR, HEIGHT, LADDER])
def test_each_view_rests(
    make_shell: Callable[..., Shell], state: AppState, view: int, size: tuple[int, int], text: float
) -> None:
    state.set_text_scale(text)
    make_shell(state, view=view, size=size)

    assert not unrest()


def test_every_page_and_dialog_rests(shell: Shell) -> None:
    restless = {
        name: dict(seen) for show in (pages, dialogs) for name, _ in show(shell) if (seen := unrest())
    }

    assert restless == {}
