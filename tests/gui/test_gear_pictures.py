"""The planet at each power under the table of powers: in a large window nothing stays half empty."""

from collections.abc import Callable

import pytest
from attrs import evolve
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.gear.owned import Eyepiece
from core.sky.bodies import Body
from gui.gear.gives_panel import GivesPanel
from gui.gear.view import GearView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import GEAR
from tests.gui.conftest import make_profile, pixels

LARGE, SMALL = (1600, 1000), (1000, 640)
MakeShell = Callable[..., Shell]


def settle() -> None:
    for _ in range(6):
        QApplication.processEvents()


@pytest.fixture
def panel(make_shell: MakeShell, state: AppState) -> GivesPanel:
    state.set_planet(Body.SATURN)
    return panel_of(make_shell(state, view=GEAR, size=LARGE))


def panel_of(shell: Shell) -> GivesPanel:
    settle()
    view = shell.current_view
    assert isinstance(view, GearView)
    return view.gives


def empty_under_the_rows(panel: GivesPanel) -> int:
    table = panel.table
    return table.viewport().height() - sum(map(table.rowHeight, range(table.model().rowCount())))


def drawn_power(panel: GivesPanel) -> str:
    drawing = panel.pictures.drawing
    assert drawing is not None
    accent = [words for words in drawing.drawing.words if words.text.endswith("x")]
    inks = [words.colour for words in accent]
    (power,) = [words.text for words in accent if inks.count(words.colour) == 1]
    return power


def test_the_pictures_take_what_the_table_does_not_need(qtbot: QtBot, panel: GivesPanel) -> None:
    pictures = panel.pictures
    qtbot.waitUntil(lambda: pictures.drawing is not None and len(pictures.drawing.steps) == 6)

    assert pictures.isVisible()
    assert 0 <= empty_under_the_rows(panel) <= 2
    # A picture is worth so many lines.
    assert pictures.height() >= 8 * panel.fontMetrics().lineSpacing()
    assert pictures.shown is not None
    texts = {words.text for words in pictures.shown.words}
    assert {"Saturn at each power", "48x", "96x", "120x", "150x", "240x", "300x"} <= texts


def test_a_picture_takes_its_row_in_hand_and_a_row_marks_its_picture(qtbot: QtBot, panel: GivesPanel) -> None:
    pictures, table = panel.pictures, panel.table
    qtbot.waitUntil(lambda: pictures.drawing is not None)
    assert drawn_power(panel) == "150x"  # to climb to

    table.choose_power(96.0)
    qtbot.waitUntil(lambda: drawn_power(panel) == "96x")

    drawing = pictures.drawing
    assert drawing is not None
    box = next(box for sight, box in drawing.steps if sight.power == 240.0)
    x, y = pictures.from_page(*box.middle)
    qtbot.mouseClick(pictures, Qt.MouseButton.LeftButton, pos=QPoint(round(x), round(y)))
    assert table.entry is not None
    assert table.entry.rung.power == 240.0
    qtbot.waitUntil(lambda: drawn_power(panel) == "240x")
    assert "240x" in panel.details.text()


def test_where_there_is_no_room_the_table_has_it_all(make_shell: MakeShell, state: AppState) -> None:
    state.set_planet(Body.SATURN)
    shell = make_shell(state, view=GEAR, size=LARGE)
    panel = panel_of(shell)
    assert panel.pictures.isVisible()

    shell.resize(*SMALL)
    settle()
    assert not panel.pictures.isVisible()
    assert panel.table.height() >= panel.table.minimumSizeHint().height()

    shell.resize(*LARGE)
    settle()
    assert panel.pictures.isVisible()


def test_without_a_planet_in_the_sky_there_are_no_pictures(
    make_shell: MakeShell, make_state: Callable[..., AppState]
) -> None:
    panel = panel_of(make_shell(make_state(evolve(make_profile(), sites=())), view=GEAR, size=LARGE))

    assert panel.table.model().rowCount() == 6
    assert not panel.pictures.isVisible()


def test_another_planet_another_kit_and_another_palette_are_followed(
    qtbot: QtBot, panel: GivesPanel, state: AppState
) -> None:
    pictures = panel.pictures
    qtbot.waitUntil(lambda: pictures.drawing is not None)
    state.set_planet(Body.NEPTUNE)
    settle()
    assert pictures.accessibleName() == "Neptune at each power"

    kit = (*state.profile.eyepieces, Eyepiece(name="15 mm", focal_length_mm=15, apparent_field_deg=52))
    state.edit_profile("Add", evolve(state.profile, eyepieces=kit))
    # Of the eight powers now seven stand beside each other.
    qtbot.waitUntil(lambda: pictures.drawing is not None and len(pictures.drawing.steps) == 7)
    assert 0 <= empty_under_the_rows(panel) <= 2

    state.set_palette("night")
    settle()
    assert pixels(pictures)[..., 1:].max() == 0
