"""Since when the telescope stands outside: one line, and an answer that reckons with a warm mirror."""

from datetime import UTC, date, datetime, timedelta

import attrs
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from core.record.observer import Preferences, Profile, TemperatureUnit
from core.sky.bodies import Body
from core.tonight.limiter import Limiter
from core.words.answer import carry_out_told
from core.words.evening import titled
from gui.state import AppState
from gui.window.outside_row import OutsideRow
from gui.window.shell import Shell
from tests.gui.conftest import EVENING_START, HandClock, MakeShell, MakeState, make_profile
from tests.gui.fitting import faults


@pytest.fixture
def row(shell: Shell, state: AppState) -> OutsideRow:
    # Uranus stands 66 degrees high: nothing but the mirror could be in the way.
    state.set_planet(Body.URANUS)
    return shell.outside


def click(qtbot: QtBot, button: QWidget) -> None:
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


def retype(field: QWidget, text: str) -> None:
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    if text:
        QTest.keyClicks(field, text)
    else:
        QTest.keyClick(field, Qt.Key.Key_Delete)
    QTest.keyClick(field, Qt.Key.Key_Return)


def settle() -> None:
    for _ in range(5):
        QApplication.processEvents()


def out(state: AppState) -> datetime | None:
    return state.situation.outside_since


def is_assumed(state: AppState) -> bool:
    return state.situation.warmth_is_assumed


def sentence(shell: Shell) -> str:
    return f"{shell.answer_bar.sentence.text()} {shell.answer_bar.detail.text()}"


def limiter(state: AppState) -> Limiter | None:
    return state.situation.answer.limiter if state.situation.answer else None


@pytest.fixture
def before_dusk(clock: HandClock) -> None:
    # An hour before dusk, 20 minutes after sunset, of which Porto has it at 17:07.
    clock.now = datetime(2026, 12, 5, 16, 27, tzinfo=UTC)


@pytest.mark.usefixtures("before_dusk")
@pytest.mark.parametrize(("size", "scale"), [((1000, 640), 1.0), ((1000, 640), 1.25), ((1600, 1000), 1.5)])
def test_an_hour_before_dusk_it_is_told_beside_the_views_when_it_goes_out(
    qtbot: QtBot, make_shell: MakeShell, make_state: MakeState, size: tuple[int, int], scale: float
) -> None:
    state = make_state()
    state.set_text_scale(scale)
    shell = make_shell(state, size=size)
    settle()
    told = shell.outside.carry_out
    (at_length, *_) = carry_out_told(state.situation)
    as_high = shell.views_row.height()

    assert told.isVisible()
    assert told.text() in carry_out_told(state.situation)
    assert told.accessibleDescription().startswith("Carry the telescope out")
    assert at_length not in shell.answer_bar.detail.text()
    assert not list(faults(shell.views_row))

    click(qtbot, shell.outside.start)
    assert not told.isVisible()
    click(qtbot, shell.outside.stop)
    qtbot.waitUntil(lambda: told.isVisible() and shell.views_row.height() == as_high)
    # It takes no height of its own.
    told.show_wordings(())
    settle()
    assert shell.views_row.height() == as_high


@pytest.mark.usefixtures("before_dusk")
def test_a_folded_head_tells_it_before_the_eyepieces(make_shell: MakeShell, make_state: MakeState) -> None:
    state = make_state()
    state.set_text_scale(1.5)
    shell = make_shell(state, size=(1000, 640))

    assert shell.head.is_folded
    assert not shell.outside.carry_out.isVisible()
    assert shell.answer_bar.detail.text().startswith("Carry the telescope out")
    assert shell.answer_bar.detail.accessibleDescription().startswith("Carry the telescope out")


