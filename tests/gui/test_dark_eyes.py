"""Eyes used to the dark: every surface of the program by night, pixel by pixel."""

import numpy as np
import pytest
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QAbstractButton, QDialog, QDialogButtonBox, QLineEdit, QWidget

from core.drawing.palette import load_palette
from gui.state import AppState
from gui.widgets.red_filter import DIMMER_STEPS
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT
from tests.gui.conftest import MakeShell, pixels
from tests.gui.surfaces import dialogs, own_dialogs, settle, surfaces

BRIGHTEST = 190


@pytest.fixture
def shell(make_shell: MakeShell, state: AppState) -> Shell:
    state.set_palette("night")
    return make_shell(state)


def test_every_surface_is_dim_red_on_black(shell: Shell) -> None:
    seen = {}
    for name, surface in surfaces(shell):
        shot = pixels(surface)
        assert shot[..., 0].max() > 60, f"{name} shows nothing"
        seen[name] = (int(shot[..., 0].max()), int(shot[..., 1:].max()))
    assert len(seen) > 50
    assert {name: most for name, most in seen.items() if most[0] > BRIGHTEST or most[1] > 0} == {}


def test_a_step_of_the_dimmer_reaches_every_surface(shell: Shell, state: AppState) -> None:
    state.set_dimmer(len(DIMMER_STEPS) - 1)
    least = BRIGHTEST * DIMMER_STEPS[-1] + 1
    seen = {name: int(pixels(surface)[..., 0].max()) for name, surface in surfaces(shell)}
    assert {name: most for name, most in seen.items() if most > least} == {}
    state.set_dimmer(0)


def test_no_surface_is_a_lamp(shell: Shell) -> None:
    """A wide patch of what is bright for a line lights up the face of whoever looks at it."""
    widest = {name: widest_patch(pixels(surface)[..., 0]) for name, surface in surfaces(shell)}
    # Letters a hand high, and the planet itself, are what is looked at there.
    meant = {"at the eyepiece", "ladder", "looks"}
    assert {name: side for name, side in widest.items() if side > 16 and name not in meant} == {}


def widest_patch(red: np.ndarray) -> int:
    """Return the side of the largest square of which every pixel is brighter than 100, up to 24 pixels."""
    lit = red > 100
    side = 0
    while side < 24 and lit.any():
        side += 1
        # Each pixel stays lit while its neighbours to the right and below are.
        lit = lit[:-1, :-1] & lit[1:, :-1] & lit[:-1, 1:] & lit[1:, 1:]
    return side


def test_every_dialog_of_the_program_is_among_the_surfaces(shell: Shell) -> None:
    assert own_dialogs() <= {type(dialog) for _name, dialog in dialogs(shell)}


def test_no_dialog_leaves_the_window_in_full_screen_or_has_a_frame(shell: Shell) -> None:
    shell.toggle_full_screen()
    settle()
    strays = {}
    for name, dialog in dialogs(shell):
        assert isinstance(dialog, QDialog)
        if dialog.frameGeometry() != dialog.geometry() or not shell.geometry().contains(dialog.geometry()):
            strays[name] = dialog.frameGeometry()
    shell.toggle_full_screen()
    assert strays == {}


def test_what_pops_up_in_full_screen_stays_inside(shell: Shell) -> None:
    shell.toggle_full_screen()
    settle()
    screen = shell.screen().geometry()
    strays = {
        name: surface.geometry()
        for name, surface in surfaces(shell)
        if surface.isWindow() and not screen.contains(surface.frameGeometry())
    }
    shell.toggle_full_screen()
    assert strays == {}


def test_focus_is_seen_and_is_not_the_brightest(shell: Shell) -> None:
    """Whatever the keyboard comes to shows it, in light that is less than that of words."""
    ink = QColor(load_palette("night").ink).red()
    frames = {}
    for view in (GEAR, HEIGHT):
        shell.show_view(view)
        settle()
        for widget in focusable(shell):
            shell.setFocus()
            settle()
            before = pixels(shell)
            widget.setFocus()
            settle()
            frames[widget.accessibleName() or type(widget).__name__] = edge_light(before, pixels(shell))
    assert {name: light for name, light in frames.items() if not 0 < light < ink} == {}


def focusable(shell: Shell) -> list[QWidget]:
    buttons = [each for each in shell.findChildren(QAbstractButton) if each.isVisible() and each.isEnabled()]
    return [each for each in buttons if not each.visibleRegion().isEmpty()]


def edge_light(before: np.ndarray, after: np.ndarray) -> int:
    """Return the light on the outermost of the lines that have changed, 0 where nothing has."""
    rows, columns = np.nonzero((before != after).any(axis=2))
    if not len(rows):
        return 0
    top, bottom, left, right = rows.min(), rows.max(), columns.min(), columns.max()
    box = after[top : bottom + 1, left : right + 1, 0]
    return int(np.median(np.concatenate((box[0], box[-1], box[:, 0], box[:, -1]))))


def test_buttons_of_dialogs_carry_no_icon_of_the_style(shell: Shell) -> None:
    """At night one was a dark hole beside the word."""
    icons = [
        button.text()
        for _name, dialog in dialogs(shell)
        for box in dialog.findChildren(QDialogButtonBox)
        for button in box.buttons()
        if not button.icon().isNull()
    ]
    assert icons == []


def test_menus_of_text_fields_carry_no_icon_of_the_style(shell: Shell) -> None:
    line = shell.findChild(QLineEdit)
    assert isinstance(line, QLineEdit)
    menu = line.createStandardContextMenu()
    assert menu.actions()
    assert not any(each.isIconVisibleInMenu() for each in menu.actions())
    menu.deleteLater()
