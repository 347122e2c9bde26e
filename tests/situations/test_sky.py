"""Where and when: the wrong planet, elongation that misleads, the poles, refraction.

The questions are public ones; unless a comment says otherwise, figures were computed with Skyfield 1.55 and
DE421: apparent places, airless altitudes, rise and set at -34', the Sun's at -50'.
"""

import re
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from functools import cache

import ephem
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.air.atmosphere import refraction_deg
from core.air.blur import Blur
from core.report.heights import heights_text
from core.sky.bodies import Body
from core.sky.disc import disc_at
from core.sky.events import BodyState
from core.sky.night import Night, compute_night
from core.sky.site import Site
from core.tonight.limiter import Limiter
from core.words.body_readings import CeilingBasis, read_bodies
from core.words.site_clock import SiteClock
from tests.core.telling import answer, situation_of
from tests.situations.conftest import AskJson
from tests.situations.owners import LONDON, MELBOURNE, eyepieces, owner, place, scope

SIX = scope("reflector", 150, 1200)
FAIRBANKS = place(64.84, -147.72, "America/Anchorage")
SCOTLAND = place(56.5, -3.0, "Europe/London")
MID_UK = place(53.0, -2.0, "Europe/London")
TROMSO = place(69.65, 18.96, "Europe/Oslo")
SYDNEY = place(-33.87, 151.21, "Australia/Sydney")


@cache
def night_at(site: Site, evening: str) -> Night:
    return compute_night(site, date.fromisoformat(evening))


def words_of(site: Site, evening: str, planet: Body) -> str:
    told = answer(night_at(site, evening), planet=planet, scope=SIX, eyepieces=eyepieces(25, 10))
    return " ".join([told.sentence, *told.reasons])


def test_the_bright_thing_over_melbourne_is_not_jupiter_but_venus() -> None:
    night = night_at(MELBOURNE, "2009-02-05")
    dusk = datetime(2009, 2, 5, 10, 0, tzinfo=UTC)
    jupiter, venus = night.position(Body.JUPITER, dusk), night.position(Body.VENUS, dusk)
    disc = disc_at(Body.VENUS, dusk)

    assert jupiter.altitude_deg == pytest.approx(-10.7, abs=0.1)
    assert venus.altitude_deg == pytest.approx(14, abs=0.5)
    assert night.of(Body.JUPITER).elongation_deg == pytest.approx(9.5, abs=0.6)
    assert disc.elongation_deg == pytest.approx(45, abs=0.5)
    assert disc.east_of_sun
    assert disc.illuminated_fraction == pytest.approx(0.38, abs=0.005)
    assert disc.equatorial_diameter_arcsec == pytest.approx(31.7, abs=0.1)
    told = words_of(MELBOURNE, "2009-02-05", Body.JUPITER)
    assert "in the west, is Venus and not Jupiter" in told


# Jupiter was behind the Sun in May 2012 and April 2023 while Venus shone in the evening, and so was Mars in
# November 2023 while Jupiter shone all night; Venus passed the Sun in October 2010 while Jupiter shone.
@pytest.mark.parametrize(
    ("evening", "wanted", "bright"),
    [
        ("2012-05-10", Body.JUPITER, Body.VENUS),
        ("2023-04-12", Body.JUPITER, Body.VENUS),
        ("2023-11-18", Body.MARS, Body.JUPITER),
        ("2010-10-28", Body.VENUS, Body.JUPITER),
    ],
)
@pytest.mark.parametrize("site", [LONDON, MELBOURNE], ids=["london", "melbourne"])
def test_whoever_looks_for_a_planet_that_is_not_there_is_told_what_shines(
    site: Site, evening: str, wanted: Body, bright: Body
) -> None:
    told = words_of(site, evening, wanted)

    assert f"is {bright.label} and not {wanted.label}" in told


@pytest.mark.parametrize("evening", ["2026-12-05", "2027-01-05", "2027-02-10"])
def test_a_planet_that_is_there_is_not_doubted(evening: str) -> None:
    assert "and not Jupiter" not in words_of(LONDON, evening, Body.JUPITER)


# How long a planet stays in a field of 50 degrees at 48x; edge to edge through the middle.
@pytest.mark.parametrize(
    ("planet", "evening"),
    [
        (Body.SATURN, "2026-12-05"),
        (Body.JUPITER, "2026-12-05"),
        (Body.MARS, "2022-12-08"),
        (Body.VENUS, "2023-05-20"),
        (Body.NEPTUNE, "2026-10-10"),
    ],
)
def test_a_planet_drifts_by_its_own_declination(ask_json: AskJson, planet: Body, evening: str) -> None:
    kit = owner(SIX, eyepieces=eyepieces(25, 5, apparent_field_deg=50))

    ladder = ask_json(kit, "ladder", "--planet", planet.value, "--evening", evening)

    moment = datetime.fromisoformat(ladder["at"]).replace(tzinfo=None)
    place_of = getattr(ephem, planet.heading)(ephem.Date(moment))  # its declination from PyEphem
    # 249.3 s and 49.9 s on the equator of the sky.
    wide, narrow = (rung["drift_s"] for rung in ladder["rungs"])
    assert wide == pytest.approx(249.3 / np.cos(float(place_of.dec)), rel=0.002)
    assert narrow == pytest.approx(49.86 / np.cos(float(place_of.dec)), rel=0.002)


