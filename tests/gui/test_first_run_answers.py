"""What a newcomer types in the set-up is taken, asked about or told, and one answer brings the next."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.gear.owned import TelescopeKind
from gui.first_run.guide import Guide
from gui.state import AppState
from tests.gui.guide_hand import CountingHand, click_size, newcomer, open_guide, pick_town


@pytest.fixture
def state() -> AppState:
    return newcomer()


@pytest.fixture
def guide(qtbot: QtBot, state: AppState) -> Guide:
    return open_guide(qtbot, state)


def owned_mm(state: AppState) -> list[float | None]:
    return [eyepiece.focal_length_mm for eyepiece in state.profile.eyepieces]


def leave_for_later(hand: CountingHand, guide: Guide) -> None:
    """Press Next twice: once to be told what is missing, once to pass all the same."""
    hand.click(guide.onward)
    assert "once more" in guide.told.text()
    hand.click(guide.onward)


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
