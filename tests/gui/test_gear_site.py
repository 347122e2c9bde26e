"""A site in the gear view: found by a town's name, its horizon dragged, its compass put right."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QAction
from pytestqt.qtbot import QtBot

from core.record.observer import Profile
from core.sky.bodies import Body
from core.sky.site import BlockedSky, Site, WarmAir
from core.words.owned_kinds import Kind
from gui.gear.horizon import HorizonPicture
from gui.gear.horizon_panel import HorizonPanel
from gui.gear.site_form import SiteForm
from gui.state import AppState
from tests.gui.conftest import pixels
from tests.gui.gear_hand import GearHand

pytestmark = pytest.mark.usefixtures("theme")


class SiteHand(GearHand):
    """A hand at the form of a site."""

    @property
    def form(self) -> SiteForm:
        form = self.view.form_column.form
        assert isinstance(form, SiteForm)
        return form

    @property
    def panel(self) -> HorizonPanel:
        return self.form.horizon

    @property
    def picture(self) -> HorizonPicture:
        return self.panel.picture

    @property
    def site(self) -> Site:
        assert self.state.situation.site is not None
        return self.state.situation.site

    def drag(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Drag from one azimuth and altitude to another, in steps as a mouse does."""
        first, last = self._pixel(start), self._pixel(end)
        self.qtbot.mousePress(self.picture, Qt.MouseButton.LeftButton, pos=first)
        for step in range(1, 5):
            self.qtbot.mouseMove(self.picture, first + (last - first) * step / 4)
        self.qtbot.mouseRelease(self.picture, Qt.MouseButton.LeftButton, pos=last)

    def add_to_sky(self, name: str) -> None:
        """Choose from the menu of what can be added."""
        found = [action for action in self.panel.add.menu().actions() if action.text() == name]
        assert len(found) == 1
        found[0].activate(QAction.ActionEvent.Trigger)

    def _pixel(self, place: tuple[float, float]) -> QPoint:
        sky = self.picture._map()
        return QPointF(sky.x(place[0]), sky.y(place[1])).toPoint()


@pytest.fixture
def hand(qtbot: QtBot, state: AppState) -> Iterator[SiteHand]:
    hand = SiteHand(qtbot, state, size=(1200, 900))
    hand.open("Back terrace")
    yield hand
    hand.close()


def minutes_in_sight(state: AppState, body: Body) -> float:
    night = state.situation.night
    assert night is not None
    return sum((window.end - window.start).total_seconds() / 60 for window in night.of(body).windows)


def test_a_raised_roof_takes_time_from_the_windows_at_once_and_is_one_step(hand: SiteHand) -> None:
    state = hand.state
    # The ridge from 190 to 260 degrees hides what is under 28; Saturn passes there in the evening.
    before_profile, before = state.profile, minutes_in_sight(state, Body.SATURN)
    steps = state.undo_stack.count()

    hand.drag((225, 28), (225, 60))

    (roof,) = hand.site.blocked
    assert roof.below_altitude_deg == pytest.approx(60, abs=1.5)
    assert (roof.azimuth_from_deg, roof.azimuth_to_deg, roof.what) == (190, 260, "roof ridge")
    assert minutes_in_sight(state, Body.SATURN) < before - 30
    assert "60" in str(hand.field("blocked").entry) or "61" in str(hand.field("blocked").entry)
    assert state.undo_stack.count() == steps + 1
    assert state.undo_stack.undoText() == "Shape the sky of Back terrace"

    hand.undo()
    assert state.profile == before_profile
    assert minutes_in_sight(state, Body.SATURN) == before
    assert "\t28\t" in str(hand.field("blocked").entry)
    assert hand.picture._sectors == before_profile.sites[0].blocked


def test_two_drags_are_two_steps(hand: SiteHand) -> None:
    steps = hand.state.undo_stack.count()
    hand.drag((225, 10), (235, 10))
    hand.drag((225, 10), (215, 10))
    assert hand.state.undo_stack.count() == steps + 2