def test_a_driven_mount_has_no_drift(ask_json: AskJson) -> None:
    driven = scope("reflector", 150, 1200, driven=True)

    ladder = ask_json(owner(driven, eyepieces=eyepieces(25, apparent_field_deg=50)), "ladder")

    assert ladder["rungs"][0]["drift_s"] is None


def minutes_after_sunset(night: Night, planet: Body) -> float:
    sunset = night.sun.set
    assert sunset is not None
    sets = min(night.of(planet).sets, key=lambda time: abs(time - sunset))
    return (sets - sunset).total_seconds() / 60


@pytest.mark.parametrize(
    ("site", "evening", "planet", "altitude_deg", "minutes"),
    [
        (SCOTLAND, "2021-09-14", Body.MERCURY, 1.1, 12.6),
        (SCOTLAND, "2021-09-01", Body.VENUS, 5.73, 48.0),
        (FAIRBANKS, "2016-08-16", Body.MERCURY, -2.0, -13.9),
    ],
)
def test_an_inner_planet_far_from_the_sun_may_still_be_out_of_sight(
    site: Site, evening: str, planet: Body, altitude_deg: float, minutes: float
) -> None:
    night = night_at(site, evening)
    assert night.sun.set is not None

    assert night.of(planet).elongation_deg > 26
    assert night.position(planet, night.sun.set).altitude_deg == pytest.approx(altitude_deg, abs=0.06)
    assert minutes_after_sunset(night, planet) == pytest.approx(minutes, abs=0.4)
    told = answer(night, planet=planet)
    assert told.best is None
    assert told.limiter in (Limiter.TOO_LOW, Limiter.NO_DARK_SKY)
    assert "best" not in told.sentence


@pytest.mark.parametrize(
    ("site", "evening", "planet", "altitude_deg"),
    [
        (MID_UK, "2018-07-26", Body.MARS, 11.5),
        (MID_UK, "2021-08-19", Body.JUPITER, 23.45),
    ],
)
def test_an_opposition_low_in_the_south_is_called_low(
    site: Site, evening: str, planet: Body, altitude_deg: float
) -> None:
    night = night_at(site, evening)

    assert night.of(planet).transits[0].altitude_deg == pytest.approx(altitude_deg, abs=0.06)
    told = answer(night, planet=planet)
    assert told.limiter is Limiter.HEIGHT
    assert "though low, in thick air" in told.sentence
    assert f": {altitude_deg:.0f}°" in told.sentence


def spans_of(body: dict[str, object]) -> Iterator[tuple[str, str]]:
    for key in ("above_30", "above_45"):
        yield from body[key]  # type: ignore[misc]  # a list of pairs of times
    for key in ("windows", "blocked"):
        yield from ((span["start"], span["end"]) for span in body[key])  # type: ignore[attr-defined]


@pytest.mark.parametrize("latitude_deg", [-78.0, -66.5, 0.0, 64.84, 85.0])
@pytest.mark.parametrize("evening", ["2016-08-16", "2026-06-21", "2026-12-21"])
def test_no_stretch_of_time_is_ever_empty_or_negative(
    ask_json: AskJson, latitude_deg: float, evening: str
) -> None:
    site = place(latitude_deg, -147.72, "America/Anchorage")

    told = ask_json(owner(site=site), "heights", "--evening", evening)

    for body in told["bodies"]:
        assert (body["windows"] == []) == (body["why_not"] is not None)
        for start, end in spans_of(body):
            assert told["start"] <= start < end <= told["end"]


@pytest.mark.parametrize(
    ("site", "evening", "planet"),
    [
        (SYDNEY, "2026-01-10", Body.JUPITER),
        (SYDNEY, "2026-10-04", Body.SATURN),
        (place(-41.3, 174.8, "Pacific/Auckland"), "2026-12-05", Body.MOON),
        (place(1.87, -157.4, "Pacific/Kiritimati"), "2026-12-05", Body.URANUS),
    ],
)
def test_in_the_south_a_planet_passes_north_and_nobody_is_told_to_face_south(
    site: Site, evening: str, planet: Body
) -> None:
    night = night_at(site, evening)
    (transit,) = night.of(planet).transits
    clock, sight = SiteClock(zone=site.zone), CeilingBasis(scope=None, blur=Blur.assumed(), usual_air=300)

    for minutes in range(-30, 31, 5):
        moment = transit.time + timedelta(minutes=minutes)
        reading = next(each for each in read_bodies(night, moment, sight, clock) if each.body is planet)
        azimuth, letters = re.fullmatch(r"(\d+)° ([NSEW]+)", reading.short_direction).groups()  # type: ignore[union-attr]
        assert 0 <= int(azimuth) < 360
        assert "N" in letters
        assert "south" not in reading.direction
        # The height, which is what the chart draws, runs on smoothly through 360 degrees.
        assert night.position(planet, moment).altitude_deg == pytest.approx(
            transit.altitude_deg, abs=8 if transit.altitude_deg > 60 else 3
        )


