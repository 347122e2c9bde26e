"""At the eyepiece, lived through by keys alone: everything is told, and only Escape leaves."""

from collections.abc import Callable
from datetime import timedelta

import attrs
import numpy as np
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.air.first_look import FirstLook
from core.gear.owned import Filter
from core.record.log_entry import Verdict
from core.sky.bodies import Body
from gui.ladder.at_eyepiece import AtEyepiece
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.views import LADDER
from tests.gui.conftest import HandClock, action, make_profile, pixels

KEY = Qt.Key
FILTERS = (Filter(id="yellow", name="Yellow", wratten="12"), Filter(id="green", name="Green", wratten="58"))


@pytest.fixture
def state(make_state: Callable[..., AppState]) -> AppState:
    state = make_state(attrs.evolve(make_profile(), filters=FILTERS))
    state.set_planet(Body.SATURN)
    return state


@pytest.fixture
def shell(qtbot: QtBot, make_shell: Callable[..., Shell], state: AppState) -> Shell:
    shell = make_shell(state, view=LADDER, size=(1000, 640))
    shell.activateWindow()
    shell.go_to_view(LADDER)
    view = shell.current_view
    assert isinstance(view, LadderView)
    qtbot.waitUntil(view.canvas.hasFocus)
    return shell


@pytest.fixture
def screen(qtbot: QtBot, shell: Shell) -> AtEyepiece:
    view = shell.current_view
    assert isinstance(view, LadderView)
    QTest.keyClick(view.canvas, KEY.Key_E)
    (screen,) = shell.findChildren(AtEyepiece)
    qtbot.waitUntil(screen.hasFocus)
    screen.ensure_drawn()
    return screen


def test_it_covers_the_whole_window_and_tells_what_is_in_hand(shell: Shell, screen: AtEyepiece) -> None:
    assert screen.geometry() == shell.rect()
    for part in (shell.strip, shell.answer_bar, shell.menuBar(), shell.view_buttons.button(0)):
        assert shell.childAt(part.mapTo(shell, part.rect().center())) is screen
    assert screen.cursor().shape() is Qt.CursorShape.BlankCursor
    words = screen.words
    assert (words.subject, words.time, words.power, words.part) == (
        "Saturn 44° south-west",
        "21:42",
        "48x",
        "25 mm",
    )
    assert words.next_step == "next 120x, 10 mm"
    assert words.change.startswith("under 30° in 1 h")
    assert "Saturn 44°" in screen.accessibleDescription()


def test_a_step_a_verdict_and_the_next_step_by_bare_keys(screen: AtEyepiece, state: AppState) -> None:
    # The keys are named before there is a step to judge, and do nothing until then.
    assert screen.chart is not None
    assert "M more detail" in [each.text for each in screen.chart.drawing.words]
    QTest.keyClick(screen, KEY.Key_M)
    assert not state.choices.verdicts
    assert screen.words.asked.startswith("After a step, press")

    QTest.keyClick(screen, KEY.Key_Up)
    assert screen.words.power == "120x"
    assert screen.words.asked.startswith("120x after 48x: refocus, re-centre")
    QTest.keyClick(screen, KEY.Key_M)
    (verdict,) = state.choices.verdicts
    assert (verdict.verdict, verdict.from_power, verdict.power) == (Verdict.MORE, 48.0, 120.0)
    assert screen.words.asked == "More detail at 120x than at 48x, written down."
    assert screen.words.next_step == "next 150x, 8 mm"

    QTest.keyClick(screen, KEY.Key_Return)
    assert screen.words.power == "150x"
    QTest.keyClick(screen, KEY.Key_L)
    assert screen.words.asked == "Less detail at 150x than at 120x, written down."
    assert screen.words.next_step == "back to 120x, 10 mm"
    QTest.keyClick(screen, KEY.Key_Down)
    assert screen.words.power == "120x"


def test_a_key_that_is_held_says_it_once(screen: AtEyepiece, state: AppState) -> None:
    from PySide6.QtCore import QEvent
    from PySide6.QtGui import QKeyEvent

    state.step_rung(1)
    held = QKeyEvent(QEvent.Type.KeyPress, KEY.Key_N, Qt.KeyboardModifier.NoModifier, "n", True)
    QApplication.sendEvent(screen, held)
    assert state.choices.verdicts == ()


