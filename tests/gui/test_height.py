"""The Height view: now line, cursor and read-out move as hands and clock move them."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

import ephem
import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from core.drawing.palette import load_palette
from core.record.observer import Profile
from core.sky.bodies import Body
from core.words.body_readings import CeilingBasis, read_bodies
from core.words.site_clock import SiteClock
from gui.height.view import HeightView
from gui.state import AppState
from gui.widgets import dialogs
from gui.window.shell import Shell
from tests.gui.conftest import EVENING_START, HandClock, make_profile, pixels
from tests.gui.showing import show

AFTERNOON = datetime(2026, 12, 5, 15, 30, tzinfo=UTC)


@pytest.fixture
def view(qtbot: QtBot, theme: object, state: AppState) -> HeightView:
    view = HeightView(state)
    show(qtbot, view, size=(1000, 560))
    view.canvas.ensure_drawn()
    return view


def shown(view: HeightView, body: Body) -> list[str]:
    """Return what a person reads in a body's cell."""
    cell = view.cells[body]
    labels = (cell.altitude, cell.direction, cell.path, cell.ceiling, cell.remark)
    return [label.text() for label in labels if label.text()]


def place_of(view: HeightView, moment: datetime, altitude_deg: float = 80.0) -> QPoint:
    """Return where a moment and an altitude are in the canvas."""
    chart = view.canvas.chart
    assert chart is not None
    where = view.canvas.from_page(chart.x_of(moment), chart.frame.y(altitude_deg))
    return QPointF(*where).toPoint()


def columns_of(view: HeightView, colour: str) -> set[int]:
    """Return the columns in which a colour fills most of the plot's height."""
    ink = QColor(colour)
    wanted = np.array([ink.red(), ink.green(), ink.blue()])
    picture = pixels(view.canvas)
    hits = np.all(np.abs(picture.astype(int) - wanted) < 12, axis=2).sum(axis=0)
    chart = view.canvas.chart
    assert chart is not None
    plot = chart.plot_box
    columns = np.flatnonzero(hits > 0.8 * (plot.top - plot.bottom))
    return {int(column) for column in columns if plot.left <= column <= plot.right}


def ephem_place(planet: str, moment: datetime) -> tuple[float, float]:
    """Return altitude and azimuth in degrees on the terrace without refraction, from PyEphem."""
    observer = ephem.Observer()
    observer.lat, observer.lon, observer.elevation = "41.15", "-8.61", 90
    observer.pressure = 0
    observer.date = moment.strftime("%Y/%m/%d %H:%M:%S")
    body = getattr(ephem, planet)(observer)
    altitude, azimuth = np.degrees([float(body.alt), float(body.az)])
    return float(altitude), float(azimuth)


def test_the_read_out_agrees_with_an_independent_reckoning(view: HeightView) -> None:
    altitude, azimuth = ephem_place("Saturn", EVENING_START)
    cell = view.cells[Body.SATURN]
    assert cell.altitude.text() == f"{altitude:.0f}°"
    assert cell.direction.text() == f"{azimuth:.0f}° SW"
    assert view.moment.text() == "Now, 21:42"
    # Kasten and Young (1989): 1.44 air masses at 44 degrees.
    assert cell.path.text() == "path 1.4"
    assert f"Saturn: altitude {altitude:.0f}°, azimuth {azimuth:.0f}° south-west, path 1.4" in (
        view.canvas.accessibleDescription()
    )


def test_a_body_below_the_horizon_says_when_it_rises(view: HeightView) -> None:
    assert shown(view, Body.JUPITER) == ["−11°", "rises 22:42"]
    assert not view.cells[Body.JUPITER].altitude.isEnabled()


def test_the_now_line_moves_with_the_clock(view: HeightView, state: AppState, clock: HandClock) -> None:
    accent = load_palette("day").accent
    before = columns_of(view, accent)
    assert before
    assert view.canvas.line_x(clock.now) == pytest.approx(max(before), abs=2)

    clock.move(timedelta(hours=2))
    state.beat()

    after = columns_of(view, accent)
    assert after
    assert before.isdisjoint(after)
    assert view.canvas.line_x(clock.now) == pytest.approx(max(after), abs=2)
    assert view.moment.text() == "Now, 23:42"

    # It stays where it is while another moment is looked at.
    state.set_time(EVENING_START)
    assert columns_of(view, accent) == after


def test_a_click_sets_the_cursor_and_the_read_out_follows(
    qtbot: QtBot, view: HeightView, state: AppState
) -> None:
    moment = datetime(2026, 12, 5, 23, 30, tzinfo=UTC)
    qtbot.mouseClick(view.canvas, Qt.MouseButton.LeftButton, pos=place_of(view, moment))

    # A pixel is about a minute wide here.
    assert abs(state.situation.time - moment) <= timedelta(minutes=1)
    assert not state.situation.following_now
    assert view.moment.text() == f"At {state.situation.time:%H:%M}"
    altitude, _ = ephem_place("Jupiter", state.situation.time)
    assert view.cells[Body.JUPITER].altitude.text() == f"{altitude:.0f}°"


