"""Optics and daylight: Venus beside the Sun, and the Moon before Venus by day.

The questions are public ones; unless a comment says otherwise, figures were computed with Skyfield 1.55 and
DE421: apparent places seen from the site, without refraction.
"""

import re
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

import ephem
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pytestqt.qtbot import QtBot

from core.air.blur import Blur
from core.ladder.ladder import build_ladder
from core.sky.bodies import TARGETS, Body
from core.sky.disc import disc_at
from core.sky.night import compute_night
from core.sky.site import Site
from core.sky.track import separation_deg
from core.words.aim import aim_notices
from core.words.body_readings import CeilingBasis, read_bodies
from core.words.ladder import no_ceiling_text
from core.words.notices import ladder_notice_texts
from core.words.reasons import answer_reasons
from core.words.site_clock import SiteClock, clock_of
from gui.ladder.view import LadderView
from gui.state import AppState
from tests.core.telling import best_aim
from tests.gui.conftest import HandClock
from tests.situations.conftest import Ask, AskJson
from tests.situations.owners import LONDON, MELBOURNE, eyepieces, owner, place, scope

SIX = scope("reflector", 150, 1200)
FAIRBANKS = place(64.84, -147.72, "America/Anchorage")
ROME = place(41.9, 12.5, "Europe/Rome")
SYDNEY = place(-33.87, 151.21, "Australia/Sydney")


def test_venus_beside_the_sun_is_refused_with_her_side_of_it(ask: Ask, ask_json: AskJson) -> None:
    kit = owner(SIX, eyepieces=eyepieces(25, 10))
    words = ("--planet", "venus", "--at", "2010-10-29T13:00")

    ladder, json = ask(kit, "ladder", *words), ask_json(kit, "ladder", *words)
    heights = ask(kit, "heights", "--evening", "2010-10-28")

    assert "No ceiling: Venus stands 6° " in ladder
    assert "of the Sun, which is up: nothing is offered so near it" in ladder
    assert "Do not look for Venus so near the Sun. Sunlight through any optics blinds at once." in ladder
    assert (json["ceiling"]["power"], json["climb_to"]) == (None, None)
    assert json["rungs"] == []
    assert re.search(r"Venus 6° (east|west) of the Sun: never search for", heights)


@pytest.mark.parametrize("night_of", [24, 28, 30])
def test_the_window_offers_her_at_no_moment_and_has_the_caution(
    qtbot: QtBot, theme: object, clock: HandClock, make_state: Callable[..., AppState], night_of: int
) -> None:
    # By night, in the week in which Venus passed the Sun: at noon she stood 20 degrees high.
    clock.now = datetime(2010, 10, night_of, 22, tzinfo=UTC)
    state = make_state(owner(SIX, eyepieces=eyepieces(25, 10)))
    state.set_planet(Body.VENUS)
    view = LadderView(state)
    qtbot.addWidget(view)

    assert view.pane.heading.text() == "Venus: nothing to offer this evening"
    assert view.canvas.chart is None
    assert view.pane.limits.ceiling.text() == ""
    assert view.nothing.text().startswith("Venus is up only while the Sun is up too")
    assert view.nothing.text().endswith("Sunlight through any optics blinds at once.")
    assert view.pane.limits.note.text() == view.pane.detail.text() == ""
    reasons = answer_reasons(state.situation.answer, clock_of(state.situation))
    assert "Sunlight through any optics blinds at once." in reasons[0]


def test_the_read_out_offers_no_power_beside_the_sun() -> None:
    # On 29 October 2010 Venus was 6 degrees from the Sun and Saturn 25, both up at noon.
    night = compute_night(LONDON, date(2010, 10, 29))
    sight = CeilingBasis(scope=SIX, blur=Blur.assumed(), usual_air=300)
    noon = datetime(2010, 10, 29, 12, 30, tzinfo=UTC)

    told = {each.body: each for each in read_bodies(night, noon, sight, SiteClock(zone=LONDON.zone))}

    assert (told[Body.VENUS].ceiling, told[Body.VENUS].remark) == ("", "beside the Sun")
    assert (told[Body.SATURN].ceiling, told[Body.SATURN].remark) == ("", "not by day")