def test_keys_on_one_thing_in_hand_are_one_step(hand: SiteHand) -> None:
    steps = hand.state.undo_stack.count()
    hand.picture.setFocus()
    hand.qtbot.keyClick(hand.picture, Qt.Key.Key_PageDown)
    for _press in range(4):
        hand.qtbot.keyClick(hand.picture, Qt.Key.Key_Up)
    assert hand.site.blocked[0].below_altitude_deg == 32
    assert hand.state.undo_stack.count() == steps + 1


def test_usual_things_are_added_where_the_sky_is_open_and_taken_away_again(hand: SiteHand) -> None:
    hand.add_to_sky("Trees")
    hand.add_to_sky("Warm air over a chimney")
    hand.add_to_sky("Heated roof")

    assert [sector.what for sector in hand.site.blocked] == ["roof ridge", "trees", "heated roof"]
    assert [sector.what for sector in hand.site.warm_air] == ["chimney"]
    assert hand.site.blocked[2].heated
    # The middle of a northern picture is south, which the ridge leaves open.
    trees = hand.site.blocked[1]
    assert trees.azimuth_from_deg <= 180 <= trees.azimuth_to_deg
    # What has just been added is in hand.
    assert hand.panel.told.text().startswith("heated roof: azimuth ")

    before = hand.profile
    hand.qtbot.keyClick(hand.picture, Qt.Key.Key_Delete)
    assert hand.profile == before  # a key alone is soon hit by a sleeve
    hand.qtbot.keyClick(hand.picture, Qt.Key.Key_Delete, Qt.KeyboardModifier.ControlModifier)
    assert [sector.what for sector in hand.site.blocked] == ["roof ridge", "trees"]
    assert not hand.panel.remove.isEnabled()
    hand.picture.choose(1)
    hand.press(hand.panel.remove)
    assert [sector.what for sector in hand.site.blocked] == ["roof ridge"]


def test_what_is_typed_in_the_table_shows_in_the_picture(hand: SiteHand) -> None:
    hand.field("warm_air").restore("90\t100\t45\tchimney")
    hand.field("warm_air").edited.emit()
    assert hand.picture._sectors[-1] == WarmAir(
        azimuth_from_deg=90, azimuth_to_deg=100, below_altitude_deg=45, what="chimney"
    )


def test_the_evenings_paths_stand_behind_and_follow_the_evening(hand: SiteHand) -> None:
    assert {track.body for track in hand.picture._tracks} >= {Body.SATURN, Body.MOON}
    before = pixels(hand.picture)
    hand.state.step_evening(10)
    assert (pixels(hand.picture) != before).any()
    # A southern site looks north, where the planets pass.
    hand.open("Southern hill")
    assert hand.picture._middle_deg == 0.0
    assert {track.body for track in hand.picture._tracks} >= {Body.SATURN, Body.MOON}


def test_the_picture_follows_the_palette(hand: SiteHand) -> None:
    hand.state.set_palette("night")
    plot = hand.picture._map().plot.toRect()
    inside = pixels(hand.picture)[plot.top() + 1 : plot.bottom(), plot.left() + 1 : plot.right()]
    assert inside[..., 0].any()
    assert not inside[..., 1:].any()


def test_a_compass_bearing_becomes_a_true_azimuth_for_an_edge(hand: SiteHand) -> None:
    hand.press(hand.panel.show_compass)
    compass = hand.panel.compass
    hand.qtbot.keyClicks(compass.bearing.editor, "215")
    hand.qtbot.keyClicks(compass.declination.editor, "3 W")
    # A needle that points 3 degrees west of true north reads 3 degrees too much.
    assert compass.told.text() == "True azimuth 212°"
    assert not compass.first.isEnabled()

    hand.picture.choose(0)
    hand.press(compass.first)
    assert (hand.site.blocked[0].azimuth_from_deg, hand.site.blocked[0].azimuth_to_deg) == (212, 260)
    compass.declination.restore("2,5")
    compass.declination.edited.emit()
    hand.press(compass.second)
    assert hand.site.blocked[0].azimuth_to_deg == 217.5

    compass.bearing.restore("400")
    compass.bearing.edited.emit()
    assert compass.bearing.message == "A bearing must be from 0 to 360 degrees, not “400”."
    assert compass.told.text() == "True azimuth"


