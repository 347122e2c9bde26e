"""The form for the evening's temperatures: each finished figure counts, and what follows stands beneath."""

import re
from collections.abc import Iterator
from datetime import timedelta

import attrs
import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.air.temperatures import Temperatures
from core.record.observer import Preferences, TemperatureUnit
from core.sky.bodies import Body
from gui.ladder.climb_pane import LIMITS
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.window.shell import Shell
from gui.window.temperatures_dialog import TemperaturesDialog
from tests.gui.conftest import EVENING_START, HandClock, MakeShell, MakeState, make_profile


@pytest.fixture
def form(qtbot: QtBot, shell: Shell, state: AppState) -> Iterator[TemperaturesDialog]:
    state.set_planet(Body.URANUS)
    found = TemperaturesDialog(state, shell)
    qtbot.addWidget(found)
    found.show()
    yield found
    found.close()


def retype(form: TemperaturesDialog, name: str, text: str) -> None:
    line = form.fields[name].editor
    line.setFocus()
    QTest.keyClick(line, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(line, Qt.Key.Key_Delete)
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Qt.Key.Key_Return)


def told(state: AppState) -> Temperatures | None:
    return state.situation.temperatures


def test_the_button_opens_it_and_escape_closes_it(qtbot: QtBot, shell: Shell, state: AppState) -> None:
    opened: list[str] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, TemperaturesDialog)
        opened.append(dialog.windowTitle())
        QTest.keyClicks(dialog.fields["now_c"].editor, "5")
        QTest.keyClick(dialog, Qt.Key.Key_Escape)

    assert shell.outside.temperatures.isVisible()
    QTimer.singleShot(0, look)
    qtbot.mouseClick(shell.outside.temperatures, Qt.MouseButton.LeftButton)
    assert opened == ["Temperatures this evening"]
    assert told(state) == Temperatures(now_c=5)


def test_a_warm_mirror_lowers_the_ladder_and_it_climbs_again(
    state: AppState, form: TemperaturesDialog, clock: HandClock
) -> None:
    assert state.situation.ladder is not None
    cold = state.situation.ladder.ceiling.power
    assert cold is not None
    assert "With the air now, or at dusk" in form.what_follows.text()

    state.set_outside(EVENING_START)
    retype(form, "indoor_c", "20")
    retype(form, "now_c", "5,5")
    retype(form, "lowest_c", "1")

    assert told(state) == Temperatures(indoor_c=20, now_c=5.5, lowest_c=1)
    assert state.situation.warmer_by_c == 14.5
    assert not state.situation.warmth_is_assumed
    warm = state.situation.ladder.ceiling.power
    assert warm is not None
    # Check value of the plan: 15 °C too warm leaves a six-inch 114x of 199x overhead in fair air.
    assert 0.5 * cold < warm < 0.7 * cold
    assert "usable for planets from some time between" in form.what_follows.text()
    assert "As the mirror cools: now about" in form.what_follows.text()
    assert "25 mm thick (assumed)" in form.what_follows.text()

    clock.move(timedelta(hours=3))
    state.beat()
    later = state.situation.ladder.ceiling.power
    assert later is not None
    assert later > 0.85 * cold


def test_the_answer_tells_the_climb_and_the_ladder_that_of_a_chosen_moment(
    shell: Shell, state: AppState, form: TemperaturesDialog
) -> None:
    shell.show_view(2)
    view = shell.current_view
    assert isinstance(view, LadderView)
    view.pane.page_buttons.button(LIMITS).click()
    state.set_outside(EVENING_START)

    retype(form, "indoor_c", "20")
    retype(form, "now_c", "5")

    later = re.search(r"As the mirror cools, about (\d+)x from (\d\d):\d\d\.", shell.answer_bar.detail.text())
    assert later is not None
    # The plan's check value overhead in air that falls is 165x after two hours, 173x after two and a half.
    assert int(later[1]) == pytest.approx(170, abs=6)
    assert later[2] in ("23", "00")
    assert not view.pane.limits.climb.isVisible()

    state.set_time(EVENING_START + timedelta(minutes=50))

    assert view.pane.limits.climb.isVisible()
    # The plan's check values overhead: 128x and 142x after half an hour and an hour.
    then = re.match(
        r"As the mirror cools: about (\d+)x at 22:32, \d+x from about", view.pane.limits.climb.text()
    )
    assert then is not None
    assert int(then[1]) == pytest.approx(135, abs=6)


