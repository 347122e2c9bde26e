"""The evening as a list: ticked off, moved and added to, by keys and by the pointer."""

from collections.abc import Callable
from datetime import UTC, datetime, time, timedelta

import pytest
from PySide6.QtCore import QPoint, Qt, QTime
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.sky.bodies import Body
from core.tonight.steps import EveningItem, ItemKind
from core.words.evening import titled
from core.words.site_clock import clock_of
from gui.height import steps_list
from gui.height.step_dialog import StepAsked, StepDialog, Wanted
from gui.height.steps_list import StepsList
from gui.height.view import HeightView
from gui.state import AppState
from gui.widgets.theme import Theme
from gui.window.shell import Shell
from tests.gui.conftest import HandClock
from tests.gui.showing import show

AFTERNOON = datetime(2026, 12, 5, 15, 30, tzinfo=UTC)
EIGHT = datetime(2026, 12, 5, 20, 0, tzinfo=UTC)


@pytest.fixture
def afternoon(state: AppState, clock: HandClock) -> AppState:
    clock.now = AFTERNOON
    state.beat()
    return state


@pytest.fixture
def view(qtbot: QtBot, theme: object, afternoon: AppState) -> HeightView:
    view = HeightView(afternoon)
    show(qtbot, view, size=(1560, 820))
    return view


def item_of(state: AppState, kind: ItemKind) -> EveningItem:
    (item,) = [item for item in state.situation.evening_steps if item.kind is kind]
    return item


def take_in_hand(steps: StepsList, key: str) -> None:
    number = steps.model.number_of(key)
    assert number is not None
    steps.rows.setCurrentIndex(steps.model.index(number))
    steps.rows.setFocus()


def box_of(steps: StepsList, key: str) -> QPoint:
    """Return where the box of a step is in the list's viewport."""
    number = steps.model.number_of(key)
    assert number is not None
    index = steps.model.index(number)
    steps.rows.scrollTo(index)
    rect = steps.rows.visualRect(index)
    return QPoint(rect.left() + 14, rect.top() + 10)


def answer_with(monkeypatch: pytest.MonkeyPatch, asked: StepAsked | None) -> list[StepDialog]:
    """Let the form be answered so; return the forms that were asked with."""
    shown: list[StepDialog] = []

    def ask(dialog: StepDialog) -> StepAsked | None:
        shown.append(dialog)
        return asked

    monkeypatch.setattr(steps_list, "ask_step", ask)
    return shown


def test_space_ticks_a_step_off_and_takes_the_tick_back(
    view: HeightView, afternoon: AppState, qtbot: QtBot
) -> None:
    take_in_hand(view.steps, "kit")
    qtbot.keyClick(view.steps.rows, Qt.Key.Key_Space)
    assert item_of(afternoon, ItemKind.KIT).is_done

    qtbot.keyClick(view.steps.rows, Qt.Key.Key_Space)
    assert not item_of(afternoon, ItemKind.KIT).is_done


def test_a_click_on_the_box_ticks_and_one_on_the_words_does_not(
    view: HeightView, afternoon: AppState, qtbot: QtBot
) -> None:
    box = box_of(view.steps, "kit")
    qtbot.mouseClick(view.steps.rows.viewport(), Qt.MouseButton.LeftButton, pos=box + QPoint(120, 0))
    assert not item_of(afternoon, ItemKind.KIT).is_done

    qtbot.mouseClick(view.steps.rows.viewport(), Qt.MouseButton.LeftButton, pos=box)
    assert item_of(afternoon, ItemKind.KIT).is_done


def test_ticking_off_the_carrying_out_is_saying_that_it_stands_outside(
    view: HeightView, afternoon: AppState, qtbot: QtBot
) -> None:
    take_in_hand(view.steps, "carry_out")
    qtbot.keyClick(view.steps.rows, Qt.Key.Key_Space)
    assert afternoon.situation.outside_since == AFTERNOON
    assert item_of(afternoon, ItemKind.CARRY_OUT).is_done

    take_in_hand(view.steps, "carry_out")
    qtbot.keyClick(view.steps.rows, Qt.Key.Key_Space)
    assert afternoon.situation.outside_since is None


