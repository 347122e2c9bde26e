"""The year outlook by hand and key: what it says, and where it leads."""

import re
from collections.abc import Callable
from datetime import date, datetime, timedelta

from attrs import evolve
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from core.sky.bodies import Body
from core.sky.night import compute_night
from core.sky.windows import Grade
from core.words.answer import answer_words
from gui.height.year_panel import YearPanel
from gui.state import AppState
from tests.gui.conftest import TERRACE, TONIGHT, MakeYearPanel, make_profile


def place_of(panel: YearPanel, day: date) -> QPoint:
    x = panel.canvas.line_x(day)
    assert x is not None
    return QPoint(round(x), panel.canvas.height() // 2)


def click(panel: YearPanel, day: date) -> None:
    QTest.mouseClick(panel.canvas, Qt.MouseButton.LeftButton, pos=place_of(panel, day))


def press(
    panel: YearPanel, *keys: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier
) -> None:
    for key in keys:
        QTest.keyClick(panel.canvas, key, modifier)


def test_the_best_weeks_stand_over_the_chart(year_panel: YearPanel) -> None:
    assert year_panel.sentence.text().startswith("Saturn is best until ")
    assert "above 45° in a dark sky, clear of what blocks the view." in year_panel.sentence.text()
    assert year_panel.canvas.chart is not None
    assert year_panel.canvas.chart.shows(date(2026, 12, 1))
    assert year_panel.canvas.chart.shows(date(2027, 11, 30))


def test_mercury_s_year_is_shown_with_its_caution(year_panel: YearPanel, state: AppState) -> None:
    assert year_panel.caution.isHidden()

    state.set_planet(Body.MERCURY)

    assert year_panel.caution.isVisible()
    assert "Sunlight through any optics blinds at once." in year_panel.caution.text()
    assert year_panel.caution.text() in year_panel.canvas.accessibleDescription()

    state.set_planet(Body.SATURN)

    assert year_panel.caution.isHidden()


def test_the_evening_in_hand_is_read_out(year_panel: YearPanel) -> None:
    night = compute_night(TERRACE, TONIGHT).of(Body.SATURN)

    words = year_panel.reading.text()
    assert words.startswith(
        f"Sat 5 December 2026: Saturn up to {night.highest.altitude_deg:.0f}° in the dark, at "
    )
    assert "h above 30°" in words
    assert words in year_panel.canvas.accessibleDescription()
    assert year_panel.sentence.text() in year_panel.canvas.accessibleDescription()
    assert not year_panel.go.isEnabled()


def test_a_click_goes_to_the_evening_and_the_chart_stands_still(
    year_panel: YearPanel, state: AppState
) -> None:
    goal = date(2027, 9, 3)
    before = year_panel.canvas.line_x(goal)

    click(year_panel, goal)
    year_panel.canvas.ensure_drawn()

    assert abs((state.situation.evening - goal).days) <= 1
    assert year_panel.canvas.line_x(goal) == before
    assert year_panel.reading.text().startswith(
        f"{state.situation.evening:%a} {state.situation.evening.day} September 2027: Saturn "
    )


def test_keys_point_and_return_goes(year_panel: YearPanel, state: AppState) -> None:
    year_panel.canvas.setFocus()
    press(year_panel, Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_Left)
    assert year_panel.canvas.marked == TONIGHT + timedelta(days=1)
    press(year_panel, Qt.Key.Key_Right, modifier=Qt.KeyboardModifier.ShiftModifier)
    press(year_panel, Qt.Key.Key_Right, modifier=Qt.KeyboardModifier.ControlModifier)
    assert year_panel.canvas.marked == TONIGHT + timedelta(days=38)
    assert state.situation.evening == TONIGHT
    assert year_panel.reading.text().startswith("Tue 12 January 2027: Saturn ")

    press(year_panel, Qt.Key.Key_Return)

    assert state.situation.evening == date(2027, 1, 12)


def test_the_ends_of_the_year_hold(year_panel: YearPanel) -> None:
    press(year_panel, *[Qt.Key.Key_Left] * 9)
    assert year_panel.canvas.marked == date(2026, 12, 1)
    press(year_panel, *[Qt.Key.Key_Right] * 14, modifier=Qt.KeyboardModifier.ControlModifier)
    assert year_panel.canvas.marked == date(2027, 11, 30)
    press(year_panel, Qt.Key.Key_Home)
    assert year_panel.canvas.marked is None


def test_the_button_goes_too(year_panel: YearPanel, state: AppState) -> None:
    press(year_panel, Qt.Key.Key_Right)
    assert year_panel.go.isEnabled()

    QTest.mouseClick(year_panel.go, Qt.MouseButton.LeftButton)

    assert state.situation.evening == TONIGHT + timedelta(days=1)
    assert not year_panel.go.isEnabled()


def test_the_pointer_reads_out_what_it_is_over(year_panel: YearPanel, qtbot: QtBot) -> None:
    QTest.mouseMove(year_panel.canvas, place_of(year_panel, date(2027, 10, 18)))

    # Opposition on 18 October 2027 (two libraries, tests/published); a pixel is less than a day.
    qtbot.waitUntil(lambda: "October 2027" in year_panel.reading.text())
    assert year_panel.canvas.marked is not None
    assert abs((year_panel.canvas.marked - date(2027, 10, 18)).days) <= 1


def test_another_planet_and_another_site_have_their_own_year(year_panel: YearPanel, state: AppState) -> None:
    state.set_planet(Body.MARS)
    mars = year_panel.sentence.text()
    state.set_site(state.profile.sites[1].id)

    assert mars.startswith("Mars is best from ")
    assert year_panel.sentence.text().startswith("Mars ")
    assert year_panel.sentence.text() != mars
    press(year_panel, Qt.Key.Key_Down)
    assert state.situation.planet is Body.JUPITER
    assert year_panel.sentence.text().startswith("Jupiter ")


def test_a_changed_roof_changes_the_year(year_panel: YearPanel, state: AppState) -> None:
    open_sky = evolve(state.profile.sites[0], blocked=())

    state.edit_profile("Clear the sky", evolve(state.profile, sites=(open_sky, *state.profile.sites[1:])))

    assert "blocks the view" not in year_panel.sentence.text()


def test_an_evening_beyond_the_chart_brings_its_own_year(year_panel: YearPanel, state: AppState) -> None:
    state.set_evening(date(2028, 2, 29))
    year_panel.canvas.ensure_drawn()

    assert year_panel.canvas.year is not None
    assert year_panel.canvas.year.dates[0] == date(2028, 2, 1)
    assert year_panel.reading.text().startswith("Tue 29 February 2028: Saturn ")


def test_without_a_site_it_says_where_to_begin(
    make_year_panel: MakeYearPanel, make_state: Callable[..., AppState]
) -> None:
    panel = make_year_panel(make_state(evolve(make_profile(), sites=())))

    assert panel.sentence.text() == "Add a site in Gear to see the year from there."
    assert panel.canvas.year is None


def test_a_poor_answer_names_the_next_good_evening(state: AppState) -> None:
    state.set_planet(Body.SATURN)
    state.set_evening(date(2027, 4, 7))  # its conjunction with the Sun (two libraries, tests/published)
    assert state.situation.answer is not None
    words = answer_words(state.situation)
    told = re.search(r"clear of what blocks the view, it is clearly better from (\d+ \w+),", words)
    assert told is not None

    named = datetime.strptime(f"{told[1]} 2027", "%d %B %Y").date()  # noqa: DTZ007

    state.set_evening(named)
    assert state.situation.answer is not None
    assert "clearly better from" not in answer_words(state.situation)
    assert any(
        window.grade is not Grade.LOW for window in compute_night(TERRACE, named).of(Body.SATURN).windows
    )


def test_what_else_the_year_brings_stands_under_the_best_weeks(
    make_year_panel: MakeYearPanel, state: AppState
) -> None:
    state.set_planet(Body.SATURN)
    panel = make_year_panel(state)
    assert "The ring opens from 6° around " in panel.notes.text()
    assert panel.notes.text() in panel.canvas.accessibleDescription()
    assert not panel.mars_longitude.isVisible()

    state.set_planet(Body.JUPITER)
    assert "shadows of two moons on Jupiter at once" in panel.notes.text()
    state.set_planet(Body.NEPTUNE)
    assert not panel.notes.isVisible()


def test_a_longitude_on_mars_is_asked_for_by_typing_it(
    qtbot: QtBot, make_year_panel: MakeYearPanel, state: AppState
) -> None:
    state.set_planet(Body.MARS)
    panel = make_year_panel(state)
    field = panel.mars_longitude.longitude

    def chosen() -> float | None:
        return state.situation.mars_longitude_deg

    assert panel.mars_longitude.isVisible()
    assert not panel.notes.isVisible()

    qtbot.keyClicks(field, "290,5")
    assert chosen() == 290.5
    assert "Longitude 291° on Mars faces us while it is highest on these evenings: " in panel.notes.text()

    qtbot.keyClick(field, Qt.Key.Key_Return)
    field.clear()
    qtbot.keyClicks(field, "400")
    assert "from 0 to 360 degrees" in panel.mars_longitude.problem.text()
    assert chosen() == 290.5, "what was good before the typing is back, not its first digits"
    assert field.text() == "400"

    field.selectAll()
    qtbot.keyClick(field, Qt.Key.Key_Backspace)
    assert chosen() is None
    assert not panel.notes.isVisible()


def test_the_best_weeks_are_those_of_the_telescope_in_hand(
    make_year_panel: MakeYearPanel, state: AppState
) -> None:
    state.set_planet(Body.MARS)
    panel = make_year_panel(state)
    assert panel.canvas.year is not None
    first = state.situation.scope
    assert first is not None
    apertures_mm = [panel.canvas.year.sharpness.aperture_mm]
    masked = evolve(first, mask_mm=60.0)
    state.edit_profile("Mask", evolve(state.profile, telescopes=(masked, *state.profile.telescopes[1:])))
    apertures_mm.append(panel.canvas.year.sharpness.aperture_mm)
    assert apertures_mm == [first.aperture_mm, 60.0]
