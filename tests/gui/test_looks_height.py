"""In the Height view: how the planet in hand looks, at a glance and in full."""

import re
from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta

import attrs
import ephem
import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

import core.looks.happenings
from core.looks.picture.stillness import Stillness
from core.record.observer import RedSpot
from core.sky.bodies import Body
from gui.height.view import HeightView
from gui.state import AppState
from gui.widgets import dialogs
from gui.widgets.looks_dialog import LooksDialog
from tests.gui.conftest import HandClock, make_profile
from tests.gui.showing import show

CROSSINGS = date(2026, 12, 9)
MORNING = datetime(2026, 12, 6, 5, 0, tzinfo=UTC)


@pytest.fixture
def view(qtbot: QtBot, theme: object, state: AppState) -> HeightView:
    view = HeightView(state)
    show(qtbot, view, size=(1000, 560))
    return view


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Collect the texts of dialogs in place of showing them."""
    texts: list[str] = []
    monkeypatch.setattr(dialogs, "show_text", lambda _parent, *parts: texts.append("\n".join(parts)))
    return texts


@pytest.fixture
def looks(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[LooksDialog]]:
    """Collect the dialogs of how it looks, without waiting for them to be closed."""
    shown: list[LooksDialog] = []
    monkeypatch.setattr("gui.widgets.looks_dialog.show_looks", shown.append)
    yield shown
    for dialog in shown:
        # One left open would take the pointer from the windows of later tests.
        dialog.close()


def test_moving_the_clock_turns_the_planet(view: HeightView, state: AppState) -> None:
    def meridian_ii(text: str) -> float:
        return float(text.partition("II ")[2].partition("°")[0])

    state.set_planet(Body.JUPITER)
    state.set_time(MORNING)
    before = view.appearance_line.text()
    QTest.keyClick(view.canvas, Qt.Key.Key_Right, Qt.KeyboardModifier.ControlModifier)
    after = view.appearance_line.text()

    assert before.startswith("Jupiter: 39.8″ wide, 37.2″ high · magnitude −2.2 · central meridian I ")
    # System II turns by 870.27 degrees a day (WGCCRE 2015), 36.3 an hour; the text has whole degrees.
    turned = (meridian_ii(after) - meridian_ii(before)) % 360.0
    assert turned == pytest.approx(870.27 / 24.0, abs=1.01)


@pytest.mark.parametrize(
    ("body", "words"),
    [
        (Body.SATURN, "ring 6.1° open"),
        (Body.MARS, "in the north"),
        (Body.VENUS, "% lit"),
        (Body.MOON, "waning crescent"),
        (Body.NEPTUNE, "Neptune: 2.3″ wide · magnitude 7."),
    ],
)
def test_each_planet_has_its_own_facts(body: Body, words: str, view: HeightView, state: AppState) -> None:
    state.set_planet(body)
    assert view.appearance_line.text().startswith(f"{body.heading}: ")
    assert words in view.appearance_line.text()


def test_the_pointer_previews_the_looks_of_a_moment(qtbot: QtBot, view: HeightView, state: AppState) -> None:
    state.set_planet(Body.JUPITER)
    now = view.appearance_line.text()
    view.canvas.pointed.emit(MORNING)
    assert view.appearance_line.text() != now
    view.canvas.pointed.emit(None)
    assert view.appearance_line.text() == now


def test_what_goes_on_and_comes_next_is_told_with_site_times(view: HeightView, state: AppState) -> None:
    """A night on which Ganymede, Io and both their shadows cross; the terrace keeps UTC in winter."""
    state.set_planet(Body.JUPITER)
    state.set_evening(CROSSINGS)
    state.set_time(datetime(2026, 12, 10, 2, 30, tzinfo=UTC))
    told = view.appearance_line.text()

    assert "Europa in shadow " in told
    assert "Io's shadow on the disc " in told  # next
    assert "Io on the disc" not in told  # after that
    for time in re.search(r"Ganymede on the disc (\d\d:\d\d)–(\d\d:\d\d)", told).groups():  # type: ignore[union-attr]
        ganymede = ephem.Ganymede(f"2026/12/10 {time}:00")
        # PyEphem: in radii of Jupiter, which is flattened by 1/15; the moon's middle stands on the edge.
        assert np.hypot(ganymede.x, ganymede.y / 0.935) == pytest.approx(1.0, abs=0.03)
        assert ganymede.z > 0.0
    state.set_time(datetime(2026, 12, 10, 6, 40, tzinfo=UTC))
    assert "on the disc" not in view.appearance_line.text()


def test_all_there_is_to_know_is_one_key_away(
    view: HeightView, state: AppState, looks: list[LooksDialog]
) -> None:
    state.set_planet(Body.JUPITER)
    state.set_time(MORNING)

    view.all_looks.setFocus()
    QTest.keyClick(view.all_looks, Qt.Key.Key_Space)

    (dialog,) = looks
    # A moment that was chosen, for Jupiter is up then.
    assert dialog.heading.text() == "Jupiter at 05:00, Sun 6 December 2026"
    text = dialog.text.toPlainText()
    assert "Central meridian: system I " in text
    assert "Moons, east to west: " in text
    assert "spreads its colours by" in text


@pytest.mark.parametrize("body", [Body.JUPITER, Body.SATURN])
def test_it_opens_at_the_best_minute_with_the_picture(
    view: HeightView, state: AppState, clock: HandClock, looks: list[LooksDialog], body: Body
) -> None:
    """By day the planet is down or drowned in light: what it looks like then nobody wants to know."""
    clock.now = datetime(2026, 12, 5, 14, 0, tzinfo=UTC)
    state.beat()
    state.set_planet(body)
    view.all_looks.click()
    (dialog,) = looks
    best = state.situation.best
    assert best is not None
    told = re.search(r" at (\d\d):(\d\d), ", dialog.heading.text())
    assert told is not None
    # The site's clock is that of UTC in winter.
    minute = 60 * int(told[1]) + int(told[2])
    since_noon = (minute - 720) % 1440
    inside = [((at.hour * 60 + at.minute) - 720) % 1440 for at in (best.start, best.end)]
    assert inside[0] <= since_noon <= inside[1]

    dialog.show()
    assert dialog.picture.isVisible()
    assert dialog.picture.canvas.pictures is not None
    ladder = state.situation.best_ladder
    assert ladder is not None
    assert dialog.picture.canvas.accessibleName() == f"In the eyepiece at {ladder.climb_to:.0f}x"


def test_a_chosen_moment_at_which_it_is_down_gives_way(
    view: HeightView, state: AppState, looks: list[LooksDialog]
) -> None:
    state.set_planet(Body.SATURN)
    state.set_time(MORNING)  # Saturn has set four hours before
    view.all_looks.click()
    assert "05:00" not in looks[0].heading.text()
    assert looks[0].heading.text().startswith("Saturn at ")


def test_the_calm_moment_is_shown_there_too(
    view: HeightView, state: AppState, looks: list[LooksDialog]
) -> None:
    view.all_looks.click()
    (dialog,) = looks
    dialog.show()
    before = dialog.picture.canvas.pictures
    dialog.picture.moments.buttons[Stillness.CALM].click()
    assert dialog.picture.canvas.pictures is not before


def test_without_a_telescope_there_are_words_alone(
    view: HeightView, state: AppState, looks: list[LooksDialog]
) -> None:
    state.edit_profile("Sell", attrs.evolve(state.profile, telescopes=()))
    view.all_looks.click()
    (dialog,) = looks
    dialog.show()
    assert not dialog.picture.isVisible()
    assert dialog.text.toPlainText()


def test_the_red_spot_is_warned_of_when_its_longitude_is_old(
    view: HeightView, state: AppState, looks: list[LooksDialog]
) -> None:
    state.set_planet(Body.JUPITER)
    state.set_time(MORNING)
    assert "red spot" not in view.appearance_line.text()
    appearance = state.situation.appearance_at(MORNING)
    assert appearance is not None
    facing = appearance.subject.disc.central_meridian_deg("II")
    assert facing is not None

    old = RedSpot(longitude_deg=facing, on=date(2026, 3, 1))
    state.edit_profile("Spot", attrs.evolve(state.profile, red_spot=old))
    assert "red spot in the middle 05:00 (old longitude)" in view.appearance_line.text()
    view.all_looks.click()
    # From 1 March to 5 December.
    assert "was measured 279 days away from this evening" in looks[0].text.toPlainText()

    fresh = attrs.evolve(old, on=date(2026, 12, 1))
    state.edit_profile("Spot", attrs.evolve(state.profile, red_spot=fresh))
    assert view.appearance_line.text().endswith("red spot in the middle 05:00")


def test_the_evening_in_words_has_what_the_moons_do(
    view: HeightView, state: AppState, told: list[str]
) -> None:
    state.set_evening(CROSSINGS)
    view.in_words.click()
    _, _, jupiter = told[0].partition("On Jupiter\n")
    lines = [line.split("  ")[1] for line in jupiter.splitlines()]
    assert lines == [
        "Ganymede: its shadow crosses the disc",
        "Europa: is in Jupiter's shadow (its end cannot be seen)",
        "Ganymede: crosses the disc",
        "Io: its shadow crosses the disc",
        "Europa: is behind Jupiter (its start cannot be seen)",
        "Io: crosses the disc",
    ]


def test_moon_events_are_found_once_an_evening(
    view: HeightView, state: AppState, monkeypatch: pytest.MonkeyPatch
) -> None:
    searches: list[Body] = []
    find = core.looks.happenings.find_happenings

    def counted(*args: object) -> core.looks.happenings.Happenings:
        searches.append(args[1])  # type: ignore[arg-type]  # passed on as it came
        return find(*args)  # type: ignore[arg-type]

    monkeypatch.setattr(core.looks.happenings, "find_happenings", counted)
    state.set_planet(Body.JUPITER)
    for minute in range(5):
        state.set_time(MORNING + timedelta(minutes=minute))
    assert len(searches) <= 1
    state.step_evening(1)
    assert len(searches) <= 2


def test_without_a_site_there_is_nothing_to_tell(
    qtbot: QtBot, theme: object, make_state: Callable[..., AppState]
) -> None:
    view = HeightView(make_state(attrs.evolve(make_profile(), sites=())))
    qtbot.addWidget(view)
    assert view.appearance_line.text() == ""
    assert not view.all_looks.isEnabled()
    assert not view.to_find.isEnabled()


def test_the_line_never_asks_the_window_to_grow(view: HeightView, state: AppState) -> None:
    view.resize(976, 430)
    heights = []
    for body in (Body.NEPTUNE, Body.MOON, Body.JUPITER):
        state.set_planet(body)
        QApplication.processEvents()
        heights.append(view.height())
    assert len(set(heights)) == 1


def test_how_to_find_each_body_is_told_on_a_key(view: HeightView, state: AppState, told: list[str]) -> None:
    state.set_planet(Body.URANUS)

    view.to_find.setFocus()
    QTest.keyClick(view.to_find, Qt.Key.Key_Space)

    assert told[0].startswith("How to find it\nSat 5 December 2026")
    assert "\nUranus at 21:42: " in told[0]
    assert "in Taurus" in told[0]
    assert "12 o'clock is straight up from it" in told[0]
    assert "Venus at 21:42" not in told[0]
