"""The Ladder view: rungs, limits and tonight's air, by hand and by key."""

from collections.abc import Callable
from datetime import UTC, date, datetime

import attrs
import numpy as np
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from core.air.first_look import FirstLook
from core.drawing.palette import load_palette
from core.gear.owned import Eyepiece, Filter
from core.record.observer import Profile
from core.sky.bodies import Body
from gui.gear.gives_panel import GivesPanel
from gui.ladder.soft_view import SoftViewDialog
from gui.ladder.view import LadderView
from gui.state import AppState
from tests.core.drawing.looking import rung_place
from tests.gui.conftest import make_profile, pixels
from tests.gui.showing import show


@pytest.fixture
def view(qtbot: QtBot, theme: object, state: AppState) -> LadderView:
    state.set_planet(Body.JUPITER)
    view = LadderView(state)
    show(qtbot, view, size=(1000, 520))
    view.canvas.ensure_drawn()
    return view


def powers(view: LadderView) -> list[int]:
    """Return the powers of the rungs that are drawn and may be taken in hand, highest first."""
    view.canvas.ensure_drawn()
    if view.canvas.chart is None:
        return []
    (layout,) = view.canvas.chart.layouts
    return [round(place.rung.power) for place in reversed(layout.rungs) if place.owned]


def in_hand(view: LadderView) -> str:
    """Return the rung in hand as a reader of the screen hears it."""
    return view.canvas.accessibleName().removeprefix("Power ladder, in hand: ")


def cell(view: LadderView, row: int, column: int) -> str:
    """Return what stands in the table of limits."""
    item = view.pane.limits.grid.itemAtPosition(row, column)
    label = item.widget() if item is not None else None
    assert isinstance(label, QLabel)
    return label.text()


def limits(view: LadderView) -> dict[str, str]:
    """Return the shown limits: name and power."""
    return {cell(view, row, 0): cell(view, row, 1) for row in range(3)}


def test_the_rungs_stand_highest_first_and_the_start_is_in_hand(view: LadderView) -> None:
    # 1200 mm over 25, 10 and 8 mm, alone and doubled: geometric optics.
    assert powers(view) == [300, 240, 150, 120, 96, 48]
    assert in_hand(view).startswith("48x, 25 mm, wide start, pupil 3.1 mm")


def test_the_aim_is_told_with_its_time_and_height(view: LadderView, state: AppState) -> None:
    assert view.pane.heading.text() == "Jupiter at its best, 05:32"
    assert view.pane.detail.text() == "62° high, air path 1.1"
    state.set_planet(Body.SATURN)
    assert view.pane.heading.text() == "Saturn now, 21:42"
    state.set_time(datetime(2026, 12, 5, 20, 0, tzinfo=UTC))
    assert view.pane.heading.text() == "Saturn at 20:00"


def test_limits_and_ceiling_follow_the_first_look(qtbot: QtBot, view: LadderView) -> None:
    # 2x per mm, held at 300x; what 150 mm and the air bear together is far lower in boiling air.
    assert limits(view)["The aperture"] == "300x"
    assert limits(view)["The usual air"] == "300x"
    assert view.pane.limits.ceiling.text() == limits(view)["Aperture and air (seeing)"]
    usual = int(view.pane.limits.ceiling.text()[:-1])

    qtbot.mouseClick(view.air.first_look_buttons[FirstLook.BOILING], Qt.MouseButton.LeftButton)

    boiling = int(view.pane.limits.ceiling.text()[:-1])
    # The air is judged at the planet's height, so what it bears there is the design's check value of 118x
    # for 3 arcsec and 150 mm.
    assert boiling == pytest.approx(118, abs=1) != usual
    assert view.air.where.text() == "as seen at Jupiter's height, 62°"
    # 62 degrees is 1.13 times the air overhead, and 3 over 1.13 to the 0.6 is 2.79.
    assert view.air.blur.text() == "2.79"
    assert view.air.first_look_buttons[FirstLook.BOILING].isChecked()
    assert not view.air.first_look_buttons[FirstLook.STEADY].isChecked()
    assert "set by tonight's air (seeing)" in view.pane.limits.note.text()


