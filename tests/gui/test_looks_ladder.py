"""In the Ladder view: the picture in the eyepiece, its words, and what to look for."""

from collections.abc import Callable
from datetime import UTC, date, datetime

import attrs
import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from core.air.first_look import FirstLook
from core.gear.owned import Diagonal, Filter
from core.record.observer import RedSpot
from core.situation.choices import Choices
from core.sky.bodies import Body
from core.words.eyepiece import PICTURE_LIMITS
from gui.jobs import Jobs
from gui.ladder.climb_pane import LIMITS, LOOK_FOR
from gui.ladder.view import LadderView
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.plain_label import PlainLabel
from tests.gui.conftest import HandClock, MakeLadderView, make_profile, pixels
from tests.gui.later import Later

JUPITER_AT = datetime(2026, 12, 6, 5, 0, tzinfo=UTC)


@pytest.fixture
def view(make_ladder_view: MakeLadderView, state: AppState) -> LadderView:
    state.set_planet(Body.SATURN)
    return make_ladder_view(state)


def close_up(view: LadderView) -> NDArray[np.uint8]:
    """Return the enlarged picture as it is on the screen, as bright as its brightest colour."""
    canvas = view.eyepiece.canvas
    shown = pixels(canvas).max(axis=2)
    assert canvas.drawing is not None
    (box,) = canvas.drawing.close_ups
    left, top = canvas.from_page(box.left, box.top)
    right, bottom = canvas.from_page(box.right, box.bottom)
    return np.asarray(shown[round(top) + 2 : round(bottom) - 2, round(left) + 2 : round(right) - 2])


def step_place(view: LadderView, number: int) -> QPointF:
    """Return where a small picture is, counted from the lowest power."""
    canvas = view.eyepiece.canvas
    canvas.ensure_drawn()
    assert canvas.drawing is not None
    _, box = canvas.drawing.steps[number]
    return QPointF(*canvas.from_page(*box.middle))


def test_a_rung_changes_the_picture_and_the_words(view: LadderView) -> None:
    low, low_words = close_up(view), view.eyepiece.size_words.text()

    QTest.keyClick(view.canvas, Qt.Key.Key_PageUp)

    assert np.any(low != close_up(view))
    # 18.6 arcsec (Saturn's equator on this day, from the almanac's semidiameter) is 15′ at 48x, 30′ at 96x,
    # and the Moon has 31′.
    assert low_words.startswith("At 48x Saturn looks 15′ across")
    assert "half as wide as the Moon to the naked eye" in low_words
    assert view.eyepiece.size_words.text().startswith("At 96x Saturn looks 30′ across")
    assert "as wide as the Moon to the naked eye" in view.eyepiece.size_words.text()


def test_a_click_on_a_small_picture_takes_its_rung_in_hand(qtbot: QtBot, view: LadderView) -> None:
    view.resize(1580, 760)
    qtbot.mouseClick(view.eyepiece.canvas, Qt.MouseButton.LeftButton, pos=step_place(view, 3).toPoint())

    assert view.canvas.accessibleName().startswith("Power ladder, in hand: 150x")
    assert view.eyepiece.size_words.text().startswith("At 150x")