def test_one_click_says_that_it_is_outside_and_the_answer_waits_for_the_mirror(
    qtbot: QtBot, shell: Shell, state: AppState, row: OutsideRow
) -> None:
    before = sentence(shell)
    assert row.start.isVisible()
    assert not row.since.isVisible()

    click(qtbot, row.start)

    assert out(state) == EVENING_START
    assert row.since.text() == "21:42"
    assert row.warmth.text() == "17"
    # Common practice, no source: a six-inch open reflector 17 °C too warm needs about 27 minutes.
    assert row.note.text() == "°C warmer, assumed · likely usable 22:10"
    assert limiter(state) is Limiter.MIRROR_WARM
    assert "until the telescope is usable at about 22:10 (an estimate)" in sentence(shell)
    assert [item.title for item in titled(state.situation.evening_steps)].count("Outside") == 1
    assert "Carry out" not in [item.title for item in titled(state.situation.evening_steps)]

    click(qtbot, row.stop)

    assert out(state) is None
    assert sentence(shell) == before
    assert row.start.isVisible()


def test_once_it_is_ready_the_answer_goes_on(
    qtbot: QtBot, state: AppState, row: OutsideRow, clock: HandClock
) -> None:
    click(qtbot, row.start)
    clock.move(timedelta(minutes=26))
    state.beat()
    assert limiter(state) is Limiter.MIRROR_WARM
    clock.move(timedelta(minutes=2))
    state.beat()
    assert limiter(state) is not Limiter.MIRROR_WARM
    assert row.since.text() == "21:42"
    assert row.note.text().endswith("likely usable since 22:10")


