"""The pointer at night is the program's own and dim, over everything, and the system's again by day."""

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QCursor, QEnterEvent, QImage
from PySide6.QtWidgets import QApplication, QLineEdit, QSplitter, QWidget

from gui.gear.view import GearView
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.widgets.night_pointer import night_cursor
from gui.widgets.plain_label import PlainLabel
from gui.window.shell import Shell
from gui.window.views import GEAR, LADDER

SHAPES = Qt.CursorShape


def look(cursor: QCursor | None) -> NDArray[np.uint8]:
    """Return a pointer's pixels as red, green, blue and how much they cover."""
    assert cursor is not None, "the system's own pointer"
    image = cursor.pixmap().toImage().convertToFormat(QImage.Format.Format_RGBA8888)
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4)
    return rows.copy()


def enter(widget: QWidget) -> None:
    place = QPointF(1, 1)
    QApplication.sendEvent(widget, QEnterEvent(place, place, place))


def pointer() -> QCursor | None:
    return QApplication.overrideCursor()


@pytest.mark.parametrize(
    "shape", [SHAPES.ArrowCursor, SHAPES.IBeamCursor, SHAPES.SplitHCursor, SHAPES.SizeVerCursor]
)
def test_each_shape_is_dim_red_and_no_other(qapp: QApplication, shape: Qt.CursorShape) -> None:
    seen = look(night_cursor(shape))
    shown = seen[seen[..., 3] > 0]
    assert len(shown) > 30
    assert shown[:, 1:3].max() == 0
    assert 100 < shown[:, 0].max() <= 160
    assert look(night_cursor(shape, 0.35))[..., 0].max() < 60


def test_every_widget_of_every_view_has_a_dim_pointer(
    make_shell: Callable[..., Shell], state: AppState
) -> None:
    state.set_palette("night")
    shell = make_shell(state, view=GEAR)
    for view in range(3):
        shell.show_view(view)
        for widget in shell.findChildren(QWidget):
            if widget.isVisible():
                enter(widget)
                assert look(pointer())[..., :3].max() <= 160, widget


def test_its_shape_tells_text_and_splitters(make_shell: Callable[..., Shell], state: AppState) -> None:
    state.set_palette("night")
    shell = make_shell(state, view=GEAR)
    gear = shell.current_view
    assert isinstance(gear, GearView)
    line, splitter = gear.findChild(QLineEdit), gear.findChild(QSplitter)
    assert isinstance(line, QLineEdit)
    assert isinstance(splitter, QSplitter)
    enter(line)
    assert np.array_equal(look(pointer()), look(night_cursor(SHAPES.IBeamCursor)))
    enter(splitter.handle(1))
    assert np.array_equal(look(pointer()), look(night_cursor(SHAPES.SplitHCursor)))
    QApplication.sendEvent(splitter.handle(1), QEvent(QEvent.Type.Leave))
    assert np.array_equal(look(pointer()), look(night_cursor(SHAPES.ArrowCursor)))


def test_at_the_eyepiece_it_hides_and_comes_back(make_shell: Callable[..., Shell], state: AppState) -> None:
    state.set_palette("night")
    shell = make_shell(state, view=LADDER)
    view = shell.current_view
    assert isinstance(view, LadderView)
    screen = view.go_to_eyepiece()
    enter(screen)
    shown = pointer()
    assert shown is not None
    assert shown.shape() is SHAPES.BlankCursor
    screen.leave()
    enter(view.canvas)
    assert look(pointer())[..., 0].max() > 100


def test_it_dims_with_the_window_and_goes_with_the_night(
    make_shell: Callable[..., Shell], state: AppState
) -> None:
    shell = make_shell(state)
    label = PlainLabel("Saturn", shell)
    assert pointer() is None
    state.set_palette("night")
    enter(label)
    before = look(pointer())[..., 0].max()
    state.set_dimmer(3)
    assert look(pointer())[..., 0].max() < 0.5 * before
    state.set_dimmer(0)
    assert look(pointer())[..., 0].max() == before
    state.set_palette("dusk")
    assert pointer() is None


def test_a_window_told_of_the_change_does_not_take_it_back(
    make_shell: Callable[..., Shell], state: AppState
) -> None:
    """A real screen tells the whole window each time that the pointer has another shape."""
    state.set_palette("night")
    shell = make_shell(state, view=GEAR)
    line = shell.findChild(QLineEdit)
    assert isinstance(line, QLineEdit)
    enter(shell)
    enter(line)
    QApplication.sendEvent(shell, QEvent(QEvent.Type.CursorChange))
    assert np.array_equal(look(pointer()), look(night_cursor(SHAPES.IBeamCursor)))
