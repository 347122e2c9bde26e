"""A newcomer is set up with few clicks, by keyboard alone if wished, and nothing is lost half way."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from core.record.observer import Profile
from core.situation.choices import Choices
from gui.first_run.guide import Guide
from gui.jobs import AtOnce, Jobs
from gui.state import AppState
from gui.widgets.theme import Theme
from tests.gui.conftest import HandClock, make_profile
from tests.gui.fitting import faults
from tests.gui.guide_hand import CountingHand, click_size, newcomer, open_guide, pick_town


@pytest.fixture
def state() -> AppState:
    return newcomer()


@pytest.fixture
def guide(qtbot: QtBot, state: AppState) -> Guide:
    return open_guide(qtbot, state)


def test_a_six_item_kit_takes_at_most_40_clicks_and_fields(
    qtbot: QtBot, guide: Guide, state: AppState
) -> None:
    hand = CountingHand(qtbot)

    hand.type(guide.place.name, "Marta")
    pick_town(qtbot, hand, guide, "porto")
    click_size(hand, guide, qtbot, "Reflector, 150 mm (6 in), long")
    hand.click(guide.onward)
    hand.click(guide.eyepieces.eyepieces[6])
    hand.click(guide.eyepieces.eyepieces[15])
    hand.click(guide.eyepieces.barlows[2])
    hand.click(guide.onward)
    hand.click(guide.onward)

    profile = state.profile
    assert profile.observer == "Marta"
    assert [(site.name, site.time_zone) for site in profile.sites] == [("Porto", "Europe/Lisbon")]
    assert [scope.aperture_mm for scope in profile.telescopes] == [150]
    assert [eyepiece.focal_length_mm for eyepiece in profile.eyepieces] == [25, 15, 10, 6]
    assert [barlow.factor for barlow in profile.barlows] == [2]
    assert not guide.isVisible()
    assert hand.count <= 40
    ladder = state.situation.ladder
    assert ladder is not None
    # 1200 mm by 25, 15, 10 and 6 mm, each with and without 2x: simple division.
    assert [round(rung.power) for rung in ladder.rungs] == [48, 80, 96, 120, 160, 200, 240, 400]


def test_the_keyboard_alone_is_enough(qtbot: QtBot, guide: Guide, state: AppState) -> None:
    def focused() -> QWidget:
        widget = guide.focusWidget()
        assert widget is not None
        return widget

    qtbot.keyClicks(focused(), "Marta")
    qtbot.keyClick(focused(), Qt.Key.Key_Return)
    qtbot.keyClicks(focused(), "Tromso")
    qtbot.keyClick(focused(), Qt.Key.Key_Return)
    qtbot.keyClicks(focused(), "10")
    qtbot.keyClick(focused(), Qt.Key.Key_Return)
    qtbot.waitUntil(guide.scope.isVisible)
    qtbot.keyClick(focused(), Qt.Key.Key_Down)
    qtbot.keyClick(focused(), Qt.Key.Key_Return)
    qtbot.waitUntil(guide.eyepieces.isVisible)
    qtbot.keyClick(focused(), Qt.Key.Key_Space)
    qtbot.keyClick(focused(), Qt.Key.Key_Return)
    qtbot.keyClick(focused(), Qt.Key.Key_Return)

    assert not guide.isVisible()
    assert state.profile.observer == "Marta"
    assert [(site.name, site.elevation_m) for site in state.profile.sites] == [("Tromsø", 10)]
    assert len(state.profile.telescopes) == 1
    assert 4 in {eyepiece.focal_length_mm for eyepiece in state.profile.eyepieces}


def test_return_goes_on_from_typed_figures_once_they_are_whole(
    qtbot: QtBot, guide: Guide, state: AppState
) -> None:
    def type_and_return(text: str) -> None:
        line = guide.focusWidget()
        assert line is not None
        qtbot.keyClicks(line, text)
        qtbot.keyClick(line, Qt.Key.Key_Return)

    guide.place.latitude.setFocus()
    type_and_return("41.15 N")
    type_and_return("8.61 X")
    assert guide.place.isVisible()
    guide.place.longitude.clear()
    type_and_return("8.61 W")
    type_and_return("")
    qtbot.waitUntil(guide.scope.isVisible)

    guide.scope.aperture.setFocus()
    type_and_return("76")
    type_and_return("f/4")
    qtbot.waitUntil(guide.eyepieces.isVisible)

    guide.eyepieces.others.setFocus()
    type_and_return("6,3; 20")
    qtbot.waitUntil(guide.filters.isVisible)

    (scope,) = state.profile.telescopes
    assert (scope.aperture_mm, scope.focal_length_mm) == (76, 304)
    assert {6.3, 20} <= {eyepiece.focal_length_mm for eyepiece in state.profile.eyepieces}


def test_telescope_and_filters_come_with_their_words_about_the_sun(guide: Guide) -> None:
    def words(step: QWidget) -> str:
        return " ".join(label.text() for label in step.findChildren(QLabel))

    assert "Never point a telescope or its finder at the Sun" in words(guide.scope)
    assert "No filter here makes the Sun safe to look at" in words(guide.filters)


def test_going_back_keeps_every_answer(qtbot: QtBot, guide: Guide, state: AppState) -> None:
    hand = CountingHand(qtbot)
    pick_town(qtbot, hand, guide, "porto")
    click_size(hand, guide, qtbot, "Reflector, 130 mm")
    hand.click(guide.onward)
    hand.click(guide.eyepieces.eyepieces[5])
    hand.click(guide.back)
    hand.click(guide.back)
    hand.click(guide.onward)
    hand.click(guide.onward)

    assert guide.eyepieces.eyepieces[5].isChecked()
    assert [eyepiece.focal_length_mm for eyepiece in state.profile.eyepieces] == [25, 10, 5]


def test_closing_half_way_loses_nothing_and_is_one_step_to_take_back(
    qtbot: QtBot, guide: Guide, state: AppState
) -> None:
    hand = CountingHand(qtbot)
    pick_town(qtbot, hand, guide, "porto")
    click_size(hand, guide, qtbot, "Reflector, 130 mm")
    hand.click(guide.later)

    assert [site.name for site in state.profile.sites] == ["Porto"]
    assert [scope.aperture_mm for scope in state.profile.telescopes] == [130]
    state.undo_stack.undo()
    assert state.profile == Profile()


def test_going_on_later_keeps_what_was_there(qtbot: QtBot) -> None:
    profile = make_profile()
    state = AppState(Choices(profile=profile), clock=HandClock(), jobs=Jobs(AtOnce()))
    before = state.profile
    guide = Guide(state)
    qtbot.addWidget(guide)
    guide.show()
    hand = CountingHand(qtbot)

    for _step in guide.steps:
        hand.click(guide.onward)

    assert state.profile == before


def test_the_set_up_fits_a_small_screen_with_letters_twice_as_large(
    qtbot: QtBot, theme: Theme, state: AppState
) -> None:
    theme.wear("day", 2.0)
    guide = Guide(state)
    qtbot.addWidget(guide)
    guide.show()
    qtbot.waitExposed(guide)
    for step in guide.steps:
        guide._show(guide.steps.index(step))
        QApplication.processEvents()
        assert guide.minimumSizeHint().width() <= 1000
        assert guide.minimumSizeHint().height() <= 640


@pytest.mark.parametrize("scale", [1.0, 1.5, 2.0])
def test_no_step_asks_for_more_than_the_smallest_window(
    qtbot: QtBot, theme: Theme, state: AppState, scale: float
) -> None:
    theme.wear("day", scale)
    guide = Guide(state)
    qtbot.addWidget(guide)
    guide.show()
    qtbot.waitExposed(guide)
    for box in guide.eyepieces.eyepieces.values():
        box.click()
    for number in range(len(guide.steps)):
        guide._show(number)
        for _ in range(3):
            QApplication.processEvents()
        assert guide.width() <= 1000
        assert guide.height() <= 640
        assert list(faults(guide)) == []
