"""Side by side: what two scopes show in the eyepiece."""

from collections.abc import Iterator

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.air.blur import Blur
from core.air.first_look import FirstLook
from core.sky.bodies import Body
from gui.gear.side_by_side import SideBySide
from gui.state import AppState
from gui.widgets.theme import Theme
from tests.gui.conftest import pixels
from tests.gui.gear_hand import GearHand

pytestmark = pytest.mark.usefixtures("theme")


@pytest.fixture
def hand(qtbot: QtBot, state: AppState) -> Iterator[GearHand]:
    state.set_planet(Body.SATURN)
    # Air in which the larger scope climbs higher: about 270x here, and 160x is the smaller one's own limit.
    state.set_blur(Blur(overhead_arcsec=0.7))
    hand = GearHand(qtbot, state, size=(1200, 700))
    yield hand
    hand.close()


@pytest.fixture
def page(hand: GearHand) -> SideBySide:
    hand.press(hand.view.gives.show_side_by_side)
    hand.press(hand.view.side_by_side.page_buttons.button(1))
    return hand.view.side_by_side


def powers(page: SideBySide) -> list[float]:
    steps = page.pair.steps
    assert steps is not None
    return [sight.power for sight, _ in steps.shown]


def test_each_scope_is_shown_at_the_power_to_climb_to(hand: GearHand, page: SideBySide) -> None:
    assert page.pair.isVisible()
    assert not page.canvas.isVisible()
    comparison = hand.state.situation.comparison
    assert comparison is not None
    assert powers(page) == [comparison.a.ladder.climb_to, comparison.b.ladder.climb_to]
    # 1200 mm over 8 mm; 600 mm over 10 mm, doubled.
    assert powers(page) == [150, 120]


def test_both_can_be_shown_at_the_same_power(hand: GearHand, page: SideBySide) -> None:
    lower = min(powers(page))
    assert page.pair.same_power.text() == f"Both at the same power, {lower:.0f}x"
    hand.qtbot.keyClick(page.pair.same_power, Qt.Key.Key_Space)
    assert powers(page) == [lower, lower]


def test_each_is_turned_as_its_scope_turns_it(page: SideBySide) -> None:
    lines = page.pair.words.text().splitlines()
    assert lines[0].startswith("Six-inch: Seen upside down")
    assert lines[1].startswith("Small refractor: Seen upside down")
    assert "Six-inch: At " in page.pair.canvas.accessibleDescription()


def test_the_drawing_follows_air_and_palette(hand: GearHand, page: SideBySide) -> None:
    steady = pixels(page.pair.canvas)
    hand.state.set_first_look(FirstLook.BOILING)
    assert np.any(pixels(page.pair.canvas) != steady)
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    Theme.of(app).wear("night")
    hand.state.set_palette("night")
    assert not np.any(pixels(page.pair)[..., 1:])
    assert pixels(page.pair.canvas)[..., 0].max() > 100


def test_beside_the_sun_there_is_a_caution_in_place_of_pictures(hand: GearHand, page: SideBySide) -> None:
    hand.state.set_planet(Body.MERCURY)
    assert not page.pair.canvas.isVisible()
    assert "Sunlight through any optics blinds at once." in page.pair.words.text()
    hand.state.set_planet(Body.SATURN)
    assert page.pair.canvas.isVisible()