def test_worse_air_makes_a_softer_picture(view: LadderView, state: AppState) -> None:
    def steepest(picture: NDArray[np.uint8]) -> int:
        return int(np.abs(np.diff(picture[10 : len(picture) // 2].astype(int), axis=1)).max())

    state.set_rung(150.0)
    state.set_first_look(FirstLook.STEADY)
    steady = close_up(view)
    state.set_first_look(FirstLook.BOILING)

    assert steepest(close_up(view)) < 0.8 * steepest(steady)


def test_a_calm_moment_is_one_key_away_and_shows_a_sharper_picture(view: LadderView, state: AppState) -> None:
    def detail(picture: NDArray[np.uint8]) -> float:
        return float(np.abs(np.diff(picture[10 : len(picture) // 2].astype(int), axis=1)).max())

    state.set_rung(150.0)
    state.set_first_look(FirstLook.BOILING)
    mostly, calm = view.eyepiece.moments.buttons.values()
    assert mostly.isChecked()
    as_mostly = detail(close_up(view))

    calm.setFocus()
    QTest.keyClick(calm, Qt.Key.Key_Space)

    assert detail(close_up(view)) > 1.03 * as_mostly
    assert calm.isChecked()
    assert not mostly.isChecked()
    QTest.keyClick(calm, Qt.Key.Key_Left)
    assert mostly.isChecked()
    assert detail(close_up(view)) == as_mostly


def test_jupiter_s_moons_are_named_in_the_picture_and_in_words(
    make_ladder_view: MakeLadderView, state: AppState
) -> None:
    state.set_planet(Body.JUPITER)
    state.set_time(JUPITER_AT)
    # In the wide field of a low power they crowd, and only the planet is named.
    state.set_rung(150.0)
    view = make_ladder_view(state, size=(1600, 900))

    canvas = view.eyepiece.canvas
    canvas.ensure_drawn()
    assert canvas.drawing is not None
    words = canvas.drawing.drawing.words
    told = view.eyepiece.way_words.text().split("Its moons from left to right: ")[1].split(".")[0].split(", ")

    assert sorted(told) == ["Callisto", "Europa", "Ganymede", "Io", "Jupiter"]
    places = {word.text[0]: word.x for word in words if word.text in (*told, "I", "E", "G", "C")}
    assert len(places) >= 3
    in_order = sorted(places, key=places.__getitem__)
    assert in_order == [name[0] for name in told if name[0] in places]


@pytest.mark.parametrize(
    ("diagonal", "words"),
    [
        (Diagonal.ERECT, "Seen the right way up, north at 1 o'clock; it drifts towards 4 o'clock."),
        (Diagonal.NONE, "Seen upside down, north at 7 o'clock; it drifts towards 10 o'clock."),
        (
            Diagonal.STAR,
            "Seen the right way up, but mirror-reversed left to right, north at 11 o'clock; it drifts",
        ),
    ],
)
def test_the_diagonal_turns_picture_and_words(
    diagonal: Diagonal, words: str, make_ladder_view: MakeLadderView, state: AppState
) -> None:
    """Saturn in the south-west: for who faces it, the pole lies up and to the right, and it sets that way."""
    state.set_planet(Body.SATURN)
    six, small = state.profile.telescopes
    state.set_scope(small.id)
    scopes = (six, attrs.evolve(small, diagonal=diagonal))
    state.edit_profile("Turn", attrs.evolve(state.profile, telescopes=scopes))

    view = make_ladder_view(state)

    assert view.eyepiece.way_words.text().startswith(words)


def test_a_reflector_says_that_the_way_up_is_the_observer_s(view: LadderView, state: AppState) -> None:
    assert "what is up depends on where you stand" in view.eyepiece.way_words.text()
    state.set_scope(state.profile.telescopes[1].id)
    assert "where you stand" not in view.eyepiece.way_words.text()


def test_colours_are_told_only_where_they_limit(make_ladder_view: MakeLadderView, state: AppState) -> None:
    """At 16 degrees blue and red stand 2.9 arcsec apart (Filippenko 1982), more than aperture and air."""
    state.set_planet(Body.SATURN)
    view = make_ladder_view(state)
    state.set_first_look(FirstLook.STEADY)
    assert "colours" not in view.eyepiece.way_words.text()

    state.set_time(datetime(2026, 12, 6, 0, 40, tzinfo=UTC))

    assert "spreads its colours by" in view.eyepiece.way_words.text()
    assert "450 to 650 nm" in view.eyepiece.way_words.text()


def test_what_the_picture_leaves_out_is_one_key_away(
    view: LadderView, monkeypatch: pytest.MonkeyPatch
) -> None:
    told: list[str] = []
    monkeypatch.setattr(dialogs, "show_text", lambda _parent, *parts: told.append("\n".join(parts)))

    view.eyepiece.limits.setFocus()
    QTest.keyClick(view.eyepiece.limits, Qt.Key.Key_Space)

    assert all(sentence in told[0] for sentence in PICTURE_LIMITS)


def test_a_reader_of_the_screen_hears_size_and_way(view: LadderView) -> None:
    canvas = view.eyepiece.canvas
    assert canvas.accessibleName() == "In the eyepiece at 48x"
    assert "half as wide as the Moon" in canvas.accessibleDescription()
    assert "Seen upside down" in canvas.accessibleDescription()


def test_by_night_every_pixel_of_every_page_is_red(qtbot: QtBot, view: LadderView, state: AppState) -> None:
    from gui.widgets.theme import Theme

    app = QApplication.instance()
    assert isinstance(app, QApplication)
    Theme.of(app).wear("night")
    state.set_palette("night")
    view.canvas.setFocus()
    for widget in (view.canvas, view.eyepiece, view.pane):
        # Not the whole window: a pane of red lies over it that would hide a fault.
        shown = pixels(widget)
        assert shown[..., 1:].max() == 0
        assert shown[..., 0].max() > 150


def test_what_to_look_for_follows_planet_and_air(make_ladder_view: MakeLadderView, state: AppState) -> None:
    state.set_planet(Body.SATURN)
    view = make_ladder_view(state)
    told = view.pane.look_for.accessibleDescription()
    assert view.pane.look_for.heading.text() == "What to look for on Saturn with Six-inch: an estimate"
    # The ring is 6 degrees open on this day: a shape, but its gap is a short stroke.
    assert "Likely: The ring, as a shape around the globe" in told
    assert "Likely: The gap in the ring" not in told

    state.set_first_look(FirstLook.BOILING)
    assert "Likely: The gap in the ring" not in view.pane.look_for.accessibleDescription()
    assert view.pane.look_for.accessibleDescription() != told
    state.set_planet(Body.MARS)
    assert "polar cap" in view.pane.look_for.accessibleDescription()


def test_what_is_unlikely_is_told_in_one_short_line(
    make_ladder_view: MakeLadderView, state: AppState
) -> None:
    state.set_planet(Body.MARS)
    view = make_ladder_view(state)

    lines = [label.text() for label in view.pane.look_for.findChildren(PlainLabel) if label.isVisible()]

    assert view.pane.look_for.judged.text().startswith("Judged at 150x, which shows the eye detail from")
    unlikely = lines.index("Unlikely")
    assert lines[unlikely + 1] == "The southern polar cap: it is turned away from us."
    assert lines.index("Likely") < unlikely
    assert "Likely" not in lines[unlikely:]


def test_the_red_spot_is_painted_where_its_owner_has_it(
    make_ladder_view: MakeLadderView, state: AppState
) -> None:
    state.set_planet(Body.JUPITER)
    state.set_time(JUPITER_AT)
    state.set_first_look(FirstLook.STEADY)
    view = make_ladder_view(state)
    state.set_rung(150.0)
    without = close_up(view)
    appearance = state.situation.appearance_through(state.situation.ladder)
    assert appearance is not None
    facing = appearance.subject.disc.central_meridian_deg("II")
    assert facing is not None

    spot = RedSpot(longitude_deg=facing, on=date(2026, 12, 1))
    state.edit_profile("Spot", attrs.evolve(state.profile, red_spot=spot))

    assert np.any(close_up(view) != without)


def test_beside_the_sun_there_is_a_caution_and_no_picture(
    make_ladder_view: MakeLadderView, state: AppState
) -> None:
    state.set_planet(Body.MERCURY)
    view = make_ladder_view(state)
    assert not view.eyepiece.canvas.isVisible()
    assert "Sunlight through any optics blinds at once." in view.eyepiece.size_words.text()
    assert view.pane.look_for.accessibleDescription() == ""


def test_without_a_site_each_page_says_what_comes_first(
    make_ladder_view: MakeLadderView, make_state: Callable[..., AppState]
) -> None:
    view = make_ladder_view(make_state(attrs.evolve(make_profile(), sites=())))
    assert not view.eyepiece.canvas.isVisible()
    assert view.eyepiece.size_words.text().startswith("Choose a site and a planet")


@pytest.mark.parametrize("size", [(1580, 760), (976, 430)])
def test_rungs_picture_and_what_to_do_stand_side_by_side(
    make_ladder_view: MakeLadderView, state: AppState, size: tuple[int, int]
) -> None:
    state.set_planet(Body.SATURN)
    view = make_ladder_view(state, size=size)
    parts = (view.canvas, view.eyepiece.canvas, view.pane)
    assert all(part.isVisible() for part in parts)
    assert all(part.width() > 0.25 * view.width() for part in parts)
    # A button that is cut off by the end of the view would not be there for a hand in the dark.
    for widget in (view.pane.next, *view.pane.verdicts.buttons.values(), view.pane.soft):
        assert widget.visibleRegion().boundingRect().size() == widget.size()


def test_only_a_wide_picture_has_the_other_powers_beside_it(
    make_ladder_view: MakeLadderView, state: AppState
) -> None:
    state.set_planet(Body.SATURN)
    view = make_ladder_view(state, size=(976, 430))
    view.eyepiece.canvas.ensure_drawn()
    assert view.eyepiece.canvas.drawing is not None
    assert view.eyepiece.canvas.drawing.steps == ()
    view.resize(1580, 760)
    view.eyepiece.canvas.ensure_drawn()
    assert len(view.eyepiece.canvas.drawing.steps) == 6


@pytest.mark.parametrize("body", [Body.SATURN, Body.MOON])
def test_no_page_asks_the_window_to_grow(
    body: Body, make_ladder_view: MakeLadderView, state: AppState
) -> None:
    state.set_planet(body)
    view = make_ladder_view(state, size=(976, 430))
    heights = []
    for page in (LOOK_FOR, LIMITS):
        view.pane.page_buttons.button(page).click()
        QApplication.processEvents()
        heights.append(view.height())
    assert heights == [430, 430]


def test_pictures_are_computed_away_from_the_window(qtbot: QtBot, theme: object, clock: HandClock) -> None:
    state = AppState(Choices(profile=make_profile()), clock=clock)
    with qtbot.waitSignal(state.changed):
        state.prepare_sky()
    state.set_planet(Body.SATURN)
    view = LadderView(state)
    qtbot.addWidget(view)
    view.resize(1000, 520)
    assert view.eyepiece.canvas.pictures is None

    view.show()

    qtbot.waitUntil(lambda: view.eyepiece.canvas.pictures is not None)
    state.jobs.close()


def test_pictures_are_computed_only_while_seen_and_the_newest_rung_wins(
    theme: object, clock: HandClock, make_ladder_view: MakeLadderView
) -> None:
    later = Later()
    waiting = later.works
    state = AppState(Choices(profile=make_profile()), clock=clock, jobs=Jobs(later))
    state.prepare_sky()
    waiting.pop()()
    state.set_planet(Body.SATURN)
    view = make_ladder_view(state)
    waiting.clear()
    view.log_button.click()
    state.set_rung(150.0)
    # No picture is computed while the log stands before it; what the log is read for may wait.
    assert not any("compute_pictures" in repr(work) for work in waiting)
    view.log_button.click()
    for power in (96.0, 120.0):
        state.set_rung(power)
    assert any("compute_pictures" in repr(work) for work in waiting)
    for work in reversed(waiting):
        work()

    assert view.eyepiece.canvas.pictures is not None
    assert view.eyepiece.canvas.pictures.sight.power == 120


def test_the_owners_filters_follow_the_rung_in_hand(
    make_ladder_view: MakeLadderView, state: AppState
) -> None:
    """Green at 150x on Saturn leaves 35 trolands, at 48x 340 (by hand, from the exit pupils)."""
    green = Filter(name="Green", wratten="58")
    state.set_planet(Body.SATURN)
    view = make_ladder_view(state)
    assert not view.pane.look_for.filters.isVisible()

    state.set_rung(48.0)
    state.edit_profile("Add filter", attrs.evolve(state.profile, filters=(green,)))
    assert view.pane.look_for.filters_heading.text() == "Filters on Saturn at 48x"
    assert "For the belts: Green." in view.pane.look_for.filters.text()
    assert "small gain" in view.pane.look_for.filters.text()
    assert "No filter here makes the Sun safe to look at" in view.pane.look_for.filters.text()

    state.set_rung(150.0)
    assert view.pane.look_for.filters_heading.text() == "Filters on Saturn at 150x"
    assert (
        "Too dark at this power: Green (light enough up to about 120x)." in view.pane.look_for.filters.text()
    )
