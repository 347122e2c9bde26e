"""What nobody can see is not worked out; as it comes into sight it shows what the situation is by then."""

from collections.abc import Callable
from datetime import date

import pytest
from attrs import evolve
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from core.air.first_look import FirstLook
from core.situation.situation import Situation
from core.sky.bodies import Body
from gui.state import AppState
from gui.widgets.canvas import Canvas
from gui.widgets.in_sight import InSight
from gui.widgets.plain_label import PlainLabel
from gui.window.shell import Shell
from gui.window.views import GEAR, HEIGHT, LADDER


def words_in(view: QWidget) -> list[str]:
    """Return all that can be read in a view, drawings included, but how large the drawings are."""
    QApplication.processEvents()
    labels = [label.text() for label in view.findChildren(PlainLabel) if label.isVisible()]
    drawn = [
        words.text
        for canvas in view.findChildren(Canvas)
        if canvas.isVisible() and canvas.shown is not None
        for words in canvas.shown.words
        if not words.text.startswith("enlarged")
    ]
    return sorted((*labels, *drawn))


@pytest.mark.parametrize(("view", "other"), [(GEAR, HEIGHT), (HEIGHT, LADDER), (LADDER, GEAR)])
def test_a_view_that_comes_into_sight_again_shows_what_a_new_one_shows(
    shell: Shell, make_shell: Callable[..., Shell], view: int, other: int
) -> None:
    state = shell.state
    shell.show_view(view)
    before = words_in(shell.stack)
    shell.show_view(other)
    state.set_planet(Body.JUPITER)
    state.set_evening(date(2027, 2, 10))
    state.set_first_look(FirstLook.STEADY)
    state.edit_profile("Sell", evolve(state.profile, eyepieces=state.profile.eyepieces[1:]))
    QApplication.processEvents()
    shell.show_view(view)
    shown = words_in(shell.stack)

    new = make_shell(state, view=view)
    assert shown == words_in(new.stack)
    assert shown != before


def test_only_what_can_be_seen_is_shown_anew(state: AppState, qtbot: QtBot) -> None:
    part = QWidget()
    qtbot.addWidget(part)
    shown: list[Body | None] = []
    InSight(part, state, (Situation.planet,), lambda: shown.append(state.situation.planet))

    state.set_planet(Body.MARS)
    state.set_planet(Body.SATURN)
    assert shown == []
    part.show()
    assert shown == [Body.SATURN]
    state.set_planet(Body.VENUS)
    assert shown == [Body.SATURN, Body.VENUS]
    part.hide()
    state.beat()
    part.show()
    assert shown == [Body.SATURN, Body.VENUS]