def test_a_verdict_is_taken_back_but_no_edit_of_the_profile(screen: AtEyepiece, state: AppState) -> None:
    state.edit_profile("Rename", attrs.evolve(state.profile, observer="Inês"))
    QTest.keyClick(screen, KEY.Key_Backspace)
    assert state.profile.observer == "Inês"
    state.step_rung(1)
    counts = []
    for key in (KEY.Key_N, KEY.Key_Backspace):
        QTest.keyClick(screen, key)
        counts.append(len(state.choices.verdicts))
    assert counts == [1, 0]
    assert state.profile.observer == "Inês"


def test_the_first_look_is_one_key(screen: AtEyepiece, state: AppState) -> None:
    looks = []
    for key in (KEY.Key_1, KEY.Key_2, KEY.Key_3):
        QTest.keyClick(screen, key)
        looks.append(state.situation.first_look)
    assert looks == [FirstLook.STEADY, FirstLook.FAIR, FirstLook.BOILING]


def test_one_key_goes_through_the_filters(screen: AtEyepiece) -> None:
    parts = []
    for _ in range(3):
        QTest.keyClick(screen, KEY.Key_F)
        parts.append(screen.words.part)
    assert parts == ["25 mm, filter: Yellow", "25 mm, filter: Green", "25 mm"]


def test_no_key_but_escape_leaves(qtbot: QtBot, shell: Shell, screen: AtEyepiece, state: AppState) -> None:
    none, control, alt = (
        Qt.KeyboardModifier.NoModifier,
        Qt.KeyboardModifier.ControlModifier,
        Qt.KeyboardModifier.AltModifier,
    )
    presses = [(key, none) for key in range(KEY.Key_Space.value, KEY.Key_QuoteLeft.value + 1)]
    presses += [(key, none) for key in range(KEY.Key_F1.value, KEY.Key_F12.value + 1)]
    presses += [(key.value, none) for key in (KEY.Key_Tab, KEY.Key_Backtab, KEY.Key_Return, KEY.Key_Delete)]
    presses += [(key.value, control) for key in (KEY.Key_1, KEY.Key_2, KEY.Key_Z, KEY.Key_E, KEY.Key_Plus)]
    presses += [(key.value, alt) for key in (KEY.Key_F, KEY.Key_V, KEY.Key_W, KEY.Key_U)]
    for key, modifiers in presses:
        QTest.keyClick(screen, Qt.Key(key), modifiers)
        assert screen.isVisible()
        assert screen.hasFocus(), Qt.Key(key)
        assert QApplication.activePopupWidget() is None
        assert QApplication.activeModalWidget() is None
    assert shell.stack.currentIndex() == LADDER
    assert state.situation.palette_name == "day"

    QTest.keyClick(screen, KEY.Key_Escape)
    view = shell.current_view
    assert isinstance(view, LadderView)
    qtbot.waitUntil(view.canvas.hasFocus)
    assert not screen.isVisible()


def test_the_window_closes_from_within(shell: Shell, screen: AtEyepiece) -> None:
    assert screen.isVisible()
    assert shell.close()
    assert not shell.isVisible()


def test_the_menu_leads_there_from_any_view(qtbot: QtBot, shell: Shell) -> None:
    shell.go_to_view(1)
    action(shell, "View", "At the eyepiece").trigger()
    (screen,) = shell.findChildren(AtEyepiece)
    assert screen.isVisible()
    assert shell.stack.currentIndex() == LADDER


def test_minus_and_plus_take_the_light_down_and_up_and_it_is_kept(
    screen: AtEyepiece, state: AppState, shell: Shell
) -> None:
    brightness = [int(pixels(screen).max())]
    for key in (KEY.Key_Minus, KEY.Key_Less):
        QTest.keyClick(screen, key)
        brightness.append(int(pixels(screen).max()))
    assert brightness[0] > 1.2 * brightness[1] > 1.2 * brightness[2]
    assert shell.documents.session.dimmer == 2
    QTest.keyClick(screen, KEY.Key_Plus)
    assert state.situation.dimmer == 1


