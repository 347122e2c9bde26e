"""The Ladder view and tonight's air: how it is said, what follows, and which limits bear."""

import attrs
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from core.air.first_look import FirstLook
from core.gear.owned import Filter
from gui.ladder.soft_view import SoftViewDialog
from gui.ladder.view import LadderView
from gui.state import AppState


def cell(view: LadderView, row: int, column: int) -> str:
    """Return what stands in the table of limits."""
    item = view.pane.limits.grid.itemAtPosition(row, column)
    label = item.widget() if item is not None else None
    assert isinstance(label, QLabel)
    return label.text()


def limits(view: LadderView) -> dict[str, str]:
    """Return the shown limits: name and power."""
    return {cell(view, row, 0): cell(view, row, 1) for row in range(3)}


def test_limits_and_ceiling_follow_the_first_look(qtbot: QtBot, ladder_view: LadderView) -> None:
    # 2x per mm, held at 300x; what 150 mm and the air bear together is far lower in boiling air.
    assert limits(ladder_view)["The aperture"] == "300x"
    assert limits(ladder_view)["The usual air"] == "300x"
    assert ladder_view.pane.limits.ceiling.text() == limits(ladder_view)["Aperture and air (seeing)"]
    usual = int(ladder_view.pane.limits.ceiling.text()[:-1])

    qtbot.mouseClick(ladder_view.air.first_look_buttons[FirstLook.BOILING], Qt.MouseButton.LeftButton)

    boiling = int(ladder_view.pane.limits.ceiling.text()[:-1])
    # The air is judged at the planet's height, so what it bears there is the design's check value of 118x
    # for 3 arcsec and 150 mm.
    assert boiling == pytest.approx(118, abs=1) != usual
    assert ladder_view.air.where.text() == "as seen at Jupiter's height, 62°"
    # 62 degrees is 1.13 times the air overhead, and 3 over 1.13 to the 0.6 is 2.79.
    assert ladder_view.air.blur.text() == "2.79"
    assert ladder_view.air.first_look_buttons[FirstLook.BOILING].isChecked()
    assert not ladder_view.air.first_look_buttons[FirstLook.STEADY].isChecked()
    assert "set by aperture and air (seeing), mostly the air" in ladder_view.pane.limits.note.text()


def test_the_air_is_taken_by_a_step_of_a_scale_with_words_beside_it(
    qtbot: QtBot, ladder_view: LadderView, state: AppState
) -> None:
    scales = ladder_view.air.scales
    scales.setFocus()
    qtbot.keyClick(scales, Qt.Key.Key_Down)
    qtbot.keyClick(scales, Qt.Key.Key_Down)

    assert scales.currentText() == "II of five: slight quivers, calm for seconds"
    # Step II is 1 arcsec at 62 degrees; 1.13 times the air to the 0.6 is 1.08, so 0.93 overhead.
    assert state.situation.blur.overhead_arcsec == pytest.approx(0.93, abs=0.005)
    assert not any(button.isChecked() for button in ladder_view.air.first_look_buttons.values())

    qtbot.mouseClick(ladder_view.air.first_look_buttons[FirstLook.FAIR], Qt.MouseButton.LeftButton)

    assert scales.currentText() == "by a scale"
    assert state.situation.first_look is FirstLook.FAIR


def test_no_first_look_is_ticked_while_the_air_is_assumed(ladder_view: LadderView) -> None:
    assert not any(button.isChecked() for button in ladder_view.air.first_look_buttons.values())
    assert "assumed" in cell(ladder_view, 2, 2)


def test_a_blur_may_be_typed_with_either_decimal_mark(
    qtbot: QtBot, ladder_view: LadderView, state: AppState
) -> None:
    ladder_view.air.blur.selectAll()
    qtbot.keyClicks(ladder_view.air.blur, "0,8")
    assert state.situation.blur.overhead_arcsec == 0.8
    qtbot.keyClick(ladder_view.air.blur, Qt.Key.Key_Return)
    ladder_view.air.blur.selectAll()
    # 1 would do, but is only the first digit of what is refused.
    qtbot.keyClicks(ladder_view.air.blur, "15")
    assert "from 0.2 to 8" in ladder_view.air.problem.text()
    assert state.situation.blur.overhead_arcsec == 0.8
    assert ladder_view.air.blur.text() == "15"
    qtbot.keyClick(ladder_view.air.blur, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert ladder_view.air.blur.text() == "0.8"
    assert ladder_view.air.problem.text() == ""


def test_the_usual_limit_is_lifted_for_the_night(
    qtbot: QtBot, ladder_view: LadderView, state: AppState
) -> None:
    state.set_first_look(FirstLook.STEADY)
    QTest.keyClick(ladder_view.air.lift, Qt.Key.Key_Space)
    assert limits(ladder_view)["The usual air"] == "400x"
    state.set_evening(state.situation.evening.replace(day=6))
    assert limits(ladder_view)["The usual air"] == "300x"
    assert not ladder_view.air.lift.isChecked()


def test_the_lifted_limit_is_said_aloud(ladder_view: LadderView, state: AppState) -> None:
    assert not ladder_view.pane.lifted.isVisible()
    state.set_usual_air(400.0)
    assert ladder_view.pane.lifted.isVisible()
    assert ladder_view.pane.lifted.text().startswith("The usual limit is lifted to 400x for tonight.")


def test_the_filter_that_is_in_is_picked_among_the_owners(
    qtbot: QtBot, ladder_view: LadderView, state: AppState
) -> None:
    assert not ladder_view.air.with_filter.isVisible()
    green = Filter(id="green", name="Green", wratten="58")
    state.edit_profile("Add filter", attrs.evolve(state.profile, filters=(green,)))
    assert ladder_view.air.with_filter.isVisible()
    assert ladder_view.air.filter.currentText() == "none"
    ladder_view.air.filter.setFocus()
    qtbot.keyClick(ladder_view.air.filter, Qt.Key.Key_Down)
    assert state.situation.filter_in == green


def test_why_it_is_soft_is_asked_by_a_bare_key(
    ladder_view: LadderView, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[SoftViewDialog] = []

    def ask(dialog: SoftViewDialog) -> None:
        asked.append(dialog)

    monkeypatch.setattr(SoftViewDialog, "exec", ask)
    QTest.keyClick(ladder_view.canvas, Qt.Key.Key_W)
    assert len(asked) == 1
