"""The Ladder view: rungs and limits, by hand and by key."""

from collections.abc import Callable
from datetime import UTC, date, datetime

import attrs
import numpy as np
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from core.air.first_look import FirstLook
from core.drawing.palette import load_palette
from core.gear.owned import Eyepiece
from core.record.observer import Profile
from core.sky.bodies import Body
from gui.gear.gives_panel import GivesPanel
from gui.ladder.view import LadderView
from gui.state import AppState
from tests.core.drawing.looking import rung_place
from tests.gui.conftest import make_profile, pixels


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


def test_the_rungs_stand_highest_first_and_the_start_is_in_hand(ladder_view: LadderView) -> None:
    # 1200 mm over 25, 10 and 8 mm, alone and doubled: geometric optics.
    assert powers(ladder_view) == [300, 240, 150, 120, 96, 48]
    assert in_hand(ladder_view).startswith("48x, 25 mm, begin here, pupil 3.1 mm")


def test_the_aim_is_told_with_its_time_and_height(ladder_view: LadderView, state: AppState) -> None:
    assert ladder_view.pane.heading.text() == "Jupiter at its best, 05:32"
    assert ladder_view.pane.detail.text() == "62° high, air path 1.1"
    state.set_planet(Body.SATURN)
    assert ladder_view.pane.heading.text() == "Saturn now, 21:42"
    state.set_time(datetime(2026, 12, 5, 20, 0, tzinfo=UTC))
    assert ladder_view.pane.heading.text() == "Saturn at 20:00"


def test_the_seconds_a_mount_takes_to_rest_are_granted_before_the_next_step(
    ladder_view: LadderView, state: AppState
) -> None:
    state.set_planet(Body.SATURN)
    six_inch, *others = state.profile.telescopes
    assert "let the mount settle, watch" in ladder_view.pane.next.text()

    timed = attrs.evolve(six_inch, settles_s=4)
    state.edit_profile("Change", attrs.evolve(state.profile, telescopes=(timed, *others)))

    assert "let the mount settle for 4 s, watch" in ladder_view.pane.next.text()


def test_keys_climb_the_ladder_and_the_words_follow(ladder_view: LadderView, state: AppState) -> None:
    # Jupiter is still to come.
    assert ladder_view.pane.next.text() == (
        "Once Jupiter is in sight, begin with 48x, 25 mm, and go on from there to 120x, 10 mm."
    )
    state.set_planet(Body.SATURN)
    ladder, key = ladder_view.canvas, Qt.Key
    assert ladder_view.focusProxy() is ladder
    QTest.keyClick(ladder, key.Key_Up)
    # Not 96x, for which a Barlow would have to go in: a power that shows something is reached without.
    assert in_hand(ladder_view).startswith("120x")
    assert ladder_view.pane.next.text().startswith("Next 150x, 8 mm: refocus")
    QTest.keyClick(ladder, key.Key_Up)
    # 240x comes next, and nothing in between.
    assert "you own nothing between 150x and 240x" in ladder_view.pane.next.text()
    QTest.keyClick(ladder, key.Key_Down)
    assert in_hand(ladder_view).startswith("120x")
    QTest.keyClick(ladder, key.Key_PageDown)
    assert in_hand(ladder_view).startswith("96x")
    QTest.keyClick(ladder, key.Key_PageUp)
    assert in_hand(ladder_view).startswith("120x")
    QTest.keyClick(ladder, key.Key_End)
    assert in_hand(ladder_view).startswith("300x")
    assert "step back to 150x" in ladder_view.pane.next.text()
    QTest.keyClick(ladder, key.Key_PageUp)
    assert in_hand(ladder_view).startswith("300x")
    QTest.keyClick(ladder, key.Key_Home)
    assert in_hand(ladder_view).startswith("48x")


def test_the_keyboard_on_the_ladder_is_shown(qtbot: QtBot, ladder_view: LadderView) -> None:
    ladder_view.air.lift.setFocus()
    without = pixels(ladder_view.canvas)
    ladder_view.canvas.setFocus()
    qtbot.waitUntil(ladder_view.canvas.hasFocus)
    assert np.any(pixels(ladder_view.canvas)[1, 1:-1] != without[1, 1:-1])