def test_all_of_it_goes_by_keys(
    qtbot: QtBot, shell: Shell, state: AppState, row: OutsideRow, clock: HandClock
) -> None:
    QTest.keyClick(shell, Qt.Key.Key_U, Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(lambda: QApplication.focusWidget() is row.since)

    QTest.keyClicks(row.since, "20")
    clock.move(timedelta(minutes=1))
    state.beat()  # the clock goes on while a time is typed
    QTest.keyClicks(row.since, "40")
    QTest.keyClick(row.since, Qt.Key.Key_Return)
    assert out(state) == datetime(2026, 12, 5, 20, 40, tzinfo=UTC)
    QTest.keyClick(row.since, Qt.Key.Key_Up)
    assert out(state) == datetime(2026, 12, 5, 21, 40, tzinfo=UTC)

    retype(row.warmth, "5,5")
    assert state.situation.warmer_by_c == 5.5
    assert not is_assumed(state)
    assert "assumed" not in row.note.text()
    row.stop.setFocus()
    assert row.warmth.text() == "5.5"
    QTest.keyClick(row.stop, Qt.Key.Key_Space)
    assert out(state) is None
    assert QApplication.focusWidget() is row.start


def test_a_time_still_to_come_is_refused_and_one_after_midnight_is_understood(
    qtbot: QtBot, shell: Shell, state: AppState, row: OutsideRow, clock: HandClock
) -> None:
    click(qtbot, row.start)
    QTest.keyClicks(row.since, "2330")
    QTest.keyClick(row.since, Qt.Key.Key_Return)
    assert shell.message_line.text.text() == "23:30 is still to come; the time is as it was."
    assert (out(state), row.since.text()) == (EVENING_START, "21:42")

    clock.now = datetime(2026, 12, 6, 2, 0, tzinfo=UTC)
    state.beat()
    row.since.setFocus()
    row.since.setSelectedSection(row.since.Section.HourSection)
    QTest.keyClicks(row.since, "0115")
    QTest.keyClick(row.since, Qt.Key.Key_Return)
    assert out(state) == datetime(2026, 12, 6, 1, 15, tzinfo=UTC)


_REFUSED = {
    "99": "The difference must be from -60 to 60 °C, not “99”.",
    "warm": "“warm” is not a number; write it like 12.5 or 12,5.",
}


@pytest.mark.parametrize("text", _REFUSED)
def test_a_figure_that_cannot_be_is_refused_in_a_sentence(
    qtbot: QtBot, state: AppState, row: OutsideRow, text: str
) -> None:
    click(qtbot, row.start)
    retype(row.warmth, text)
    assert state.situation.warmer_by_c == 17
    row.stop.setFocus()
    state.beat()
    assert (row.warmth.text(), row.note.text()) == (text, _REFUSED[text])
    assert state.situation.warmer_by_c == 17
    row.warmth.setFocus()
    QTest.keyClick(row.warmth, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert row.warmth.text() == "17"
    assert row.note.text().startswith("°C warmer")


def test_an_emptied_figure_is_assumed_again(qtbot: QtBot, state: AppState, row: OutsideRow) -> None:
    click(qtbot, row.start)
    retype(row.warmth, "3")
    assert not is_assumed(state)
    retype(row.warmth, "")
    assert is_assumed(state)
    assert state.situation.warmer_by_c == 17


def test_a_scope_as_cold_as_the_air_is_ready_at_once(qtbot: QtBot, state: AppState, row: OutsideRow) -> None:
    click(qtbot, row.start)
    retype(row.warmth, "0")
    assert limiter(state) is not Limiter.MIRROR_WARM


def test_fahrenheit_and_a_clock_of_twelve_hours(
    qtbot: QtBot, make_shell: MakeShell, make_state: MakeState
) -> None:
    preferences = Preferences(temperature=TemperatureUnit.FAHRENHEIT, clock=12)
    state = make_state(attrs.evolve(make_profile(), preferences=preferences))
    row = make_shell(state).outside
    click(qtbot, row.start)
    assert row.since.text() == "9:42 pm"
    assert row.warmth.text() == "30.6"
    assert row.warmth.accessibleName() == "Warmer than the air by, °F"
    assert row.note.text() == "°F warmer, assumed · likely usable 10:10 pm"
    retype(row.warmth, "18")
    assert state.situation.warmer_by_c == pytest.approx(10)


def test_it_counts_for_one_telescope_site_and_evening_alone(
    qtbot: QtBot, shell: Shell, state: AppState, row: OutsideRow
) -> None:
    click(qtbot, row.start)
    first, second = state.profile.telescopes
    state.set_scope(second.id)
    assert out(state) is None
    assert row.start.isVisible()
    state.set_scope(first.id)
    assert row.since.isVisible()

    state.set_site(state.profile.sites[1].id)
    assert out(state) is None
    state.set_site(state.profile.sites[0].id)

    state.set_evening(date(2026, 12, 6))
    assert out(state) is None
    assert not row.isVisible()
    click(qtbot, shell.strip.tonight)
    assert row.since.text() == "21:42"
    assert "this evening" in row.note.toolTip()


def test_the_next_evening_begins_without_it(
    qtbot: QtBot, state: AppState, row: OutsideRow, clock: HandClock
) -> None:
    click(qtbot, row.start)
    clock.now = datetime(2026, 12, 6, 9, 0, tzinfo=UTC)  # after sunrise, before the next evening's noon
    state.beat()
    assert not row.isVisible()
    clock.now = datetime(2026, 12, 6, 18, 0, tzinfo=UTC)
    state.beat()
    assert row.start.isVisible()
    assert out(state) is None


def test_another_profile_knows_nothing_of_it(qtbot: QtBot, state: AppState, row: OutsideRow) -> None:
    click(qtbot, row.start)
    state.load(make_profile(), None)
    assert out(state) is None


def test_without_a_telescope_there_is_nothing_to_carry_out(
    make_shell: MakeShell, make_state: MakeState
) -> None:
    shell = make_shell(make_state(attrs.evolve(make_profile(), telescopes=())))
    assert not shell.outside.isVisible()
    assert not make_shell(make_state(Profile())).outside.isVisible()


def test_the_line_fits_a_small_window(qtbot: QtBot, make_shell: MakeShell, state: AppState) -> None:
    shell = make_shell(state, size=(1000, 640))
    click(qtbot, shell.outside.start)
    assert (shell.width(), shell.height()) == (1000, 640)
    note = shell.outside.note
    qtbot.waitUntil(lambda: note.fontMetrics().horizontalAdvance(note.text()) <= note.width())