def test_a_town_fills_in_the_place_as_one_step(hand: SiteHand) -> None:
    before = hand.state.profile
    hand.press(hand.form.towns.button)
    search = hand.form.towns.search
    assert search is not None
    hand.qtbot.keyClicks(search.line, "tromso")
    hand.qtbot.keyClick(search.line, Qt.Key.Key_Return)

    assert not search.isVisible()
    assert hand.site.name == "Back terrace"
    assert hand.site.latitude_deg == pytest.approx(69.65, abs=0.05)
    assert hand.site.time_zone == "Europe/Oslo"
    assert hand.state.undo_stack.undoText() == "Move Back terrace to Tromsø"
    hand.undo()
    assert hand.state.profile == before


def test_a_town_is_a_step_apart_from_what_was_typed_before(hand: SiteHand) -> None:
    hand.type("latitude_deg", "40")
    steps = hand.state.undo_stack.count()
    hand.press(hand.form.towns.button)
    search = hand.form.towns.search
    assert search is not None
    hand.qtbot.keyClicks(search.line, "tromso")
    hand.qtbot.keyClick(search.line, Qt.Key.Key_Return)
    assert hand.state.undo_stack.count() == steps + 1
    hand.undo()
    assert hand.site.latitude_deg == 40


def test_escape_closes_the_search_and_changes_nothing(hand: SiteHand) -> None:
    before = hand.state.profile
    hand.press(hand.form.towns.button)
    search = hand.form.towns.search
    assert search is not None
    hand.qtbot.keyClicks(search.line, "porto")
    hand.qtbot.keyClick(search.line, Qt.Key.Key_Escape)
    assert not search.isVisible()
    assert hand.focused() is hand.form.towns.button
    assert hand.state.profile == before


def test_a_new_site_is_made_of_a_town_and_a_few_clicks(
    qtbot: QtBot, make_state: Callable[..., AppState]
) -> None:
    hand = SiteHand(qtbot, make_state(Profile()), size=(1200, 900))
    hand.add(Kind.SITE)
    hand.add_to_sky("Shed or cold roof")
    hand.press(hand.form.towns.button)
    search = hand.form.towns.search
    assert search is not None
    hand.qtbot.keyClicks(search.line, "porto")
    hand.qtbot.keyClick(search.line, Qt.Key.Key_Return)

    (site,) = hand.profile.sites
    assert (site.name, site.time_zone) == ("Porto", "Europe/Lisbon")
    assert [sector.what for sector in site.blocked] == ["shed or cold roof"]
    assert isinstance(site.blocked[0], BlockedSky)
    hand.close()


def test_a_town_has_its_elevation_asked_for(hand: SiteHand) -> None:
    hand.press(hand.form.towns.button)
    search = hand.form.towns.search
    assert search is not None
    hand.qtbot.keyClicks(search.line, "tromso")
    hand.qtbot.keyClick(search.line, Qt.Key.Key_Return)
    assert "How high does Tromsø lie above the sea?" in hand.words()
    # The former place's 90 m is in hand, to be typed over.
    assert hand.focused() is hand.field("elevation_m").editor
    hand.qtbot.keyClicks(hand.field("elevation_m").editor, "10")
    assert hand.site.elevation_m == 10
    assert "above the sea?" not in hand.words()


def test_the_horizon_tells_from_where_it_is_measured(hand: SiteHand) -> None:
    assert "as high as the tube is" in hand.words()
