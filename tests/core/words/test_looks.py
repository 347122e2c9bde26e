"""How a planet looks, in words: each branch of each fact."""

import re
from datetime import UTC, date, datetime
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from attrs import evolve

from core.looks.happenings import Happenings
from core.looks.picture.subject import Subject, subject_at
from core.sky.bodies import Body
from core.sky.mars_season import MarsSeason
from core.sky.red_spot import RedSpotPasses
from core.words.happenings import happening_words, old_longitude_warning
from core.words.looks import facts
from core.words.site_clock import SiteClock

LISBON = SiteClock(zone=ZoneInfo("Europe/Lisbon"))


def subject_of(body: Body, **disc: Any) -> Subject:  # noqa: ANN401 - any of a disc's figures
    subject = subject_at(body, datetime(2026, 11, 24, 3, 0, tzinfo=UTC))
    return evolve(subject, disc=evolve(subject.disc, **disc))


def fact(subject: Subject, label: str) -> str | None:
    return dict(facts(subject)).get(label)


@pytest.mark.parametrize(
    ("wide_arcsec", "high_arcsec", "words"),
    [
        (1800.0, 1800.0, "30.0′ wide, 50% lit"),
        (299.0, 299.0, "299.0″ wide, 50% lit"),
        (40.0, 39.96, "40.0″ wide, 50% lit"),
        (40.0, 39.94, "40.0″ wide, 39.9″ high, 50% lit"),
        (1.955, 1.955, "1.96″ wide, 50% lit"),
    ],
)
def test_the_disc(wide_arcsec: float, high_arcsec: float, words: str) -> None:
    subject = subject_of(
        Body.VENUS,
        equatorial_diameter_arcsec=wide_arcsec,
        polar_diameter_arcsec=high_arcsec,
        illuminated_fraction=0.495,
    )

    assert fact(subject, "disc") == words


def test_the_lit_side_is_told_unless_all_is_lit() -> None:
    assert fact(subject_of(Body.MARS, illuminated_fraction=0.996), "lit side") is None
    subject = subject_of(Body.MARS, illuminated_fraction=0.994, bright_limb_angle_deg=359.7)
    assert fact(subject, "lit side") == "faces position angle 0°"


@pytest.mark.parametrize(("east", "words"), [(True, "43° east"), (False, "43° west")])
def test_the_side_of_the_sun(east: bool, words: str) -> None:
    assert fact(subject_of(Body.VENUS, elongation_deg=42.5, east_of_sun=east), "from the Sun") == words


@pytest.mark.parametrize(("magnitude", "words"), [(-4.35, "magnitude −4.4"), (0.0, "magnitude 0.0")])
def test_the_brightness(magnitude: float, words: str) -> None:
    assert fact(subject_of(Body.VENUS, magnitude=magnitude), "brightness") == words


@pytest.mark.parametrize(
    ("tilt_deg", "words"),
    [(0.0, "north pole 0.0° towards us"), (7.25, "north pole 7.3° towards us"), (-7.25, "south pole 7.3°")],
)
def test_the_pole_towards_us(tilt_deg: float, words: str) -> None:
    subject = subject_of(Body.SATURN, sub_earth_latitude_planetographic_deg=tilt_deg, pole_angle_deg=4.5)

    axis = fact(subject, "axis")
    assert axis is not None
    assert axis.startswith(f"position angle 5°, {words}")
    assert fact(subject_of(Body.MOON), "axis") is None


@pytest.mark.parametrize(
    ("opening_deg", "sun_latitude_deg", "face"),
    [
        (6.05, 5.0, "northern face"),
        (6.05, -5.0, "northern face, unlit"),
        (-6.05, -5.0, "southern face"),
        (-6.05, 5.0, "southern face, unlit"),
    ],
)
def test_the_ring(opening_deg: float, sun_latitude_deg: float, face: str) -> None:
    subject = subject_of(Body.SATURN)
    assert subject.ring is not None
    ring = evolve(
        subject.ring,
        opening_deg=opening_deg,
        sun_latitude_deg=sun_latitude_deg,
        major_axis_arcsec=42.0,
        minor_axis_arcsec=4.4,
    )

    assert fact(evolve(subject, ring=ring), "ring") == f"42.0″ by 4.4″, 6.1° open, {face}"


