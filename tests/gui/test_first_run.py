"""A newcomer is set up with few clicks, by keyboard alone if wished, and nothing is lost half way."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from core.gear.owned import TelescopeKind
from core.record.observer import Profile
from core.situation.choices import Choices
from gui.first_run.guide import Guide
from gui.jobs import AtOnce, Jobs
from gui.state import AppState
from gui.widgets.theme import Theme
from tests.gui.conftest import HandClock, make_profile
from tests.gui.fitting import faults


class CountingHand:
    """Clicks and types like a person, and counts each click and each field typed into."""

    def __init__(self, qtbot: QtBot) -> None:
        self._qtbot = qtbot
        self.count = 0

    def click(self, widget: QWidget) -> None:
        self.count += 1
        self._qtbot.mouseClick(widget, Qt.MouseButton.LeftButton)

    def type(self, line: QWidget, text: str) -> None:
        self.count += 1
        line.setFocus()
        self._qtbot.keyClicks(line, text)


@pytest.fixture
def state() -> AppState:
    return AppState(Choices(profile=Profile()), clock=HandClock(), jobs=Jobs(AtOnce()))


@pytest.fixture
def guide(qtbot: QtBot, state: AppState) -> Guide:
    guide = Guide(state)
    qtbot.addWidget(guide)
    guide.show()
    qtbot.waitExposed(guide)
    return guide


def click_size(hand: CountingHand, guide: Guide, qtbot: QtBot, begins: str) -> None:
    sizes = guide.scope.sizes
    row = next(row for row in range(sizes.count()) if sizes.item(row).text().startswith(begins))
    hand.count += 1
    place = sizes.visualItemRect(sizes.item(row)).center()
    qtbot.mouseClick(sizes.viewport(), Qt.MouseButton.LeftButton, pos=place)


def owned_mm(state: AppState) -> list[float | None]:
    return [eyepiece.focal_length_mm for eyepiece in state.profile.eyepieces]


def pick_town(qtbot: QtBot, hand: CountingHand, guide: Guide, text: str) -> None:
    hand.type(guide.place.search.line, text)
    qtbot.keyClick(guide.place.search.line, Qt.Key.Key_Return)
    # Return never jumps: the elevation, which the list of towns does not have, is asked first.
    assert guide.focusWidget() is guide.place.elevation.editor
    qtbot.keyClick(guide.place.elevation.editor, Qt.Key.Key_Return)
    qtbot.waitUntil(guide.scope.isVisible)


def leave_for_later(hand: CountingHand, guide: Guide) -> None:
    """Press Next twice: once to be told what is missing, once to pass all the same."""
    hand.click(guide.onward)
    assert "once more" in guide.told.text()
    hand.click(guide.onward)


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


def test_own_figures_win_over_a_size_that_was_picked(qtbot: QtBot, guide: Guide, state: AppState) -> None:
    hand = CountingHand(qtbot)
    leave_for_later(hand, guide)
    click_size(hand, guide, qtbot, "Reflector, 200 mm")

    hand.type(guide.scope.aperture.editor, "4½ in")
    hand.type(guide.scope.focal_length.editor, "f/8")

    (scope,) = state.profile.telescopes
    assert scope.kind is TelescopeKind.REFLECTOR
    assert scope.aperture_mm == pytest.approx(114.3)
    assert scope.focal_length_mm == pytest.approx(914.4)


def test_a_spotting_scope_is_taken_as_written_on_its_body(
    qtbot: QtBot, guide: Guide, state: AppState
) -> None:
    hand = CountingHand(qtbot)
    leave_for_later(hand, guide)
    hand.click(guide.scope.kinds[TelescopeKind.FIXED])
    hand.type(guide.scope.power.editor, "15-45x60")

    (scope,) = state.profile.telescopes
    assert (scope.power_min, scope.power_max, scope.aperture_mm) == (15, 45, 60)


def test_coordinates_bring_their_own_clock(qtbot: QtBot, guide: Guide, state: AppState) -> None:
    hand = CountingHand(qtbot)
    hand.type(guide.place.latitude, "27,7 N")
    hand.type(guide.place.longitude, "85 18 00 E")

    (site,) = state.profile.sites
    assert (site.latitude_deg, site.longitude_deg) == pytest.approx((27.7, 85.3))
    assert site.time_zone == "Asia/Kathmandu"


def test_coordinates_that_are_none_are_told_and_stay_as_typed(
    qtbot: QtBot, guide: Guide, state: AppState
) -> None:
    hand = CountingHand(qtbot)
    hand.type(guide.place.latitude, "95")
    hand.type(guide.place.longitude, "10")

    assert guide.place.chosen.text() == "latitude: must be from -90 to 90 degrees, not 95"
    assert guide.place.latitude.text() == "95"
    assert state.profile.sites == ()


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


def test_no_telescope_is_taken_before_one_is_picked(qtbot: QtBot, guide: Guide, state: AppState) -> None:
    def owned() -> list[str]:
        return [scope.name for scope in state.profile.telescopes]

    hand = CountingHand(qtbot)
    pick_town(qtbot, hand, guide, "porto")
    assert guide.focusWidget() is guide.scope.sizes
    assert owned() == []
    # Return takes the one that the keyboard is at.
    qtbot.keyClick(guide.scope.sizes, Qt.Key.Key_Return)
    qtbot.waitUntil(guide.eyepieces.isVisible)
    assert owned() == ["Tabletop reflector, 75 mm (3 in)"]


def test_a_filter_is_found_by_the_name_that_people_say(qtbot: QtBot, guide: Guide, state: AppState) -> None:
    def type_and_return(text: str) -> None:
        guide.filters.name.clear()
        qtbot.keyClicks(guide.filters.name, text)
        qtbot.keyClick(guide.filters.name, Qt.Key.Key_Return)

    guide._show(guide.steps.index(guide.filters))
    type_and_return("light blue")
    type_and_return("Moon filter")
    type_and_return("25A")
    assert [each.wratten for each in state.profile.filters] == ["25", "82A", "96-0.9"]
    assert "Ticked: No. 25, red." in guide.filters.found.text()

    type_and_return("my own")
    assert "goes by “my own”" in guide.filters.found.text()
    assert len(state.profile.filters) == 3


def test_next_takes_the_one_town_that_is_meant_and_asks_about_several(
    qtbot: QtBot, guide: Guide, state: AppState
) -> None:
    hand = CountingHand(qtbot)
    hand.type(guide.place.search.line, "london")
    hand.click(guide.onward)
    assert guide.place.isVisible()
    assert guide.told.text() == "“london” may be one of several towns: choose it in the list."
    hand.click(guide.onward)
    assert guide.place.isVisible()
    assert guide.place.search.line.text() == "london"

    guide.place.search.line.clear()
    hand.type(guide.place.search.line, "matsum")
    assert guide.told.text() == ""
    hand.click(guide.onward)
    assert guide.scope.isVisible()
    assert [site.name for site in state.profile.sites] == ["Matsumoto"]

    hand.click(guide.back)
    guide.place.search.line.clear()
    hand.type(guide.place.search.line, "Nowhere at all")
    hand.click(guide.onward)
    assert guide.place.isVisible()
    assert "has the name “Nowhere at all”" in guide.told.text()


def test_next_says_which_half_of_an_answer_is_missing(qtbot: QtBot, guide: Guide, state: AppState) -> None:
    hand = CountingHand(qtbot)
    hand.type(guide.place.latitude, "41.15")
    hand.click(guide.onward)
    assert guide.told.text() == "The longitude is missing."
    hand.type(guide.place.longitude, "-8.61")
    hand.type(guide.place.elevation.editor, "high")
    hand.click(guide.onward)
    assert guide.place.isVisible()
    assert "“high” is not a number" in guide.told.text()
    guide.place.elevation.editor.clear()
    hand.type(guide.place.elevation.editor, "90")
    hand.click(guide.onward)
    assert [site.elevation_m for site in state.profile.sites] == [90]

    hand.type(guide.scope.aperture.editor, "150")
    hand.click(guide.onward)
    assert guide.scope.isVisible()
    assert guide.told.text().startswith("The focal length is missing.")
    hand.type(guide.scope.focal_length.editor, "f/8")
    hand.click(guide.onward)
    assert [scope.focal_length_mm for scope in state.profile.telescopes] == [1200]

    hand.type(guide.eyepieces.others.editor, "many")
    hand.click(guide.onward)
    assert guide.eyepieces.isVisible()
    assert "“many” is not a number" in guide.told.text()


def test_closing_takes_what_reads_and_tells_once_what_does_not(
    qtbot: QtBot, guide: Guide, state: AppState
) -> None:
    hand = CountingHand(qtbot)
    hand.type(guide.place.search.line, "matsum")
    hand.click(guide.onward)
    hand.type(guide.scope.aperture.editor, "150")
    hand.click(guide.later)
    assert guide.isVisible()
    assert "Close once more to leave without it" in guide.told.text()
    qtbot.keyClick(guide, Qt.Key.Key_Escape)
    assert not guide.isVisible()
    assert [site.name for site in state.profile.sites] == ["Matsumoto"]


def test_what_came_with_another_scope_is_not_ticked_any_more(
    qtbot: QtBot, guide: Guide, state: AppState
) -> None:
    hand = CountingHand(qtbot)
    leave_for_later(hand, guide)
    click_size(hand, guide, qtbot, "Reflector, 150 mm (6 in), long")
    # Nobody has seen the eyepieces yet.
    assert owned_mm(state) == []
    hand.click(guide.onward)
    hand.click(guide.eyepieces.eyepieces[6])
    assert owned_mm(state) == [25, 10, 6]
    hand.click(guide.back)
    hand.type(guide.scope.aperture.editor, "114")
    hand.type(guide.scope.focal_length.editor, "870")
    hand.click(guide.onward)
    assert owned_mm(state) == [6]


def test_a_size_of_another_kind_is_no_answer_any_more(qtbot: QtBot, guide: Guide, state: AppState) -> None:
    hand = CountingHand(qtbot)
    leave_for_later(hand, guide)
    click_size(hand, guide, qtbot, "Reflector, 150 mm (6 in), long")
    owned = [len(state.profile.telescopes)]
    hand.click(guide.scope.kinds[TelescopeKind.REFRACTOR])
    assert [*owned, len(state.profile.telescopes)] == [1, 0]


def test_usual_sizes_tell_their_focal_lengths(guide: Guide) -> None:
    sizes = [guide.scope.sizes.item(row).text() for row in range(guide.scope.sizes.count())]
    assert "Reflector, 150 mm (6 in), long: 1200 mm, f/8" in sizes
    assert all("mm, f/" in size for size in sizes)


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


def test_typed_figures_of_a_usual_size_tick_what_comes_in_its_box(
    qtbot: QtBot, guide: Guide, state: AppState
) -> None:
    hand = CountingHand(qtbot)
    guide._show(1)
    hand.type(guide.scope.aperture.editor, "130")
    hand.type(guide.scope.focal_length.editor, "650")
    typed = guide.scope.kit
    assert typed is not None
    guide._show(2)
    ticked = [length for length, box in guide.eyepieces.eyepieces.items() if box.isChecked()]
    assert ticked == sorted(typed.eyepieces_mm)
    assert ticked

    guide._show(1)
    guide.scope.focal_length.editor.selectAll()
    hand.type(guide.scope.focal_length.editor, "777")
    assert guide.scope.kit is None, "no such tube is usual"


def test_towns_of_one_degree_are_told_apart_in_the_list(guide: Guide) -> None:
    search = guide.place.search
    search._search("Nea")
    rows = [search.list.item(number).text() for number in range(search.list.count())]
    places = [row.rpartition("   ")[2] for row in rows]
    assert len(places) > 1
    assert len(set(places)) == len(places)


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
