"""What a body shows on a date, and what that promises: real discs, rings, moons and seasons."""

import math
from datetime import UTC, datetime, timedelta

import attrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.looks.face import face_of
from core.looks.feature_rules import Feature, HeldBack, Likelihood
from core.looks.features import FeatureChance, Seen, features_of
from core.looks.happenings import Happenings
from core.looks.picture.subject import Subject, subject_at
from core.sky.bodies import Body
from core.sky.moons import Moon, MoonEvent, MoonEventKind, moon_events
from core.sky.red_spot import RedSpotPasses
from core.sky.ring import Ring

LIKELY, POSSIBLE, UNLIKELY = Likelihood.LIKELY, Likelihood.POSSIBLE, Likelihood.UNLIKELY
STEADY, FAIR = 0.8, 1.45


def at(body: Body, text: str) -> Subject:
    return subject_at(body, datetime.fromisoformat(text).replace(tzinfo=UTC))


SATURN = at(Body.SATURN, "2026-11-24T03:00:00")
JUPITER = at(Body.JUPITER, "2026-11-24T03:00:00")


def promised(
    subject: Subject, finest: float, power: float, events: tuple[MoonEvent, ...] = ()
) -> dict[Feature, FeatureChance]:
    seen = Seen(finest_arcsec=finest, aperture_mm=150, power=power)
    return {each.feature: each for each in features_of(face_of(subject, events), seen)}


def test_a_nearly_closed_ring_is_a_shape_at_low_power_and_has_no_gap_in_usual_air() -> None:
    """April 2009: 3.8 degrees open."""
    saturn = at(Body.SATURN, "2009-04-15T21:00:00")

    low, high = promised(saturn, 1.7, 20), promised(saturn, 1.4, 165)

    assert low[Feature.RING].likelihood is POSSIBLE
    assert Feature.RING_LINE not in low
    for found in (low, high):
        assert found[Feature.RING_GAP].likelihood is UNLIKELY
    assert high[Feature.RING_GAP].held_back_by is HeldBack.OPENING


def test_an_open_ring_in_steady_air_shows_its_gap() -> None:
    saturn = at(Body.SATURN, "2029-11-24T21:00:00")

    assert promised(saturn, STEADY, 200)[Feature.RING_GAP].likelihood is LIKELY
    assert promised(saturn, FAIR, 200)[Feature.RING_GAP].likelihood is POSSIBLE
    assert promised(saturn, 4.0, 200)[Feature.RING_GAP].likelihood is UNLIKELY


def test_an_edge_on_ring_is_not_promised_at_all() -> None:
    found = promised(at(Body.SATURN, "2025-03-23T18:00:00"), STEADY, 200)

    assert {found[each].likelihood for each in (Feature.RING, Feature.RING_LINE, Feature.RING_GAP)} == {
        UNLIKELY
    }


def test_the_unlit_side_of_the_ring_is_told() -> None:
    found = promised(at(Body.SATURN, "2025-04-15T04:00:00"), STEADY, 200)

    assert found[Feature.RING].held_back_by is HeldBack.UNLIT_SIDE
    assert found[Feature.RING_GAP].likelihood is UNLIKELY


def test_jupiter_s_belts_need_about_50x_and_its_moons_10x() -> None:
    """Common practice, no source."""
    low, enough = promised(JUPITER, FAIR, 20), promised(JUPITER, FAIR, 60)

    assert low[Feature.MOONS].likelihood is LIKELY
    assert low[Feature.MAIN_BELTS].likelihood is UNLIKELY
    assert low[Feature.MAIN_BELTS].held_back_by is HeldBack.POWER
    assert enough[Feature.MAIN_BELTS].likelihood is LIKELY


def test_the_widest_moon_beside_jupiter_is_one_that_is_seen() -> None:
    face = face_of(JUPITER)
    beside = [moon for moon in JUPITER.moons if moon.is_visible and not moon.in_transit]

    assert face.moons_beside == len(beside)
    assert face.widest_moon_arcsec is not None
    widest = max(abs(moon.x_radii) for moon in beside) * JUPITER.disc.equatorial_diameter_arcsec / 2
    assert face.widest_moon_arcsec == pytest.approx(widest, rel=0.02)