def test_dusk_is_asked_for_only_before_it(
    qtbot: QtBot, shell: Shell, state: AppState, form: TemperaturesDialog, clock: HandClock
) -> None:
    assert not form.fields["dusk_c"].isVisible()

    clock.now = EVENING_START - timedelta(hours=6)
    state.beat()
    afternoon = TemperaturesDialog(state, shell)
    qtbot.addWidget(afternoon)
    afternoon.show()

    assert afternoon.fields["dusk_c"].isVisible()
    afternoon.close()


@pytest.mark.parametrize(
    ("name", "text", "sentence"),
    [
        ("now_c", "80", "The temperature must be from -60 to 60 °C, not “80”."),
        ("now_c", "mild", "“mild” is not a number; write it like 12.5 or 12,5."),
        ("humidity_pct", "120", "The humidity must be from 1 to 100 %, not “120”."),
        ("lowest_c", "9", "The lowest of the night cannot be above the air now and at dusk."),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence_and_stays_as_typed(
    state: AppState, form: TemperaturesDialog, name: str, text: str, sentence: str
) -> None:
    retype(form, "now_c", "6")
    before = told(state)

    retype(form, name, text)

    field = form.fields[name]
    assert field.message == sentence
    assert field.editor.text() == text  # type: ignore[attr-defined]
    assert told(state) == before
    state.beat()
    assert field.editor.text() == text  # type: ignore[attr-defined]


def test_all_emptied_nothing_is_known(state: AppState, form: TemperaturesDialog) -> None:
    retype(form, "now_c", "6")
    retype(form, "now_c", "")

    assert told(state) is None
    assert state.situation.mirror_course is None


def test_damp_air_tells_of_dew_on_a_lens_and_of_a_shield(state: AppState, form: TemperaturesDialog) -> None:
    retype(form, "now_c", "10")
    retype(form, "humidity_pct", "80")
    assert "Dew" not in form.what_follows.text()

    state.set_scope(state.profile.telescopes[1].id)

    # Calm, 10 °C, 80 %: bare glass falls below the dew point, behind a shield it does not.
    assert "Dew settles on the bare front glass from about 21:40" in form.what_follows.text()
    assert "keeps it dry" in form.what_follows.text()


def test_fahrenheit(qtbot: QtBot, make_shell: MakeShell, make_state: MakeState) -> None:
    preferences = Preferences(temperature=TemperatureUnit.FAHRENHEIT)
    state = make_state(attrs.evolve(make_profile(), preferences=preferences))
    form = TemperaturesDialog(state, make_shell(state))
    qtbot.addWidget(form)
    form.show()

    retype(form, "now_c", "41")
    retype(form, "indoor_c", "20 C")

    found = told(state)
    assert found is not None
    assert found.now_c == pytest.approx(5)
    assert found.indoor_c == pytest.approx(20)
    assert form.fields["indoor_c"].editor.text() == "68"  # type: ignore[attr-defined]
    assert form.fields["now_c"].editor.accessibleName() == "Air now, °F"
    form.close()


def test_the_air_was_so_warm_when_it_was_told(
    state: AppState, form: TemperaturesDialog, clock: HandClock
) -> None:
    retype(form, "now_c", "6")
    clock.move(timedelta(minutes=30))
    state.beat()
    retype(form, "humidity_pct", "70")
    first = state.situation.temperatures_told
    retype(form, "now_c", "4")
    second = state.situation.temperatures_told

    assert first is not None
    assert second is not None
    assert first.told_at == EVENING_START
    assert second.told_at == EVENING_START + timedelta(minutes=30)


def test_one_press_says_that_it_went_out_as_planned(
    qtbot: QtBot, shell: Shell, state: AppState, clock: HandClock
) -> None:
    row = shell.outside
    state.set_planet(Body.SATURN)
    clock.now = EVENING_START - timedelta(hours=6)
    state.beat()
    state.set_temperatures(Temperatures(indoor_c=20, now_c=8, lowest_c=1))
    assert not row.as_planned.isVisible()

    clock.now = EVENING_START
    state.beat()
    assert row.as_planned.isVisible()
    taken = state.situation.taken_out_at
    assert taken is not None
    near = taken + timedelta(seconds=30)
    assert row.as_planned.text() == f"Out since {near:%H:%M}, as planned", "Lisbon keeps UTC then"
    assert "for nobody has said so" in row.as_planned.accessibleDescription()
    blur = state.situation.mirror_arcsec(state.situation.scope) if state.situation.scope else None

    qtbot.mouseClick(row.as_planned, Qt.MouseButton.LeftButton)
    assert state.situation.outside_since == taken
    assert not row.as_planned.isVisible()
    assert row.since.isVisible()
    assert state.situation.scope is not None
    assert state.situation.mirror_arcsec(state.situation.scope) == blur