@pytest.mark.parametrize(("altitude_deg", "warm_arcmin", "cold_arcmin"), [(5.0, 9.9, 11.5), (10.0, 5.4, 6.3)])
def test_refraction_low_down(altitude_deg: float, warm_arcmin: float, cold_arcmin: float) -> None:
    # Skyfield at 1010 mb and 10 °C, at apparent altitudes; colder by the law of gases: 283 K over 243 K.
    for temperature_c, arcmin in ((10.0, warm_arcmin), (-30.0, cold_arcmin)):
        true_deg = altitude_deg - arcmin / 60
        found = float(refraction_deg(true_deg, temperature_c=temperature_c)) * 60
        assert found == pytest.approx(arcmin, rel=0.03)


@pytest.mark.parametrize("elevation_m", [0.0, 3000.0, 6000.0])
@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "zone"),
    [
        (51.48, 0.0, "Europe/London"),
        (-33.87, 151.21, "Australia/Sydney"),
        (61.2, -149.9, "America/Anchorage"),
    ],
)
def test_refraction_is_counted_once_at_the_horizon_and_leaves_no_kink(
    latitude_deg: float, longitude_deg: float, zone: str, elevation_m: float
) -> None:
    site = place(latitude_deg, longitude_deg, zone, elevation_m=elevation_m)
    night = compute_night(site, date(2026, 12, 5))
    assert night.sun.set is not None

    # A mountain does not lower the horizon: rise and set stay at the almanac's altitudes.
    assert night.position(Body.SUN, night.sun.set).altitude_deg == pytest.approx(-50 / 60, abs=0.001)
    for body in night.bodies:
        for time in (*body.rises, *body.sets):
            assert night.position(body.body, time).altitude_deg == pytest.approx(-34 / 60, abs=0.001)
        # What is drawn never bends by more in a minute than refraction itself can: 0.03 degrees.
        assert np.abs(np.diff(body.track.apparent_altitude_deg, n=2)).max() < 0.03


@pytest.mark.parametrize(
    ("site", "evening", "planet", "state", "words"),
    [
        (TROMSO, "2027-11-28", Body.VENUS, BodyState.NEVER_UP, "never up, for it stays at least 4.5° below"),
        (TROMSO, "2027-11-28", Body.MARS, BodyState.NEVER_UP, "never up, for it stays at least 4.1° below"),
        (TROMSO, "2027-11-28", Body.URANUS, BodyState.ALWAYS_UP, "always up"),
        (TROMSO, "2027-11-28", Body.SATURN, BodyState.NORMAL, "low"),
        (SCOTLAND, "2018-07-27", Body.MARS, BodyState.NORMAL, "never above 8° in a dark sky"),
        (TROMSO, "2026-06-21", Body.JUPITER, BodyState.ALWAYS_UP, "always up, but never in a dark sky"),
    ],
)
def test_always_up_and_never_up_and_too_low_are_told_apart(
    site: Site, evening: str, planet: Body, state: BodyState, words: str
) -> None:
    night = night_at(site, evening)

    told = heights_text(situation_of(night, planet=planet), width=200)

    assert night.of(planet).state is state
    table = told.partition("in the dark, above 10°")[2].splitlines()
    row = next(line for line in table if line.startswith(planet.heading + " "))
    assert words in row
    if state is not BodyState.NORMAL:
        assert re.match(rf"{planet.heading} +- ", row)
        assert "tomorrow" not in told


@settings(max_examples=15, deadline=None)
@given(
    st.floats(58, 89) | st.floats(-89, -58),
    st.floats(-180, 180),
    st.dates(date(2020, 1, 1), date(2040, 1, 1)),
)
def test_a_body_without_rise_and_set_is_told_by_its_highest_and_lowest(
    latitude_deg: float, longitude_deg: float, evening: date
) -> None:
    night = compute_night(place(latitude_deg, longitude_deg, "UTC"), evening)

    for body in night.bodies:
        lowest, highest = body.track.altitude_deg.min(), body.track.altitude_deg.max()
        told = answer(night, planet=body.body).sentence
        if body.state is BodyState.NEVER_UP:
            assert highest < -34 / 60
            assert "never up" in told
        elif body.state is BodyState.ALWAYS_UP:
            assert lowest > -34 / 60
            assert "never up" not in told
        else:
            assert lowest - 0.01 <= -34 / 60 <= highest + 0.01
            assert body.rises or body.sets
            continue
        assert body.rises == body.sets == ()