def test_dragging_moves_the_cursor_along(qtbot: QtBot, view: HeightView, state: AppState) -> None:
    start, end = (datetime(2026, 12, 5, hour, tzinfo=UTC) for hour in (22, 23))
    QTest.mousePress(view.canvas, Qt.MouseButton.LeftButton, pos=place_of(view, start))
    qtbot.mouseMove(view.canvas, place_of(view, end))
    assert abs(state.situation.time - end) <= timedelta(minutes=1)
    QTest.mouseRelease(view.canvas, Qt.MouseButton.LeftButton, pos=place_of(view, end))


def test_the_pointer_previews_a_moment_without_leaving_now(
    qtbot: QtBot, view: HeightView, state: AppState
) -> None:
    moment = datetime(2026, 12, 6, 2, 0, tzinfo=UTC)
    qtbot.mouseMove(view.canvas, place_of(view, moment))
    assert view.moment.text().startswith(("At 01:59", "At 02:00", "At 02:01"))
    assert state.situation.following_now
    view.canvas.leaveEvent(None)
    assert view.moment.text() == "Now, 21:42"


@pytest.mark.parametrize(
    ("key", "modifier", "minutes"),
    [
        (Qt.Key.Key_Right, Qt.KeyboardModifier.NoModifier, 1),
        (Qt.Key.Key_Left, Qt.KeyboardModifier.NoModifier, -1),
        (Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier, 10),
        (Qt.Key.Key_Left, Qt.KeyboardModifier.ControlModifier, -60),
    ],
)
def test_arrow_keys_move_the_cursor(
    view: HeightView, state: AppState, key: Qt.Key, modifier: Qt.KeyboardModifier, minutes: int
) -> None:
    QTest.keyClick(view.canvas, key, modifier)
    assert state.situation.time == EVENING_START + timedelta(minutes=minutes)
    QTest.keyClick(view.canvas, Qt.Key.Key_Home)
    assert state.situation.time == EVENING_START
    assert state.situation.following_now


def test_keys_change_planet_and_evening(view: HeightView, state: AppState) -> None:
    state.set_planet(Body.SATURN)
    planets = []
    for key in (Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Up):
        QTest.keyClick(view.canvas, key)
        planets.append(state.situation.planet)
    assert planets == [Body.URANUS, Body.NEPTUNE, Body.URANUS]
    QTest.keyClick(view.canvas, Qt.Key.Key_PageDown)
    assert state.situation.evening == date(2026, 12, 6)
    QTest.keyClick(view.canvas, Qt.Key.Key_PageUp)
    assert state.situation.evening == date(2026, 12, 5)


def test_a_resting_pointer_does_not_hold_the_evening_that_was(
    qtbot: QtBot, view: HeightView, state: AppState
) -> None:
    qtbot.mouseMove(view.canvas, place_of(view, datetime(2026, 12, 5, 20, 0, tzinfo=UTC)))
    assert view.moment.text() == "At 20:00"

    QTest.keyClick(view.canvas, Qt.Key.Key_PageDown)

    assert state.situation.night is not None
    assert (
        view.moment.text()
        == f"At {SiteClock(zone=state.situation.night.site.zone).time(state.situation.time)}"
    )
    assert view.canvas.hovered is None


def test_a_click_on_a_name_takes_that_planet_in_hand(qtbot: QtBot, view: HeightView, state: AppState) -> None:
    chart = view.canvas.chart
    assert chart is not None
    (name,) = (words for words in chart.drawing.words if words.text == "Uranus")
    where = view.canvas.from_page(name.x, name.y)
    qtbot.mouseClick(view.canvas, Qt.MouseButton.LeftButton, pos=QPointF(*where).toPoint())
    assert state.situation.planet is Body.URANUS
    assert state.situation.following_now


def test_a_click_on_a_cell_takes_that_planet_in_hand(qtbot: QtBot, view: HeightView, state: AppState) -> None:
    qtbot.mouseClick(view.cells[Body.URANUS], Qt.MouseButton.LeftButton)
    assert state.situation.planet is Body.URANUS


def test_planets_are_reached_by_keys(qtbot: QtBot, view: HeightView, state: AppState) -> None:
    view.in_words.setFocus()
    for _ in range(8):
        view.window().focusNextChild()
        if view.cells[Body.URANUS].hasFocus():
            break
    assert view.cells[Body.URANUS].hasFocus()
    QTest.keyClick(view.cells[Body.URANUS], Qt.Key.Key_Space)
    assert state.situation.planet is Body.URANUS


def test_a_low_window_names_what_is_down_in_one_line(
    make_shell: Callable[..., Shell], state: AppState
) -> None:
    view = make_shell(state, size=(1000, 640)).current_view
    assert isinstance(view, HeightView)
    assert view.cells[Body.SATURN].isVisible()
    assert not view.cells[Body.MARS].isVisible()
    assert "Mars" in view.cells.below.text()

    state.set_planet(Body.MARS)

    assert view.cells[Body.MARS].isVisible(), "the planet in hand always stands there"
    assert "Mars" not in view.cells.below.text()