def test_a_shadow_on_jupiter_is_told_in_the_hours_it_happens() -> None:
    events = moon_events(JUPITER.disc.time, JUPITER.disc.time.replace(hour=5))

    shadow = promised(JUPITER, FAIR, 150, events)[Feature.MOON_SHADOW]

    assert shadow.likelihood is POSSIBLE
    assert shadow.moon in {event.moon for event in events}
    assert Feature.MOON_SHADOW not in promised(JUPITER, FAIR, 150)


def test_each_shadow_is_told_once_with_the_width_of_its_moon() -> None:
    """Europa is 3122 and Ganymede 5262 km wide, Jupiter 142,984 (published radii): 0.0218 and 0.0368."""
    start, end = JUPITER.disc.time, JUPITER.disc.time + timedelta(hours=2)
    kinds = (MoonEventKind.SHADOW_TRANSIT, MoonEventKind.SHADOW_TRANSIT, MoonEventKind.TRANSIT)
    moons = (Moon.EUROPA, Moon.GANYMEDE, Moon.IO)
    events = tuple(
        MoonEvent(moon=moon, kind=kind, start=start, end=end, start_seen=True, end_seen=True)
        for moon, kind in zip(moons, kinds, strict=True)
    )

    face = face_of(JUPITER, (*events, events[0]))

    across = JUPITER.disc.equatorial_diameter_arcsec
    assert [moon for moon, _ in face.shadows] == [Moon.EUROPA, Moon.GANYMEDE]
    widths = [width / across for _, width in face.shadows]
    assert widths == pytest.approx([0.0218, 0.0368], rel=0.005)
    assert face_of(JUPITER).shadows == ()


def test_what_a_face_has_of_its_disc() -> None:
    venus = at(Body.VENUS, "2026-09-24T18:00:00")
    face = face_of(venus)

    assert (face.body, face.ring, face.moons_beside, face.widest_moon_arcsec) == (Body.VENUS, None, 0, None)
    assert face.diameter_arcsec == venus.disc.equatorial_diameter_arcsec
    assert face.illuminated_fraction == venus.disc.illuminated_fraction
    # What is lit of a disc is (1 + cos of the phase angle) / 2 (geometry).
    assert (1 + math.cos(math.radians(face.phase_angle_deg))) / 2 == pytest.approx(
        face.illuminated_fraction, abs=0.002
    )
    assert not face.dust
    assert face_of(SATURN).ring == SATURN.ring


@pytest.mark.parametrize(("when", "north"), [("2027-02-19T21:00:00", True), ("2020-10-13T23:00:00", False)])
def test_a_cap_reaches_in_as_far_as_its_edge_turned_towards_us(when: str, north: bool) -> None:
    """The point of the cap's edge on the middle meridian, turned by the tilt, seen from far away."""
    mars = at(Body.MARS, when)
    season, disc = mars.season, mars.disc
    assert season is not None
    tilt = math.radians(disc.sub_earth_latitude_planetographic_deg)

    def reach(latitude_deg: float, pole: int) -> float:
        towards_us, north = math.cos(math.radians(latitude_deg)), math.sin(math.radians(latitude_deg))
        seen_north = north * math.cos(tilt) - towards_us * math.sin(tilt)
        return (1 - pole * seen_north) * disc.polar_diameter_arcsec / 2

    face = face_of(mars)

    if north:
        assert face.north_cap_arcsec == pytest.approx(reach(season.north_cap_edge_deg, 1))
    else:
        assert face.south_cap_arcsec == pytest.approx(reach(-season.south_cap_edge_deg, -1))
    assert face_of(JUPITER).north_cap_arcsec is None


