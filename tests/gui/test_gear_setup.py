"""From an empty profile to a correct ladder, with typed figures and nothing else."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from core.gear.owned import TelescopeKind
from core.record.observer import Profile
from core.words.owned_kinds import Kind
from gui.first_run.guide import Guide
from gui.state import AppState
from tests.gui.gear_hand import GearHand

pytestmark = pytest.mark.usefixtures("theme")


@pytest.fixture
def hand(qtbot: QtBot, make_state: Callable[..., AppState]) -> Iterator[GearHand]:
    hand = GearHand(qtbot, make_state(Profile(), sky=False))
    yield hand
    hand.close()


def test_a_new_profile_grows_into_a_correct_ladder(hand: GearHand) -> None:
    column = hand.view.form_column
    assert "Begin with where you observe" in hand.words()
    assert column.group_page.button.text() == "Add a site"
    hand.view.setFocus()
    assert hand.focused() is column.group_page.button

    hand.press(column.group_page.button)
    hand.type("name", "Back terrace")
    hand.type("latitude_deg", "41,15")
    hand.type("longitude_deg", "8.61 W")
    assert hand.profile.sites[0].time_zone == "Europe/Lisbon"

    hand.press(column.next.button)
    hand.type("name", "Six-inch")
    hand.choose("kind", "reflector")
    hand.type("aperture_mm", "150")
    hand.type("focal_length_mm", "f/8")
    assert "Add an eyepiece in Gear" in hand.words()

    hand.press(column.next.button)
    hand.type("focal_length", "25")
    hand.add(Kind.EYEPIECE)
    hand.type("focal_length", "10")
    hand.add(Kind.BARLOW)
    hand.type("factor", "2x")

    # Powers by hand: 1200 / 25 and 1200 / 10, each alone and twice that.
    assert hand.powers == ["48x 25 mm", "96x 25 mm + 2x", "120x 10 mm", "240x 10 mm + 2x"]
    assert not column.next.isVisible()
    site, scope = hand.profile.sites[0], hand.profile.telescopes[0]
    assert (site.name, site.latitude_deg, site.longitude_deg) == ("Back terrace", 41.15, -8.61)
    assert (scope.kind, scope.aperture_mm, scope.focal_length_mm) == (TelescopeKind.REFLECTOR, 150, 1200)


def test_a_thing_joins_the_profile_only_when_nothing_is_missing(hand: GearHand) -> None:
    hand.add(Kind.TELESCOPE)
    assert "Still needed: kind, aperture and focal length." in hand.words()

    hand.type("aperture_mm", "150")
    assert "  New telescope, unfinished" in hand.rows
    assert len(hand.profile.telescopes) == 0

    hand.type("focal_length_mm", "1200")
    assert "Still needed: kind." in hand.words()
    hand.choose("kind", "refractor")
    assert hand.rows[1] == "  150 mm refractor"
    assert hand.scope.focal_length_mm == 1200


def test_a_half_typed_new_thing_waits_while_others_are_open(hand: GearHand) -> None:
    hand.add(Kind.TELESCOPE)
    hand.type("aperture_mm", "150")
    hand.choose("kind", "catadioptric")
    hand.type("focal_length_mm", "many")
    hand.open("Eyepieces")
    hand.open("New telescope, unfinished")

    assert hand.field("aperture_mm").entry == "150"
    assert hand.field("kind").entry == "catadioptric"
    assert hand.field("focal_length_mm").entry == "many"
    assert "“many” is not a number" in hand.field("focal_length_mm").message

    hand.press(hand.view.owned.remove)
    assert "  New telescope, unfinished" not in hand.rows


def test_adding_a_thing_is_one_step_however_many_keys_it_took(hand: GearHand) -> None:
    hand.add(Kind.EYEPIECE)
    hand.type("focal_length", "12,5")
    assert [eyepiece.name for eyepiece in hand.profile.eyepieces] == ["12.5 mm"]
    assert hand.state.undo_stack.undoText() == "Add an eyepiece"

    hand.undo()
    assert hand.profile == Profile()
    hand.redo()
    assert hand.profile.eyepieces[0].focal_length_mm == 12.5


def test_an_instrument_with_its_own_power_is_entered_as_it_is_written(hand: GearHand) -> None:
    hand.add(Kind.TELESCOPE)
    hand.choose("kind", "fixed power")
    assert not hand.field("focal_length_mm").isVisible()

    hand.type("power", "20-60×80")

    assert hand.rows[1] == "  20-60x, 80 mm"
    scope = hand.profile.telescopes[0]
    assert (scope.power_min, scope.power_max, scope.aperture_mm) == (20, 60, 80)
    # Exit pupils by hand: 80 / 20 and 80 / 60.
    rungs = hand.state.situation.ladder.rungs if hand.state.situation.ladder else ()
    assert (rungs[0].exit_pupil_mm, round(rungs[-1].exit_pupil_mm, 2)) == (4.0, 1.33)
    # Only a site is lacking: such an instrument needs no eyepiece.
    assert hand.view.form_column.next.button.text() == "Add a site"


def test_the_time_zone_follows_the_place_until_it_is_typed(hand: GearHand) -> None:
    hand.add(Kind.SITE)
    hand.type("name", "Hill")
    hand.type("latitude_deg", "-41.3")
    hand.type("longitude_deg", "174.8")
    assert hand.profile.sites[0].time_zone == "Pacific/Auckland"

    hand.type("longitude_deg", "146.8")
    assert hand.profile.sites[0].time_zone == "Australia/Hobart"

    hand.type("time_zone", "Europe/Lisbon")
    hand.type("longitude_deg", "174.8")
    assert hand.profile.sites[0].time_zone == "Europe/Lisbon"


def test_a_wrong_zone_is_refused_with_the_likely_one_on_a_button(hand: GearHand) -> None:
    hand.add(Kind.SITE)
    hand.type("name", "Hill")
    hand.type("latitude_deg", "28.6")
    hand.type("longitude_deg", "77.2")
    hand.type("time_zone", "IST")
    hand.leave()
    assert hand.field("time_zone").message == "“IST” is not a time zone. Did you mean Asia/Kolkata?"
    assert hand.profile.sites[0].time_zone == "Asia/Kolkata"

    hand.qtbot.keyClick(hand.focused(), Qt.Key.Key_Space)
    assert hand.field("time_zone").entry == "Asia/Kolkata"
    assert hand.field("time_zone").message == ""


def test_after_a_guided_set_up_the_telescope_is_open(hand: GearHand) -> None:
    guide = Guide(hand.state, hand.view)
    guide.open()
    hand.qtbot.waitUntil(guide.isVisible)
    guide.scope.sizes.setCurrentRow(2)
    guide.eyepieces.barlows[2].click()
    guide.accept()

    (scope,) = hand.profile.telescopes
    assert hand.profile.barlows
    assert hand.view.form_column.form is not None
    assert hand.view.form_column.form.kind is Kind.TELESCOPE
    assert hand.field("name").entry == scope.name