def test_the_now_line_strikes_no_word(view: HeightView) -> None:
    chart = view.canvas.chart
    assert chart is not None
    measure = chart.drawing.page.measure
    for words in chart.drawing.words:
        box = words.box(measure)
        for bottom, top in chart.clear_at((box.left + box.right) / 2):
            assert top <= box.bottom or bottom >= box.top, words.text


def test_the_now_line_runs_up_to_the_words_over_the_chart(view: HeightView) -> None:
    chart = view.canvas.chart
    assert chart is not None
    (sunset,) = [each for each in chart.drawing.words if each.text.startswith("sunset")]
    box = sunset.box(chart.drawing.page.measure)
    assert box.bottom >= chart.plot_box.top
    assert chart.plot_box.top in {top for _, top in chart.clear_at((box.left + box.right) / 2)}


def test_the_now_button_leads_back(qtbot: QtBot, view: HeightView, state: AppState) -> None:
    assert not view.now.isVisible()
    state.set_time(EVENING_START + timedelta(hours=1))
    qtbot.mouseClick(view.now, Qt.MouseButton.LeftButton)
    assert state.situation.following_now


def test_the_sun_s_caution_stands_only_while_it_is_up(view: HeightView, state: AppState) -> None:
    assert not view.caution.isVisible()
    state.set_time(datetime(2026, 12, 5, 15, 0, tzinfo=UTC))
    assert view.caution.isVisible()
    assert "never point it near the Sun" in view.caution.text()


def test_without_a_site_the_chart_says_what_to_do(
    qtbot: QtBot, theme: object, make_state: Callable[..., AppState]
) -> None:
    view = HeightView(make_state(Profile()))
    show(qtbot, view, size=(1000, 560))

    assert "Add a site in Gear" in view.canvas.accessibleDescription()
    middle = pixels(view.canvas)[view.canvas.height() // 2 - 20 : view.canvas.height() // 2 + 20, 50:-50]
    assert middle.min() < 100 < middle.max()  # dark letters on a light ground


def test_the_chart_of_another_evening_has_no_now_line(view: HeightView, state: AppState) -> None:
    state.set_evening(date(2027, 2, 1))
    view.canvas.ensure_drawn()
    assert view.canvas.line_x(EVENING_START) is None
    assert columns_of(view, load_palette("day").accent) == set()


def test_another_pixel_ratio_fills_the_same_place(view: HeightView, monkeypatch: pytest.MonkeyPatch) -> None:
    canvas = view.canvas
    chart = canvas.chart
    assert chart is not None
    line = canvas.line_x(EVENING_START)
    monkeypatch.setattr(canvas, "devicePixelRatioF", lambda: 1.5)
    canvas.ensure_drawn()
    # The picture covers the widget to the last pixel, and the line keeps its place.
    assert canvas._picture.width() >= 1.5 * canvas.width()
    assert canvas._picture.height() >= 1.5 * canvas.height()
    assert canvas._picture.width() < 1.5 * canvas.width() + 1
    assert canvas.line_x(EVENING_START) == pytest.approx(line, abs=1)


def test_hours_of_the_observer_s_own_habit(
    qtbot: QtBot, make_state: Callable[..., AppState], theme: object
) -> None:
    import attrs

    profile = make_profile()
    state = make_state(attrs.evolve(profile, preferences=attrs.evolve(profile.preferences, clock=12)))
    view = HeightView(state)
    qtbot.addWidget(view)
    assert view.moment.text() == "Now, 9:42 pm"


def test_the_evening_in_words_tells_when_to_cap_the_telescope(
    qtbot: QtBot, view: HeightView, state: AppState, clock: HandClock, monkeypatch: pytest.MonkeyPatch
) -> None:
    clock.now = AFTERNOON
    state.beat()
    texts: list[str] = []
    monkeypatch.setattr(dialogs, "show_text", lambda _parent, *parts: texts.append("\n".join(parts)))
    qtbot.mouseClick(view.in_words, Qt.MouseButton.LeftButton)
    assert "Sat 5 December 2026, Back terrace" in texts[0]
    assert "Never turn telescope or finder towards the Sun" in texts[0]
    assert "Cap the telescope" in texts[0]


def test_blocked_sky_is_told_in_the_read_out(state: AppState) -> None:
    night = state.situation.night
    assert night is not None
    span = night.of(Body.SATURN).blocked[0]
    basis = CeilingBasis(scope=None, blur=state.situation.blur, usual_air=300)
    (saturn,) = (
        reading
        for reading in read_bodies(night, span.start + timedelta(minutes=1), basis, SiteClock(zone=UTC))
        if reading.body is Body.SATURN
    )
    assert saturn.remark == "behind blocked sky (roof ridge)"
    assert saturn.ceiling == ""  # none without a telescope


def test_the_strip_s_cautions_are_heard_with_the_chart(
    qtbot: QtBot, theme: object, state: AppState, clock: HandClock
) -> None:
    clock.now = AFTERNOON
    state.beat()
    view = HeightView(state)
    qtbot.addWidget(view)
    heard = view.canvas.accessibleDescription()

    assert "Never turn telescope or finder towards the Sun: it blinds at once." in heard
    assert "Cap the telescope and its finder" in heard