@pytest.mark.parametrize(
    ("longitude_deg", "words"),
    [
        (45.0, "mid spring in the north, mid autumn in the south (Ls 45°)"),
        (
            329.0,
            "mid winter in the north, mid summer in the south (Ls 329°); dust storms are likeliest now",
        ),
        (330.0, "late winter in the north, late summer in the south (Ls 330°)"),
        (359.6, "late winter in the north, late summer in the south (Ls 0°)"),
    ],
)
def test_the_season_on_mars(longitude_deg: float, words: str) -> None:
    subject = evolve(subject_of(Body.MARS), season=MarsSeason(solar_longitude_deg=longitude_deg))

    assert fact(subject, "season") == words


@pytest.mark.parametrize(
    ("ahead_deg", "sunrise_deg", "words"),
    [
        (60.0, 30.0, "at 30° east, the Sun rises there (colongitude 331°)"),
        (120.0, -30.0, "at 30° west, the Sun rises there (colongitude 331°)"),
        (240.0, -150.0, "at 30° east, the Sun sets there (colongitude 331°)"),
        (300.0, 150.0, "at 30° west, the Sun sets there (colongitude 331°)"),
    ],
)
def test_where_day_meets_night(ahead_deg: float, sunrise_deg: float, words: str) -> None:
    subject = subject_of(Body.MOON)
    assert subject.phase is not None
    phase = evolve(
        subject.phase,
        ahead_of_sun_deg=ahead_deg,
        sunrise_longitude_deg=sunrise_deg,
        sunset_longitude_deg=sunrise_deg + 180.0 if sunrise_deg < 0.0 else sunrise_deg - 180.0,
        colongitude_deg=330.5,
    )

    assert fact(evolve(subject, phase=phase), "day meets night") == words


def test_the_red_spot_s_passages() -> None:
    spot = RedSpotPasses(
        longitude_deg=70.5,
        measured_on=date(2026, 11, 1),
        times=(datetime(2026, 12, 5, 21, 40, tzinfo=UTC), datetime(2026, 12, 6, 7, 36, tzinfo=UTC)),
        days_from_measured=34,
    )

    (_, passages) = happening_words(Body.JUPITER, Happenings(red_spot=spot), LISBON)
    later = evolve(spot, times=(), next_seen=datetime(2026, 12, 8, 3, 12, tzinfo=UTC))
    (_, following) = happening_words(Body.JUPITER, Happenings(red_spot=later), LISBON)
    (_, none) = happening_words(Body.JUPITER, Happenings(red_spot=evolve(spot, times=())), LISBON)

    assert passages == (
        "The red spot is in the middle at 21:40 on Sat 5 December 2026 and at 07:36 on Sun 6 December 2026, "
        "and well placed for 50 minutes either side (System II longitude 71° on 1 November 2026)."
    )
    assert following == (
        "The red spot is not in the middle while Jupiter can be looked at this evening; next it is at 03:12 "
        "on Tue 8 December 2026 (System II longitude 71° on 1 November 2026)."
    )
    assert none == (
        "The red spot is not in the middle while Jupiter can be looked at this evening, nor in the months "
        "ahead (System II longitude 71° on 1 November 2026)."
    )
    assert old_longitude_warning(spot) is None
    old = evolve(spot, days_from_measured=400)
    warning = (
        "The red spot's longitude was measured 400 days away from this evening. The spot drifts: it may pass "
        f"{old.uncertain_by_minutes} minutes or more early or late. Enter a newer longitude."
    )
    assert old_longitude_warning(old) == warning
    assert list(happening_words(Body.JUPITER, Happenings(red_spot=old), LISBON))[-1] == warning
    assert list(happening_words(Body.SATURN, Happenings(red_spot=old), LISBON)) == []


def test_the_central_meridian_is_told_of_each_system_and_of_what_turns_as_one() -> None:
    jupiter, mars = (
        fact(subject_of(Body.JUPITER), "central meridian"),
        fact(subject_of(Body.MARS), "central meridian"),
    )

    assert jupiter is not None
    assert re.fullmatch(r"system I \d+°, system II \d+°, system III \d+°", jupiter)
    assert mars is not None
    assert re.fullmatch(r"\d+°", mars)
    assert fact(subject_of(Body.VENUS), "central meridian") is None