def test_she_passes_from_the_evening_to_the_morning_side() -> None:
    before, conjunction, after = (datetime(2010, 10, day, 12, tzinfo=UTC) for day in (22, 29, 31))

    assert disc_at(Body.VENUS, conjunction).elongation_deg == pytest.approx(5.9, abs=0.05)
    assert disc_at(Body.VENUS, before).east_of_sun
    assert not disc_at(Body.VENUS, after).east_of_sun


@settings(max_examples=40, deadline=None)
@given(
    st.sampled_from([LONDON, MELBOURNE, FAIRBANKS, ROME]),
    st.dates(date(2010, 1, 1), date(2035, 1, 1)),
    st.sampled_from(TARGETS),
    st.floats(0, 0.999),
)
def test_by_day_every_aim_carries_the_caution_and_beside_the_sun_offers_nothing(
    site: Site, evening: date, planet: Body, part: float
) -> None:
    night = compute_night(site, evening, targets=(planet,))
    for at in (None, night.start + (night.end - night.start) * part):
        aim = best_aim(night, planet, at)
        ladder = build_ladder(
            scope=SIX, eyepieces=eyepieces(25, 10), barlows=(), aim=aim, blur=Blur(overhead_arcsec=1.0)
        )
        if aim.at is None:
            assert ladder.rungs == ()
            continue
        sun = night.position(Body.SUN, aim.at)
        from_sun_deg = separation_deg(sun, night.position(planet, aim.at))
        is_day = sun.altitude_deg > -50 / 60

        assert bool(aim_notices(aim)) >= is_day
        assert not is_day or "blinds at once" in " ".join(ladder_notice_texts(ladder))
        if is_day and from_sun_deg < 15:
            assert ladder.climb_to is None
            assert ladder.ceiling.power is None
            assert "of the Sun, which is up" in no_ceiling_text(ladder)
        elif is_day and planet not in (Body.MOON, Body.VENUS, Body.JUPITER, Body.MERCURY):
            assert ladder.rungs == ()
        elif aim.path is not None and aim.is_offered:
            assert ladder.ceiling.power is not None


def test_the_moon_covers_venus_over_rome_in_daylight() -> None:
    night = compute_night(ROME, date(2016, 4, 5))
    begins, ends = (
        datetime(2016, 4, 6, hour, minute, tzinfo=night.site.zone).astimezone(UTC)
        for hour, minute in ((9, 14), (10, 22))
    )

    def apart(moment: datetime) -> float:
        return separation_deg(night.position(Body.VENUS, moment), night.position(Body.MOON, moment))

    assert apart(begins) == pytest.approx(0.264, abs=0.002)
    assert apart(ends) == pytest.approx(0.295, abs=0.002)
    # Between the two Venus is behind the Moon, whose radius is a quarter of a degree.
    assert min(apart(begins + timedelta(minutes=minutes)) for minutes in range(69)) < 0.25
    assert night.position(Body.SUN, begins).altitude_deg == pytest.approx(26.8, abs=0.05)
    assert night.position(Body.VENUS, ends).altitude_deg == pytest.approx(40.0, abs=0.05)
    aim = best_aim(night, Body.VENUS, begins)
    (caution,) = aim_notices(aim)
    assert caution.startswith("Venus stands 16° west of the Sun, which is up")
    assert "in the shadow of something solid" in caution


@pytest.mark.parametrize("hour", [0, 7, 13, 19])
@pytest.mark.parametrize("site", [ROME, SYDNEY, FAIRBANKS], ids=["rome", "sydney", "fairbanks"])
def test_distances_on_the_sky_are_those_seen_from_the_place_itself(site: Site, hour: int) -> None:
    # Against PyEphem; from the Earth's centre the Moon would be off by up to a degree.
    night = compute_night(site, date(2026, 12, 5))
    observer = ephem.Observer()
    observer.lat, observer.lon = str(site.latitude_deg), str(site.longitude_deg)
    observer.pressure = 0
    moment = night.start + timedelta(hours=hour)
    observer.date = moment.replace(tzinfo=None)
    for planet in (Body.VENUS, Body.MARS, Body.SATURN):
        moon, other = ephem.Moon(observer), getattr(ephem, planet.heading)(observer)
        expected = np.degrees(float(ephem.separation((moon.az, moon.alt), (other.az, other.alt))))

        found = separation_deg(night.position(Body.MOON, moment), night.position(planet, moment))

        assert found == pytest.approx(expected, abs=0.01)