def test_by_night_every_pixel_of_the_window_is_dim_red(
    screen: AtEyepiece, shell: Shell, state: AppState
) -> None:
    state.set_palette("night")
    for widget in (screen, shell):
        shown = pixels(widget)
        assert shown[..., 1:].max() == 0
        assert 100 < shown[..., 0].max() <= 190
    before = int(pixels(shell)[..., 0].max())
    QTest.keyClick(screen, KEY.Key_Minus)
    assert pixels(shell)[..., 0].max() < 0.8 * before


def test_a_touch_gives_a_verdict_and_takes_what_is_next(
    qtbot: QtBot, screen: AtEyepiece, state: AppState
) -> None:
    assert screen.chart is not None
    assert screen.chart.next_step is not None
    place = QPointF(*screen.from_page(*screen.chart.next_step.middle)).toPoint()
    qtbot.mouseClick(screen, Qt.MouseButton.LeftButton, pos=place)
    assert screen.words.power == "120x"
    screen.ensure_drawn()
    (box,) = (box for verdict, box in screen.chart.verdicts if verdict is Verdict.LESS)
    place = QPointF(*screen.from_page(*box.middle)).toPoint()
    qtbot.mouseClick(screen, Qt.MouseButton.LeftButton, pos=place)
    assert [entry.verdict for entry in state.choices.verdicts] == [Verdict.LESS]


def test_it_follows_clock_window_and_notices(
    qtbot: QtBot, shell: Shell, screen: AtEyepiece, state: AppState, clock: HandClock
) -> None:
    change = screen.words.change
    clock.move(timedelta(minutes=10))
    state.beat()
    assert screen.words.time == "21:52"
    assert screen.words.change != change
    shell.resize(1280, 800)
    assert screen.geometry() == shell.rect()
    before = pixels(screen)
    state.tell("The log: cannot be opened.")
    assert np.any(pixels(screen) != before)
    assert "cannot be opened" in screen.accessibleDescription()


def test_in_the_last_minutes_before_sunrise_nothing_counts_but_to_stop(
    make_shell: Callable[..., Shell], make_state: Callable[..., AppState], clock: HandClock
) -> None:
    state = make_state(make_profile())
    night = state.situation.night
    assert night is not None
    assert night.sun.rise is not None
    clock.now = night.sun.rise - timedelta(minutes=17)
    state.set_planet(Body.JUPITER)
    state.beat()
    view = make_shell(state, view=LADDER).current_view
    assert isinstance(view, LadderView)
    # The ladder itself says nothing else either, and asks for no verdict.
    assert view.pane.next.text().startswith("Off the planet and cap the telescope by ")
    assert not view.pane.verdicts.isVisible()
    words = view.go_to_eyepiece().words
    assert words.next_step.startswith("cap the telescope: ")
    assert words.verdicts == ()
    assert any("The Sun rises at" in notice for notice in words.notices)


@pytest.mark.parametrize("scale", [1.5, 2.0])
def test_with_large_letters_the_picture_goes_below_and_no_word_is_cut(
    qtbot: QtBot, shell: Shell, state: AppState, scale: float
) -> None:
    view = shell.current_view
    assert isinstance(view, LadderView)
    below = view.eyepiece.mapTo(view, view.eyepiece.rect().topLeft()).y()
    state.set_text_scale(scale)
    qtbot.waitUntil(lambda: view.eyepiece.mapTo(view, view.eyepiece.rect().topLeft()).y() > below + 200)
    page = view.pane.widget()
    assert page is not None
    assert page.width() <= view.pane.viewport().width()
    assert view.eyepiece.canvas.height() > 150
    assert view.pane.geometry().bottom() < view.eyepiece.geometry().top()
    assert view.canvas.height() >= view.pane.height()
    state.set_text_scale(1.0)
    qtbot.waitUntil(lambda: view.eyepiece.mapTo(view, view.eyepiece.rect().topLeft()).y() == below)


def test_the_window_asks_for_no_more_room(shell: Shell, screen: AtEyepiece, state: AppState) -> None:
    for scale in (1.0, 1.5, 2.0):
        state.set_text_scale(scale)
        QApplication.processEvents()
        assert (shell.width(), shell.height()) == (1000, 640)
        assert screen.geometry() == shell.rect()