def test_return_gives_a_step_another_time_and_its_own_one_back(
    view: HeightView, afternoon: AppState, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    usual = item_of(afternoon, ItemKind.KIT).start
    answer_with(monkeypatch, StepAsked(wanted=Wanted.KEEP, at=EIGHT, text=None))
    take_in_hand(view.steps, "kit")
    qtbot.keyClick(view.steps.rows, Qt.Key.Key_Return)
    assert item_of(afternoon, ItemKind.KIT).start == EIGHT
    assert view.steps.rows.currentIndex().row() == view.steps.model.number_of("kit")

    answer_with(monkeypatch, StepAsked(wanted=Wanted.USUAL_TIME, at=EIGHT, text=None))
    qtbot.keyClick(view.steps.rows, Qt.Key.Key_Return)
    assert item_of(afternoon, ItemKind.KIT).start == usual


def test_a_target_or_the_stop_line_cannot_be_moved(
    view: HeightView, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown = answer_with(monkeypatch, None)
    for key in ("target:saturn", "stop"):
        take_in_hand(view.steps, key)
        assert not view.steps.change.isEnabled()
        qtbot.keyClick(view.steps.rows, Qt.Key.Key_Return)
    assert shown == []


def test_a_step_of_one_s_own_is_added_changed_and_taken_out(
    view: HeightView, afternoon: AppState, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    answer_with(monkeypatch, StepAsked(wanted=Wanted.KEEP, at=EIGHT, text="Tea for <b>two</b>"))
    qtbot.mouseClick(view.steps.add, Qt.MouseButton.LeftButton)
    tea = item_of(afternoon, ItemKind.OWN)
    assert tea.start == EIGHT
    assert "Tea for <b>two</b>" in [item.title for item in titled(afternoon.situation.evening_steps)]

    answer_with(
        monkeypatch, StepAsked(wanted=Wanted.KEEP, at=EIGHT + timedelta(minutes=30), text="Soup for two")
    )
    take_in_hand(view.steps, tea.key)
    qtbot.keyClick(view.steps.rows, Qt.Key.Key_Return)
    assert item_of(afternoon, ItemKind.OWN).start == EIGHT + timedelta(minutes=30)

    qtbot.keyClick(view.steps.rows, Qt.Key.Key_Delete)
    assert ItemKind.OWN not in [item.kind for item in afternoon.situation.evening_steps]


def test_the_form_takes_a_time_after_midnight_and_asks_for_words(
    qtbot: QtBot, afternoon: AppState, theme: object
) -> None:
    night = afternoon.situation.night
    assert night is not None
    clock = clock_of(afternoon.situation)
    assert clock is not None
    dialog = StepDialog(night, clock, "A step of your own", EIGHT, text="")
    qtbot.addWidget(dialog)
    dialog.time.setTime(QTime(1, 15))
    dialog.box.accepted.emit()
    assert dialog.problem.text() == "A step needs a word or two that say what to do."

    dialog.words.setText("  Cocoa ")
    dialog.box.accepted.emit()
    assert dialog.result() == StepDialog.DialogCode.Accepted
    assert dialog.asked == StepAsked(
        wanted=Wanted.KEEP, at=datetime(2026, 12, 6, 1, 15, tzinfo=UTC), text="Cocoa"
    )
    assert dialog.asked.at.astimezone(night.site.zone).time() == time(1, 15)


def test_readers_of_the_screen_hear_each_step_whole(view: HeightView) -> None:
    model = view.steps.model
    heard = [
        model.data(model.index(number), Qt.ItemDataRole.AccessibleTextRole)
        for number in range(model.rowCount())
    ]

    assert any("it blinds at once" in words for words in heard)
    assert all(words.endswith(".") for words in heard)
    assert view.steps.rows.accessibleName()
    assert view.steps.add.accessibleDescription()


def test_what_is_to_be_done_now_is_in_bold_and_scrolled_to(
    view: HeightView, afternoon: AppState, clock: HandClock
) -> None:
    def in_hand() -> list[str]:
        return [row.key for row in view.steps.model.rows if row.is_next]

    assert in_hand() == ["collimation"]

    clock.now = EIGHT
    afternoon.beat()
    assert in_hand() == ["target:saturn"]
    number = view.steps.model.number_of("target:saturn")
    assert number is not None
    assert view.steps.rows.visualRect(view.steps.model.index(number)).top() >= 0


def test_steps_stand_in_the_order_of_their_times_whatever_is_over(
    view: HeightView, afternoon: AppState, clock: HandClock
) -> None:
    take_in_hand(view.steps, "target:neptune")
    clock.now = EIGHT
    afternoon.beat()
    keys = [row.key for row in view.steps.model.rows]
    starts = {item.key: item.start for item in afternoon.situation.evening_steps}

    # The star test is over by then; Saturn began before it and is still on.
    assert keys.index("target:saturn") < keys.index("star_test")
    assert [starts[key] for key in keys] == sorted(starts.values())
    # What was in hand still is.
    assert keys[view.steps.rows.currentIndex().row()] == "target:neptune"


def test_near_the_stop_line_nothing_else_is_in_bold(
    view: HeightView, afternoon: AppState, clock: HandClock
) -> None:
    clock.now = datetime(2026, 12, 6, 7, 25, tzinfo=UTC)
    afternoon.beat()

    assert [row.key for row in view.steps.model.rows if row.is_next] == ["stop"]


def test_beside_the_chart_where_there_is_room_and_below_it_where_there_is_not(
    make_shell: Callable[..., Shell], afternoon: AppState, qtbot: QtBot
) -> None:
    shell = make_shell(afternoon, size=(1600, 1000))
    view = shell.current_view
    assert isinstance(view, HeightView)
    qtbot.waitUntil(lambda: view.steps.x() > view.canvas.geometry().right())

    shell.resize(1000, 640)
    qtbot.waitUntil(lambda: view.steps.y() > view.canvas.geometry().bottom())
    assert (shell.width(), shell.height()) == (1000, 640)
    # The chart keeps at least half of the view, and two steps are seen whole.
    qtbot.waitUntil(lambda: view.canvas.height() >= view.height() / 2)
    first, second = (view.steps.rows.visualRect(view.steps.model.index(number)) for number in (0, 1))
    assert first.top() >= 0
    assert second.bottom() <= view.steps.rows.viewport().height()
    # Each body still tells how high it is and where.
    saturn = view.cells[Body.SATURN]
    assert saturn.altitude.isVisible()
    assert saturn.direction.isVisible()
    assert "path 3.7" in saturn.toolTip()


def test_larger_letters_put_the_list_below_and_the_chart_keeps_its_half(
    make_shell: Callable[..., Shell], afternoon: AppState, theme: Theme, qtbot: QtBot
) -> None:
    shell = make_shell(afternoon, size=(1280, 800))
    view = shell.current_view
    assert isinstance(view, HeightView)
    qtbot.waitUntil(lambda: view.steps.x() > view.canvas.geometry().right())
    afternoon.set_text_scale(1.5)
    QApplication.processEvents()

    qtbot.waitUntil(lambda: view.steps.y() > view.canvas.geometry().bottom())
    assert view.canvas.height() >= view.height() / 2