def test_the_drawing_tells_then_from_now(ladder_view: LadderView, state: AppState) -> None:
    def words() -> list[str]:
        ladder_view.canvas.ensure_drawn()
        assert ladder_view.canvas.chart is not None
        return [each.text for each in ladder_view.canvas.chart.drawing.words]

    assert "at its best, 05:32" in words()
    state.set_planet(Body.SATURN)
    assert "now, 21:42" in words()
    state.set_time(datetime(2026, 12, 5, 20, 0, tzinfo=UTC))
    assert "at 20:00" in words()


def test_a_click_on_the_drawing_takes_a_rung_in_hand(qtbot: QtBot, ladder_view: LadderView) -> None:
    chart = ladder_view.canvas.chart
    assert chart is not None
    rung = next(place.rung for place in chart.layouts[0].rungs if place.rung.power == 150)
    where = ladder_view.canvas.from_page(*rung_place(chart, rung))
    qtbot.mouseClick(ladder_view.canvas, Qt.MouseButton.LeftButton, pos=QPointF(*where).toPoint())
    assert in_hand(ladder_view).startswith("150x, 8 mm")


def test_the_rung_in_hand_stays_when_the_ladder_changes(ladder_view: LadderView, state: AppState) -> None:
    state.set_rung(150.0)
    state.set_first_look(FirstLook.BOILING)
    assert in_hand(ladder_view).startswith("150x, 8 mm")


def test_an_eyepiece_less_is_a_rung_less(ladder_view: LadderView, state: AppState) -> None:
    state.edit_profile("Remove", attrs.evolve(state.profile, eyepieces=state.profile.eyepieces[:1]))
    assert powers(ladder_view) == [96, 48]


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


def test_only_what_is_tried_out_stands_dashed_between_the_rungs(
    ladder_view: LadderView, state: AppState
) -> None:
    def words() -> set[str]:
        ladder_view.canvas.ensure_drawn()
        assert ladder_view.canvas.chart is not None
        return {each.text for each in ladder_view.canvas.chart.drawing.words}

    ladder_view.resize(1580, 760)
    # There is something to buy, but this night's rungs are those owned.
    assert state.situation.to_buy is not None
    assert "not owned" not in words()
    state.try_out(Eyepiece(name="6 mm", focal_length_mm=6))
    # 1200 / 6; it cannot be taken in hand.
    assert {"200x", "6 mm", "not owned"} <= words()
    assert 200 not in powers(ladder_view)
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


def test_without_an_eyepiece_every_part_asks_for_one(ladder_view: LadderView, state: AppState) -> None:
    state.set_planet(Body.SATURN)
    state.edit_profile("Remove", attrs.evolve(state.profile, eyepieces=()))
    ladder_view.canvas.ensure_drawn()

    assert ladder_view.canvas.chart is not None
    drawn = " ".join(each.text for each in ladder_view.canvas.chart.drawing.words)
    for told in (drawn, ladder_view.eyepiece.size_words.text(), ladder_view.pane.look_for.heading.text()):
        assert "Add an eyepiece in Gear" in told
    assert not ladder_view.pane.look_for.judged.isVisible()
    # No step is asked for where there is none to take.
    assert not ladder_view.pane.verdicts.isVisible()
    assert not ladder_view.pane.dark.isVisible()


def test_by_day_the_caution_stands_out_beside_what_is_offered(
    ladder_view: LadderView, state: AppState
) -> None:
    assert not ladder_view.pane.caution.isVisible()
    state.set_planet(Body.JUPITER)
    state.set_time(datetime(2026, 12, 6, 8, 30, tzinfo=UTC))  # the Sun has risen, Jupiter is still up

    caution = ladder_view.pane.caution
    assert caution.isVisible()
    assert caution.text().startswith("Jupiter stands ")
    assert caution.text().endswith("Sunlight through any optics blinds at once.")
    assert "Sun" not in ladder_view.pane.detail.text()
    # A bar of the caution's colour stands before the words.
    warning = QColor(load_palette("day").warning)
    assert (pixels(caution)[2:-2, 1] == (warning.red(), warning.green(), warning.blue())).all()