def test_the_air_is_taken_by_a_step_of_a_scale_with_words_beside_it(
    qtbot: QtBot, view: LadderView, state: AppState
) -> None:
    scales = view.air.scales
    scales.setFocus()
    qtbot.keyClick(scales, Qt.Key.Key_Down)
    qtbot.keyClick(scales, Qt.Key.Key_Down)

    assert scales.currentText() == "II of five: slight quivers, calm for seconds"
    # Step II is 1 arcsec at 62 degrees; 1.13 times the air to the 0.6 is 1.08, so 0.93 overhead.
    assert state.situation.blur.overhead_arcsec == pytest.approx(0.93, abs=0.005)
    assert not any(button.isChecked() for button in view.air.first_look_buttons.values())

    qtbot.mouseClick(view.air.first_look_buttons[FirstLook.FAIR], Qt.MouseButton.LeftButton)

    assert scales.currentText() == "by a scale"
    assert state.situation.first_look is FirstLook.FAIR


def test_the_seconds_a_mount_takes_to_rest_are_granted_before_the_next_step(
    view: LadderView, state: AppState
) -> None:
    state.set_planet(Body.SATURN)
    six_inch, *others = state.profile.telescopes
    assert "let the mount settle, watch" in view.pane.next.text()

    timed = attrs.evolve(six_inch, settles_s=4)
    state.edit_profile("Change", attrs.evolve(state.profile, telescopes=(timed, *others)))

    assert "let the mount settle for 4 s, watch" in view.pane.next.text()


def test_no_first_look_is_ticked_while_the_air_is_assumed(view: LadderView) -> None:
    assert not any(button.isChecked() for button in view.air.first_look_buttons.values())
    assert "assumed" in cell(view, 2, 2)