def test_what_jupiter_does_is_promised_only_for_the_hours_that_are_left() -> None:
    """Io's shadow crosses long after packing up, and the spot comes round once, at five."""
    start, late = JUPITER.disc.time.replace(hour=1), JUPITER.disc.time.replace(hour=5)
    shadow = MoonEvent(
        moon=Moon.IO,
        kind=MoonEventKind.SHADOW_TRANSIT,
        start=late,
        end=late + timedelta(hours=2),
        start_seen=True,
        end_seen=True,
    )
    spot = RedSpotPasses(longitude_deg=70, measured_on=start.date(), times=(late,), days_from_measured=0)
    found = Happenings(events=(shadow,), events_to_see=(shadow,), red_spot=spot)

    early = found.between(start, start + timedelta(hours=2))
    assert early.events_to_see == ()
    assert early.spot_stays_away
    assert Feature.RED_SPOT not in {
        each.feature
        for each in features_of(
            face_of(JUPITER, spot_stays_away=True), Seen(finest_arcsec=FAIR, aperture_mm=150, power=150)
        )
    }

    to_the_end = found.between(start, late + timedelta(minutes=5))
    assert to_the_end.events_to_see == (shadow,)
    assert not to_the_end.spot_stays_away
    # Where its longitude is not known nobody can tell.
    assert not Happenings().spot_stays_away


def test_a_small_mars_promises_nothing_on_its_disc() -> None:
    small, large = at(Body.MARS, "2026-01-19T12:00:00"), at(Body.MARS, "2027-02-19T21:00:00")

    assert promised(small, FAIR, 200)[Feature.DARK_MARKINGS].likelihood is UNLIKELY
    assert promised(large, FAIR, 200)[Feature.DARK_MARKINGS].likelihood is LIKELY


def test_the_season_of_dust_holds_mars_back() -> None:
    """October 2020: the disc 22 arcsec wide, Ls about 295 (dust storms are usual from 180 to 330)."""
    mars = at(Body.MARS, "2020-10-13T23:00:00")

    found = promised(mars, STEADY, 250)[Feature.DARK_MARKINGS]

    assert face_of(mars).dust
    assert (found.likelihood, found.held_back_by) == (POSSIBLE, HeldBack.DUST)


def test_a_cap_that_is_turned_away_is_not_promised() -> None:
    # In February 2027 it is the north that tilts towards us.
    found = promised(at(Body.MARS, "2027-02-19T21:00:00"), 0.5, 300)

    assert found[Feature.NORTH_CAP].likelihood is LIKELY
    assert found[Feature.SOUTH_CAP].held_back_by is HeldBack.TURNED_AWAY


def test_clouds_of_venus_are_never_promised() -> None:
    found = promised(at(Body.VENUS, "2026-09-24T18:00:00"), 0.3, 400)

    assert found[Feature.PHASE].face.is_crescent
    assert found[Feature.PHASE].likelihood is LIKELY
    assert found[Feature.FAINT_MARKINGS].likelihood is UNLIKELY


def test_a_full_moon_promises_rays_and_not_shadows() -> None:
    full = promised(at(Body.MOON, "2026-11-24T12:00:00"), FAIR, 100)
    half = promised(at(Body.MOON, "2026-11-17T12:00:00"), FAIR, 100)

    assert (full[Feature.RAYS].likelihood, full[Feature.RELIEF].likelihood) == (LIKELY, UNLIKELY)
    assert (half[Feature.RAYS].likelihood, half[Feature.RELIEF].likelihood) == (UNLIKELY, LIKELY)


@given(opening=st.floats(-27, 27), finest=st.floats(1.0, 5))
def test_a_gap_is_not_likely_in_usual_air_in_a_ring_less_than_eight_degrees_open(
    opening: float, finest: float
) -> None:
    ring = Ring(
        opening_deg=opening,
        sun_latitude_deg=opening,
        major_axis_arcsec=44.0,
        minor_axis_arcsec=44.0 * abs(opening) / 60.0,
        gap_width_arcsec=0.72,
    )

    gap = promised(attrs.evolve(SATURN, ring=ring), finest, 500)[Feature.RING_GAP].likelihood

    if abs(opening) < 8.0:
        assert gap is not LIKELY
    if abs(opening) < 2.7:
        assert gap is UNLIKELY
