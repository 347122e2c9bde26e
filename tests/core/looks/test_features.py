"""What to expect: the design's check lines, nothing that jumps, and what must always hold."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.looks.face import Face
from core.looks.feature_rules import (
    RULES,
    Feature,
    HeldBack,
    Likelihood,
    by_detail,
    likelihood,
    lost_by_power,
    probability,
)
from core.looks.features import FeatureChance, Seen, features_of
from core.sky.bodies import Body
from core.sky.moons import Moon
from core.sky.ring import Ring

LIKELY, POSSIBLE, UNLIKELY = Likelihood.LIKELY, Likelihood.POSSIBLE, Likelihood.UNLIKELY


def ring(opening_deg: float, sun_deg: float | None = None, axis_arcsec: float = 43.0) -> Ring:
    return Ring(
        opening_deg=opening_deg,
        sun_latitude_deg=opening_deg if sun_deg is None else sun_deg,
        major_axis_arcsec=axis_arcsec,
        minor_axis_arcsec=axis_arcsec * abs(math.sin(math.radians(opening_deg))),
        gap_width_arcsec=axis_arcsec / 2 / 136_770 * 4480,
    )


JUPITER = Face(body=Body.JUPITER, diameter_arcsec=44, widest_moon_arcsec=150, shadows=((Moon.IO, 1.1),))
SATURN = Face(body=Body.SATURN, diameter_arcsec=19, ring=ring(20), phase_angle_deg=5)
MARS = Face(body=Body.MARS, diameter_arcsec=15, north_cap_arcsec=1.2, illuminated_fraction=0.92)
FACES = [
    JUPITER,
    SATURN,
    MARS,
    Face(body=Body.VENUS, diameter_arcsec=30, illuminated_fraction=0.4),
    Face(body=Body.MERCURY, diameter_arcsec=7, illuminated_fraction=0.5),
    Face(body=Body.URANUS, diameter_arcsec=3.7),
    Face(body=Body.NEPTUNE, diameter_arcsec=2.3),
    Face(body=Body.MOON, diameter_arcsec=1865, illuminated_fraction=0.5),
]


def seen(finest: float, power: float, aperture: float = 150) -> Seen:
    return Seen(finest_arcsec=finest, aperture_mm=aperture, power=power)


def one(face: Face, feature: Feature, how: Seen) -> FeatureChance:
    return next(each for each in features_of(face, how) if each.feature is feature)


def first_power(face: Face, feature: Feature, finest: float) -> float:
    """The lowest power at which a feature is likely."""
    return next(
        float(power)
        for power in range(4, 400)
        if one(face, feature, seen(finest, power)).likelihood is LIKELY
    )


# Common practice, no source.
@pytest.mark.parametrize(
    ("face", "feature", "finest", "low", "high"),
    [
        (JUPITER, Feature.MAIN_BELTS, 1.4, 42, 55),
        (JUPITER, Feature.MOONS, 1.4, 4, 10),
        (SATURN, Feature.RING, 1.4, 20, 30),
        (SATURN, Feature.RING_GAP, 0.9, 70, 95),
    ],
)
def test_from_about_which_power(face: Face, feature: Feature, finest: float, low: float, high: float) -> None:
    assert low <= first_power(face, feature, finest) <= high


def test_a_power_just_under_the_usual_takes_no_promise_away() -> None:
    assert one(JUPITER, Feature.MAIN_BELTS, seen(1.4, 48)).likelihood is LIKELY


@pytest.mark.parametrize(
    ("feature", "likely", "possible"),
    [(Feature.RING_GAP, 0.6, 0.3), (Feature.NORTH_CAP, 0.8, 0.4), (Feature.MOON_SHADOW, 0.8, 0.4)],
)
def test_least_sizes(feature: Feature, likely: float, possible: float) -> None:
    rule = RULES[feature]

    assert likelihood(by_detail(rule, likely, 1.0)) is LIKELY
    assert likelihood(by_detail(rule, likely * 0.98, 1.0)) is POSSIBLE
    assert likelihood(by_detail(rule, possible, 1.0)) is POSSIBLE
    assert likelihood(by_detail(rule, possible * 0.98, 1.0)) is UNLIKELY


@pytest.mark.parametrize("feature", RULES)
def test_what_is_likely_is_larger_than_what_is_only_possible(feature: Feature) -> None:
    rule = RULES[feature]

    assert 0.0 < rule.possible_from < rule.likely_from


@pytest.mark.parametrize(
    ("feature", "arcsec"),
    [
        (Feature.MAIN_BELTS, 180),
        (Feature.DARK_MARKINGS, 180),
        (Feature.RED_SPOT, 400),
        (Feature.RING_GAP, 70),
        (Feature.MOON_SHADOW, 60),
        # 25 to 30x for a ring 38 to 44 arcsec wide (common practice, no source).
        (Feature.RING, 1100),
    ],
)
def test_how_large_it_must_look(feature: Feature, arcsec: float) -> None:
    rule = RULES[feature]

    def told(looks: float) -> Likelihood:
        return likelihood(by_detail(rule, 100.0, 1.0) - lost_by_power(rule, 1.0, looks))

    assert lost_by_power(rule, 1.0, arcsec) == 0
    # One step less down to half of that, and unlikely below.
    assert [told(arcsec), told(arcsec * 0.8), told(arcsec / 2), told(arcsec * 0.48)] == [
        LIKELY,
        POSSIBLE,
        POSSIBLE,
        UNLIKELY,
    ]


@given(st.sampled_from(FACES), st.floats(0.3, 5), st.floats(5, 400), st.floats(40, 600))
def test_nothing_jumps(face: Face, finest: float, power: float, aperture: float) -> None:
    here = {each.feature: each.steps for each in features_of(face, seen(finest, power, aperture))}
    near = {
        each.feature: each.steps for each in features_of(face, seen(finest * 1.001, power * 1.001, aperture))
    }

    # What is left out of a list has no chance at all.
    for feature in here.keys() | near.keys():
        assert abs(near.get(feature, 0.0) - here.get(feature, 0.0)) < 0.01


@given(st.sampled_from(FACES), st.floats(0.3, 5), st.floats(5, 400), st.floats(1, 3), st.floats(1, 3))
def test_finer_air_and_more_power_never_take_a_promise_away(
    face: Face, finest: float, power: float, better: float, more: float
) -> None:
    here = {each.feature: each.steps for each in features_of(face, seen(finest, power))}
    there = {each.feature: each.steps for each in features_of(face, seen(finest / better, power * more))}

    assert all(there[feature] >= steps - 1e-9 for feature, steps in here.items())


@given(st.floats(0, 1), st.floats(0, 1))
def test_probabilities_rise_with_the_steps(first: float, second: float) -> None:
    low, high = sorted((first, second))

    assert 0 <= probability(low) <= probability(high) <= 1
    assert probability(1 / 3) == pytest.approx(7 / 27)


@given(st.floats(0.5, 4), st.floats(30, 300))
def test_the_likeliest_come_first(finest: float, power: float) -> None:
    for face in FACES:
        found = [each.likelihood for each in features_of(face, seen(finest, power))]
        assert found == sorted(found)


def test_an_80_and_a_400_mm_expect_different_things_in_the_same_air() -> None:
    def likely(aperture_mm: float) -> set[Feature]:
        finest = math.hypot(116 / aperture_mm, 0.6 * 1.45)
        found = [
            each
            for face in (JUPITER, SATURN, MARS)
            for each in features_of(face, seen(finest, 232 / finest, aperture_mm))
        ]
        return {each.feature for each in found if each.likelihood is LIKELY}

    assert likely(80) < likely(400)
    assert {Feature.RED_SPOT, Feature.RING_GAP, Feature.MOON_SHADOW} <= likely(400) - likely(80)


def test_a_crescent_and_the_belts_show_in_poor_air_at_any_sane_power() -> None:
    crescent = Face(body=Body.VENUS, diameter_arcsec=45, illuminated_fraction=0.2)
    for aperture_mm in (60, 80, 114, 200):
        finest = math.hypot(116 / aperture_mm, 0.6 * 3.0)
        for power in (50, 80, 120):
            assert one(crescent, Feature.PHASE, seen(finest, power)).likelihood is LIKELY
            assert one(JUPITER, Feature.MAIN_BELTS, seen(finest, power)).likelihood is LIKELY


def test_a_closed_ring_shows_a_line_and_no_gap() -> None:
    closed = Face(body=Body.SATURN, diameter_arcsec=19, ring=ring(2))
    edge = Face(body=Body.SATURN, diameter_arcsec=19, ring=ring(0.05))

    assert one(closed, Feature.RING_LINE, seen(1.0, 150)).likelihood is LIKELY
    assert one(closed, Feature.RING_GAP, seen(0.9, 250)).likelihood is UNLIKELY
    assert one(edge, Feature.RING_LINE, seen(0.6, 250)).likelihood is UNLIKELY
    assert one(edge, Feature.RING, seen(0.6, 250)).held_back_by is HeldBack.OPENING


def test_the_unlit_side_of_the_ring_hides_it() -> None:
    dark = Face(body=Body.SATURN, diameter_arcsec=19, ring=ring(4, sun_deg=-1))

    found = one(dark, Feature.RING, seen(0.8, 200))
    assert (found.likelihood, found.held_back_by) == (UNLIKELY, HeldBack.UNLIT_SIDE)


def test_the_narrow_gap_needs_a_large_aperture_in_steady_air() -> None:
    def best(aperture_mm: float) -> Likelihood:
        finest = math.hypot(116 / aperture_mm, 0.6 * 0.5)
        return one(SATURN, Feature.FINE_GAP, seen(finest, 400, aperture_mm)).likelihood

    assert best(200) is UNLIKELY
    assert best(600) is POSSIBLE
    told = {each.feature for each in features_of(SATURN, seen(1.6, 140, 80))}
    assert Feature.FINE_GAP not in told


def test_dust_takes_one_step_from_mars() -> None:
    dusty = Face(body=Body.MARS, diameter_arcsec=15, north_cap_arcsec=1.2, dust=True)
    how = seen(1.6, 150)

    clear, veiled = one(MARS, Feature.DARK_MARKINGS, how), one(dusty, Feature.DARK_MARKINGS, how)
    assert clear.steps - veiled.steps == pytest.approx(1 / 3)


def test_what_stands_in_the_way_is_named() -> None:
    assert one(JUPITER, Feature.RED_SPOT, seen(0.8, 60)).held_back_by is HeldBack.POWER
    assert one(JUPITER, Feature.RED_SPOT, seen(3.0, 200)).held_back_by is HeldBack.DETAIL
    assert one(JUPITER, Feature.MAIN_BELTS, seen(0.8, 200)).held_back_by is None
    assert one(MARS, Feature.SOUTH_CAP, seen(0.8, 200)).held_back_by is HeldBack.TURNED_AWAY
    assert one(SATURN, Feature.TITAN, seen(2.0, 60, 50)).held_back_by is HeldBack.APERTURE


def test_the_moon_s_relief_wants_a_terminator_and_its_rays_none() -> None:
    def moon(lit: float) -> tuple[Likelihood, Likelihood]:
        face = Face(body=Body.MOON, diameter_arcsec=1865, illuminated_fraction=lit)
        how = seen(1.4, 120)
        return one(face, Feature.RELIEF, how).likelihood, one(face, Feature.RAYS, how).likelihood

    assert moon(0.5) == (LIKELY, UNLIKELY)
    assert moon(0.95) == (LIKELY, LIKELY)
    assert moon(0.999) == (UNLIKELY, LIKELY)


def test_the_smallest_crater_by_aperture() -> None:
    # Common practice, no source: about 8 km in 60 mm, 4 to 6 km in 100 mm, 3 to 4 km in 200 mm of steady air.
    face = FACES[-1]
    for aperture_mm, low, high in ((60, 6, 9), (100, 4, 6), (200, 2.5, 4)):
        finest = math.hypot(116 / aperture_mm, 0.6 * 0.9)
        smallest = one(face, Feature.RELIEF, seen(finest, 232 / finest, aperture_mm)).smallest_km
        assert smallest is not None
        assert low <= smallest <= high


def test_every_feature_of_a_size_has_a_power_from_which_it_looks_full() -> None:
    for face in FACES:
        for each in features_of(face, seen(1.0, 100)):
            if each.feature in RULES and each.size_arcsec:
                # A phase shows in the outline of the whole disc.
                large = face.diameter_arcsec if each.feature is Feature.PHASE else each.size_arcsec
                assert each.looks_full_from is not None
                if each.feature is not Feature.RING_SPACE:  # which is judged by its area
                    assert np.isclose(each.looks_full_from * large, RULES[each.feature].looks_arcsec)


def test_a_shadowed_side_of_mars_shows_at_a_usual_power() -> None:
    """Common practice, no source: from about 100x where the air lets it, and not told of a full disc."""
    gibbous = Face(body=Body.MARS, diameter_arcsec=8, illuminated_fraction=0.88)
    full = Face(body=Body.MARS, diameter_arcsec=14, illuminated_fraction=0.999)

    found = one(gibbous, Feature.PHASE, seen(0.9, 120))
    assert found.likelihood is LIKELY
    assert found.looks_full_from is not None
    assert found.looks_full_from < 100
    assert Feature.PHASE not in {each.feature for each in features_of(full, seen(0.9, 200))}


def shadow_arcsec(opening_deg: float, sun_deg: float) -> float:
    face = Face(body=Body.SATURN, diameter_arcsec=19, ring=ring(opening_deg, sun_deg))
    found = {each.feature: each.size_arcsec for each in features_of(face, seen(0.3, 400, 500))}
    return found.get(Feature.RING_SHADOW) or 0.0


def test_the_ring_covers_its_shadow_when_the_sun_stands_behind_us() -> None:
    assert shadow_arcsec(20, 20) == 0.0
    # A Sun higher than we are sends it out beyond the ring, a lower one inside, where there is less room.
    assert shadow_arcsec(18, 20) > 1.5 * shadow_arcsec(20, 18) > 0.0
    # Just under one degree of the Sun lights a line of 0.1 arcsec: 44,770 km x tan 1 = 780 km, 9 AU away.
    assert shadow_arcsec(-3, 1) == pytest.approx(0.12, abs=0.02)