def test_a_blur_may_be_typed_with_either_decimal_mark(
    qtbot: QtBot, view: LadderView, state: AppState
) -> None:
    view.air.blur.selectAll()
    qtbot.keyClicks(view.air.blur, "0,8")
    assert state.situation.blur.overhead_arcsec == 0.8
    qtbot.keyClick(view.air.blur, Qt.Key.Key_Return)
    view.air.blur.selectAll()
    # 1 would do, but is only the first digit of what is refused.
    qtbot.keyClicks(view.air.blur, "15")
    assert "from 0.2 to 8" in view.air.problem.text()
    assert state.situation.blur.overhead_arcsec == 0.8
    assert view.air.blur.text() == "15"
    qtbot.keyClick(view.air.blur, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert view.air.blur.text() == "0.8"
    assert view.air.problem.text() == ""


def test_the_usual_limit_is_lifted_for_the_night(qtbot: QtBot, view: LadderView, state: AppState) -> None:
    state.set_first_look(FirstLook.STEADY)
    QTest.keyClick(view.air.lift, Qt.Key.Key_Space)
    assert limits(view)["The usual air"] == "400x"
    state.set_evening(state.situation.evening.replace(day=6))
    assert limits(view)["The usual air"] == "300x"
    assert not view.air.lift.isChecked()


def test_keys_climb_the_ladder_and_the_words_follow(view: LadderView, state: AppState) -> None:
    # Jupiter is still to come.
    assert view.pane.next.text() == "Once Jupiter is in sight, go on from here to 120x, 10 mm."
    state.set_planet(Body.SATURN)
    ladder, key = view.canvas, Qt.Key
    assert view.focusProxy() is ladder
    QTest.keyClick(ladder, key.Key_Up)
    # Not 96x, for which a Barlow would have to go in: a power that shows something is reached without.
    assert in_hand(view).startswith("120x")
    assert view.pane.next.text().startswith("Next 150x, 8 mm: refocus")
    QTest.keyClick(ladder, key.Key_Up)
    # 240x comes next, and nothing in between.
    assert "you own nothing between 150x and 240x" in view.pane.next.text()
    QTest.keyClick(ladder, key.Key_Down)
    assert in_hand(view).startswith("120x")
    QTest.keyClick(ladder, key.Key_PageDown)
    assert in_hand(view).startswith("96x")
    QTest.keyClick(ladder, key.Key_PageUp)
    assert in_hand(view).startswith("120x")
    QTest.keyClick(ladder, key.Key_End)
    assert in_hand(view).startswith("300x")
    assert "step back to 150x" in view.pane.next.text()
    QTest.keyClick(ladder, key.Key_PageUp)
    assert in_hand(view).startswith("300x")
    QTest.keyClick(ladder, key.Key_Home)
    assert in_hand(view).startswith("48x")


def test_the_keyboard_on_the_ladder_is_shown(qtbot: QtBot, view: LadderView) -> None:
    view.air.lift.setFocus()
    without = pixels(view.canvas)
    view.canvas.setFocus()
    qtbot.waitUntil(view.canvas.hasFocus)
    assert np.any(pixels(view.canvas)[1, 1:-1] != without[1, 1:-1])


def test_the_drawing_tells_then_from_now(view: LadderView, state: AppState) -> None:
    def words() -> list[str]:
        view.canvas.ensure_drawn()
        assert view.canvas.chart is not None
        return [each.text for each in view.canvas.chart.drawing.words]

    assert "at its best, 05:32" in words()
    state.set_planet(Body.SATURN)
    assert "now, 21:42" in words()
    state.set_time(datetime(2026, 12, 5, 20, 0, tzinfo=UTC))
    assert "at 20:00" in words()


def test_the_lifted_limit_is_said_aloud(view: LadderView, state: AppState) -> None:
    assert not view.pane.lifted.isVisible()
    state.set_usual_air(400.0)
    assert view.pane.lifted.isVisible()
    assert view.pane.lifted.text().startswith("The usual limit is lifted to 400x for tonight.")


def test_the_filter_that_is_in_is_picked_among_the_owners(
    qtbot: QtBot, view: LadderView, state: AppState
) -> None:
    assert not view.air.with_filter.isVisible()
    green = Filter(id="green", name="Green", wratten="58")
    state.edit_profile("Add filter", attrs.evolve(state.profile, filters=(green,)))
    assert view.air.with_filter.isVisible()
    assert view.air.filter.currentText() == "none"
    view.air.filter.setFocus()
    qtbot.keyClick(view.air.filter, Qt.Key.Key_Down)
    assert state.situation.filter_in == green


def test_why_it_is_soft_is_asked_by_a_bare_key(view: LadderView, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[SoftViewDialog] = []

    def ask(dialog: SoftViewDialog) -> None:
        asked.append(dialog)

    monkeypatch.setattr(SoftViewDialog, "exec", ask)
    QTest.keyClick(view.canvas, Qt.Key.Key_W)
    assert len(asked) == 1


def test_a_click_on_the_drawing_takes_a_rung_in_hand(qtbot: QtBot, view: LadderView) -> None:
    chart = view.canvas.chart
    assert chart is not None
    rung = next(place.rung for place in chart.layouts[0].rungs if place.rung.power == 150)
    where = view.canvas.from_page(*rung_place(chart, rung))
    qtbot.mouseClick(view.canvas, Qt.MouseButton.LeftButton, pos=QPointF(*where).toPoint())
    assert in_hand(view).startswith("150x, 8 mm")


def test_the_rung_in_hand_stays_when_the_ladder_changes(view: LadderView, state: AppState) -> None:
    state.set_rung(150.0)
    state.set_first_look(FirstLook.BOILING)
    assert in_hand(view).startswith("150x, 8 mm")


def test_an_eyepiece_less_is_a_rung_less(view: LadderView, state: AppState) -> None:
    state.edit_profile("Remove", attrs.evolve(state.profile, eyepieces=state.profile.eyepieces[:1]))
    assert powers(view) == [96, 48]


def test_without_a_telescope_it_says_what_comes_first(
    qtbot: QtBot, theme: object, make_state: Callable[..., AppState]
) -> None:
    view = LadderView(make_state(Profile()))
    qtbot.addWidget(view)
    view.show()
    assert "Add a telescope" in view.pane.limits.note.text()
    assert powers(view) == []


def test_without_a_site_the_ladder_points_overhead(
    qtbot: QtBot, theme: object, make_state: Callable[..., AppState]
) -> None:
    view = LadderView(make_state(attrs.evolve(make_profile(), sites=())))
    qtbot.addWidget(view)
    assert view.pane.heading.text() == "Straight overhead"
    assert len(powers(view)) == 6


def test_only_what_is_tried_out_stands_dashed_between_the_rungs(view: LadderView, state: AppState) -> None:
    def words() -> set[str]:
        view.canvas.ensure_drawn()
        assert view.canvas.chart is not None
        return {each.text for each in view.canvas.chart.drawing.words}

    view.resize(1580, 760)
    # There is something to buy, but this night's rungs are those owned.
    assert state.situation.to_buy is not None
    assert "not owned" not in words()
    state.try_out(Eyepiece(name="6 mm", focal_length_mm=6))
    # 1200 / 6; it cannot be taken in hand.
    assert {"200x", "6 mm", "not owned"} <= words()
    assert 200 not in powers(view)
    state.try_out(None)
    assert not {"200x", "not owned"} & words()


def test_where_nothing_is_offered_a_sentence_stands_in_place_of_the_rungs(
    qtbot: QtBot, theme: object, state: AppState
) -> None:
    view = LadderView(state)
    panel = GivesPanel(state)
    for widget in (view, panel):
        qtbot.addWidget(widget)
        widget.show()
    assert view.canvas.isVisible()

    # Mercury passes behind the Sun in these days.
    state.set_evening(date(2027, 1, 5))
    state.set_planet(Body.MERCURY)
    panel.refresh()

    assert not view.canvas.isVisible()
    assert view.nothing.isVisible()
    assert not view.canvas.isVisible()
    for words in (view.nothing.text(), panel.ceiling.text()):
        assert words.startswith("Mercury is up only while the Sun is up too")
        assert "in a dark sky" in words.lower(), "no next date"
        assert words.endswith("Sunlight through any optics blinds at once.")

    state.set_planet(Body.JUPITER)
    panel.refresh()
    assert view.canvas.isVisible()
    assert view.canvas.isVisible()
    assert panel.ceiling.text().startswith("Ceiling about")


def test_without_an_eyepiece_every_part_asks_for_one(view: LadderView, state: AppState) -> None:
    state.set_planet(Body.SATURN)
    state.edit_profile("Remove", attrs.evolve(state.profile, eyepieces=()))
    view.canvas.ensure_drawn()

    assert view.canvas.chart is not None
    drawn = " ".join(each.text for each in view.canvas.chart.drawing.words)
    for told in (drawn, view.eyepiece.size_words.text(), view.pane.look_for.heading.text()):
        assert "Add an eyepiece in Gear" in told
    assert not view.pane.look_for.judged.isVisible()
    # No step is asked for where there is none to take.
    assert not view.pane.verdicts.isVisible()
    assert not view.pane.dark.isVisible()


def test_by_day_the_caution_stands_out_beside_what_is_offered(view: LadderView, state: AppState) -> None:
    assert not view.pane.caution.isVisible()
    state.set_planet(Body.JUPITER)
    state.set_time(datetime(2026, 12, 6, 8, 30, tzinfo=UTC))  # the Sun has risen, Jupiter is still up

    caution = view.pane.caution
    assert caution.isVisible()
    assert caution.text().startswith("Jupiter stands ")
    assert caution.text().endswith("Sunlight through any optics blinds at once.")
    assert "Sun" not in view.pane.detail.text()
    # A bar of the caution's colour stands before the words.
    warning = QColor(load_palette("day").warning)
    assert (pixels(caution)[2:-2, 1] == (warning.red(), warning.green(), warning.blue())).all()
