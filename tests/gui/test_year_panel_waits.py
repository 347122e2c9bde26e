"""The year outlook while it is worked out: how far it is, and what is dropped."""

from datetime import date

import pytest
from attrs import evolve
from pytestqt.qtbot import QtBot

from core.situation.choices import Choices
from core.sky.bodies import Body
from core.year.year import Year
from gui.height.year_panel import YearPanel
from gui.height.year_reader import YearReader, YearWanted
from gui.jobs import AtOnce, Jobs
from gui.state import AppState
from tests.gui.conftest import TERRACE, TONIGHT, HandClock, MakeYearPanel, make_profile
from tests.gui.later import Later

MARS_YEAR = YearWanted(site=TERRACE, planet=Body.MARS, first=TONIGHT, dark_below_deg=-4.0)


@pytest.fixture
def later() -> Later:
    return Later()


@pytest.fixture
def slow_state(later: Later, clock: HandClock, qapp: object) -> AppState:
    """Return a state whose jobs wait, but for the sky tables."""
    state = AppState(Choices(profile=make_profile()), clock=clock, jobs=Jobs(later))
    state.prepare_sky()
    later.run()
    state.set_planet(Body.SATURN)
    return state


def test_nothing_is_worked_out_while_it_is_out_of_sight(year_panel: YearPanel, state: AppState) -> None:
    before = year_panel.sentence.text()
    year_panel.hide()
    state.set_planet(Body.MARS)
    assert year_panel.sentence.text() == before

    year_panel.show()

    assert year_panel.sentence.text().startswith("Mars ")


def test_slow_work_shows_how_far_it_is(
    qtbot: QtBot, make_year_panel: MakeYearPanel, slow_state: AppState, later: Later
) -> None:
    panel = make_year_panel(slow_state)
    assert not panel.progress.isVisible()
    qtbot.waitUntil(panel.progress.isVisible)

    later.run()

    assert not panel.progress.isVisible()
    assert panel.sentence.text().startswith("Saturn ")
    assert (panel.progress.value(), panel.progress.maximum()) == (2, 2)


def test_what_is_no_longer_wanted_is_dropped(
    make_year_panel: MakeYearPanel, slow_state: AppState, later: Later
) -> None:
    panel = make_year_panel(slow_state)
    slow_state.set_planet(Body.MARS)
    slow_state.set_planet(Body.JUPITER)
    later.run()
    assert panel.sentence.text().startswith("Jupiter ")

    slow_state.set_planet(Body.MARS)
    slow_state.set_planet(Body.JUPITER)
    later.run()
    assert panel.sentence.text().startswith("Jupiter ")

    slow_state.set_planet(Body.VENUS)
    panel.hide()
    later.run()
    assert panel.sentence.text().startswith("Jupiter ")


def test_work_under_way_stops_when_it_is_given_up(qtbot: QtBot, later: Later, qapp: object) -> None:
    reader = YearReader(Jobs(later))
    years: list[Year] = []
    steps: list[int] = []
    reader.found.connect(years.append)

    def give_up(done: int, _steps: int) -> None:
        steps.append(done)
        reader.give_up()

    reader.progressed.connect(give_up)
    reader.want_year(MARS_YEAR)
    later.run()

    assert steps == [0], "it stops at the next step"
    assert years == []


def test_a_year_outside_the_planet_tables_is_refused_in_words(qtbot: QtBot, qapp: object) -> None:
    reader = YearReader(Jobs(AtOnce()))

    with qtbot.waitSignal(reader.refused) as refused:
        reader.want_year(evolve(MARS_YEAR, first=date(2060, 1, 1)))

    assert refused.args is not None
    assert "2060-01-01 is outside the planet tables" in refused.args[0]


def test_a_year_at_hand_is_not_worked_out_again(later: Later, qapp: object) -> None:
    reader = YearReader(Jobs(later))
    years: list[Year] = []
    reader.found.connect(years.append)
    reader.want_year(MARS_YEAR)
    later.run()
    reader.want_year(MARS_YEAR)

    assert len(years) == 2
    assert years[0] is years[1]
    assert later.works == []
