"""The ladder: rungs, where they stand, where to start and how far to climb."""

import math
from collections import Counter
from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from core.air.blur import Blur
from core.air.finest_detail import LimitKind
from core.air.usual_air import USUAL_AIR_POWER
from core.gear.combinations import combinations
from core.gear.eye import USUAL_EYE, Eye
from core.gear.owned import Barlow, Eyepiece, Telescope
from core.ladder.aim import Aim, aim_altitude, aim_overhead
from core.ladder.ladder import Ladder, Standing, build_ladder, highest_not_above_ceiling
from core.sky.bodies import Body
from core.words.ladder import no_ceiling_text
from core.words.notices import ladder_notice_texts, notice_texts, rung_notice_texts
from tests.core.gear import examples
from tests.core.gear.examples import barlow, eyepiece, fixed, refractor, telescope

STEADY = Blur(overhead_arcsec=0.5)
SIX_INCH_EYEPIECES = (eyepiece(25, 52), eyepiece(10, 50), eyepiece(8, 50))


def ladder(
    scope: Telescope | None = None,
    eyepieces: tuple[Eyepiece, ...] = SIX_INCH_EYEPIECES,
    barlows: tuple[Barlow, ...] = (),
    aim: Aim | None = None,
    blur: Blur = STEADY,
    eye: Eye = USUAL_EYE,
    usual_air: float = USUAL_AIR_POWER,
) -> Ladder:
    return build_ladder(
        scope=scope or telescope(),
        eyepieces=eyepieces,
        barlows=barlows,
        aim=aim or aim_overhead(),
        blur=blur,
        eye=eye,
        usual_air=usual_air,
    )


def at_mars(declination_deg: float = 0.0) -> Aim:
    return evolve(aim_altitude(50), planet=Body.MARS, declination_deg=declination_deg)


# Common practice: 2x per mm, the air usually holding any aperture at 300x.
@pytest.mark.parametrize(
    ("aperture_mm", "power", "set_by"),
    [
        (60, 120, LimitKind.APERTURE),
        (76.2, 152.4, LimitKind.APERTURE),
        (101.6, 203.2, LimitKind.APERTURE),
        (114.3, 228.6, LimitKind.APERTURE),
        (254, 300, LimitKind.USUAL_AIR),
        (305, 300, LimitKind.USUAL_AIR),
    ],
)
def test_ceiling_on_a_steady_night_overhead(aperture_mm: float, power: float, set_by: LimitKind) -> None:
    found = ladder(telescope(aperture_mm=aperture_mm))

    # What little the steadiest air takes away is under 5 % there.
    assert found.ceiling.power == pytest.approx(power, rel=0.05)
    assert found.ceiling.set_by is set_by


def test_a_lifted_night_lets_a_large_aperture_go_on() -> None:
    assert ladder(telescope(aperture_mm=254), usual_air=400).ceiling.power == 400


def test_in_average_air_a_twelve_inch_keeps_a_lead_on_a_three_inch() -> None:
    """Common practice: 3 inches somewhat under 150x, 12 inches 150 to 250x on ordinary nights."""
    three = ladder(telescope(aperture_mm=76.2), blur=Blur.assumed()).ceiling
    twelve = ladder(telescope(aperture_mm=304.8), blur=Blur.assumed()).ceiling

    assert three.power is not None
    assert 120 <= three.power <= 150
    assert three.set_by is LimitKind.APERTURE
    assert twelve.power is not None
    assert 150 <= twelve.power <= 250
    assert twelve.set_by is LimitKind.TONIGHT_AIR


def test_the_six_inch_ladder() -> None:
    found = ladder(barlows=(barlow(2),), blur=Blur(overhead_arcsec=1.45))

    assert [(rung.label, rung.power) for rung in found.rungs] == [
        ("25 mm", 48),
        ("25 mm + 2x", 96),
        ("10 mm", 120),
        ("8 mm", 150),
        ("10 mm + 2x", 240),
        ("8 mm + 2x", 300),
    ]
    # The design's check value: 150 mm in fair air, 199x.
    assert found.ceiling.power == pytest.approx(199, abs=0.5)
    assert found.start == 48
    assert found.climb_to == 150
    assert [rung.standing for rung in found.rungs] == [
        Standing.BELOW,
        Standing.GOOD,
        Standing.GOOD,
        Standing.GOOD,
        Standing.ABOVE,
        Standing.ABOVE,
    ]


def test_a_rung_exactly_at_the_ceiling_is_not_above_it() -> None:
    found = ladder(barlows=(barlow(2),))

    assert found.ceiling.power is not None
    exact = ladder(barlows=(barlow(2),), usual_air=found.rungs[-2].power)
    assert exact.ceiling.power == exact.climb_to == 240
    assert exact.rungs[-2].standing is Standing.GOOD


def test_mars_asks_for_a_hundred() -> None:
    found = ladder(aim=at_mars())

    assert [rung.standing for rung in found.rungs] == [Standing.BELOW, Standing.GOOD, Standing.GOOD]
    slower = ladder(scope=telescope(focal_length_mm=800), aim=at_mars())
    assert [rung.standing for rung in slower.rungs] == [Standing.BELOW, Standing.BELOW, Standing.GOOD]


def test_of_one_power_the_weaker_barlow_is_named() -> None:
    """1200 / 12 x 2 and 1200 / 18 x 3 are both 200x; the 18 mm has the wider field all the same."""
    with_both = build_ladder(
        scope=telescope(),
        eyepieces=[eyepiece(18, 70), eyepiece(12, 50)],
        barlows=[barlow(3), barlow(2)],
        aim=aim_overhead(),
        blur=Blur.assumed(),
    )

    (rung,) = (each for each in with_both.rungs if round(each.power) == 200)
    assert rung.label == "12 mm + 2x"
    assert [each.label for each in rung.alternatives] == ["18 mm + 3x"]


def test_powers_within_three_per_cent_are_one_rung() -> None:
    """1200 mm: 20 mm in a 2x gives 120x, as does the 10 mm; 9.75 mm gives 123.1x, 9.6 mm 125x."""
    kit = (eyepiece(20, 60), eyepiece(10, 50), eyepiece(9.75, 70), eyepiece(9.6, 50))

    found = ladder(eyepieces=kit, barlows=(barlow(2),))

    groups = [(rung.label, [each.label for each in rung.alternatives]) for rung in found.rungs]
    assert groups == [
        ("20 mm", []),
        ("9.75 mm", ["10 mm", "20 mm + 2x"]),
        ("9.6 mm", []),
        ("9.75 mm + 2x", ["10 mm + 2x"]),
        ("9.6 mm + 2x", []),
    ]


def test_the_simplest_is_not_named_where_only_it_is_above_the_ceiling() -> None:
    """The usual air bears 300x: 1200 / 3.95 is 303.8x, 1200 x 2 / 8.1 is 296.3x; the next lower is 48x."""
    found = build_ladder(
        scope=telescope(aperture_mm=400),
        eyepieces=[eyepiece(25), eyepiece(8.1), eyepiece(3.95)],
        barlows=[barlow(2)],
        aim=aim_overhead(),
        blur=Blur(overhead_arcsec=0.2),
    )

    (rung,) = (each for each in found.rungs if 290 < each.power < 310)
    assert (rung.label, [each.label for each in rung.alternatives]) == ("8.1 mm + 2x", ["3.95 mm"])
    assert found.climb_to == rung.power == pytest.approx(296.3, abs=0.1)
    assert highest_not_above_ceiling(found) == found.climb_to


def test_drift_follows_field_and_declination_and_stops_with_a_motor() -> None:
    """1200 mm, 5 mm and 50 degrees: 12.5 arcmin; 49.9 s at declination 0, 54.2 s at +23."""
    kit = (eyepiece(5, 50),)

    assert ladder(eyepieces=kit).rungs[0].drift_s == pytest.approx(49.9, abs=0.05)
    assert ladder(eyepieces=kit, aim=at_mars(23)).rungs[0].drift_s == pytest.approx(54.2, abs=0.05)
    assert ladder(telescope(driven=True), eyepieces=kit).rungs[0].drift_s is None
    assert ladder(eyepieces=(eyepiece(5),)).rungs[0].drift_s is None


def test_start_is_where_the_eye_takes_in_the_whole_exit_pupil() -> None:
    wide = (eyepiece(40), eyepiece(25), eyepiece(10))

    assert ladder(telescope(aperture_mm=250), eyepieces=wide).start == 48
    assert ladder(telescope(aperture_mm=250), eyepieces=wide, eye=Eye(pupil_mm=5)).start == 120


def test_start_is_the_highest_power_where_every_exit_pupil_is_too_wide() -> None:
    """A 7x50 gives 7.1 mm; a zoom of 5 to 7x narrows it no further."""
    assert ladder(fixed(aperture_mm=50, power=7), eye=Eye(pupil_mm=5)).start == 7
    assert ladder(fixed(aperture_mm=50, power_min=5, power_max=7), eye=Eye(pupil_mm=5)).start == 7


def test_nothing_under_the_ceiling_is_said_and_the_best_is_named() -> None:
    """A 60 mm refractor of 900 mm with a 6 mm eyepiece and a 2x Barlow: 150x and 300x, the limit 120x."""
    found = ladder(refractor("Small", 60, 900), eyepieces=(eyepiece(6),), barlows=(barlow(2),))

    assert [rung.power for rung in found.rungs] == [150, 300]
    assert [rung.standing for rung in found.rungs] == [Standing.ABOVE, Standing.ABOVE]
    assert found.start == 150
    assert found.climb_to is None
    (text,) = notice_texts(found.notices)
    assert text == (
        "Nothing owned stays under the ceiling of 119x. "
        "The best of it is 6 mm at 150x, 2.5x per mm: expect a soft view."
    )
    assert rung_notice_texts(found.rungs[0], found)[0] == text
    assert rung_notice_texts(found.rungs[1], found)[0] == (
        "Far too much for 60 mm of aperture: 5.0x per mm. The limit is 120x, 2x per mm."
    )


def test_a_kit_without_anything_that_fits_says_so() -> None:
    found = ladder(telescope(barrel_mm=24.5))

    assert found.rungs == ()
    assert found.start is None
    assert found.climb_to is None
    assert ladder_notice_texts(found) == (
        "No eyepiece owned fits Six-inch, so there is no power to show yet.",
    )


def test_below_five_degrees_there_is_no_ceiling_and_the_reason_is_given() -> None:
    found = ladder(aim=aim_altitude(2), barlows=(barlow(2),))

    assert found.limits.tonight_air is None
    assert found.ceiling.power is None
    assert found.ceiling.set_by is None
    assert "5°" in no_ceiling_text(found)
    assert found.climb_to is None
    assert found.start is None
    assert {rung.standing for rung in found.rungs} == {None}


@settings(deadline=None)
@given(examples.telescopes, examples.eyepiece_lists, examples.barlow_lists, st.floats(0.2, 8))
def test_rungs_keep_every_combination_and_stay_in_order(
    scope: Telescope, eyepieces: list[Eyepiece], barlows: list[Barlow], overhead_arcsec: float
) -> None:
    found = build_ladder(
        scope=scope,
        eyepieces=eyepieces,
        barlows=barlows,
        aim=aim_overhead(),
        blur=Blur(overhead_arcsec=overhead_arcsec),
    )

    on_ladder = Counter(each for rung in found.rungs for each in (rung.combination, *rung.alternatives))
    assert on_ladder == Counter(combinations(scope, eyepieces, barlows))
    powers = [rung.power for rung in found.rungs]
    assert powers == sorted(set(powers))
    lowest = [min(each.power for each in (rung.combination, *rung.alternatives)) for rung in found.rungs]
    highest = [max(each.power for each in (rung.combination, *rung.alternatives)) for rung in found.rungs]
    assert all(high <= low * 1.03 * (1 + 1e-6) for low, high in zip(lowest, highest, strict=True))
    assert all(after > before * 1.03 for before, after in pairwise(lowest))
    assert found.start in powers or not powers
    assert found.climb_to in powers or found.climb_to is None
    owned = [each.power for each in on_ladder]
    ceiling = found.ceiling.power
    assert highest_not_above_ceiling(found) == (
        None if ceiling is None else max((each for each in owned if each <= ceiling), default=None)
    )


@settings(deadline=None)
@given(
    st.floats(40, 500), st.floats(6, 90), st.floats(6, 90), st.floats(0.2, 8), st.sampled_from([300.0, 400.0])
)
def test_a_higher_planet_never_lowers_the_ceiling(
    aperture_mm: float, one_deg: float, other_deg: float, overhead_arcsec: float, usual_air: float
) -> None:
    low, high = (
        _ceiling(aperture_mm, altitude_deg, overhead_arcsec, usual_air)
        for altitude_deg in sorted((one_deg, other_deg))
    )

    assert low <= high


@settings(deadline=None)
@given(st.floats(40, 500), st.floats(6, 90), st.floats(0.2, 8), st.floats(0.2, 8))
def test_worse_air_never_raises_the_ceiling(
    aperture_mm: float, altitude_deg: float, one_arcsec: float, other_arcsec: float
) -> None:
    better, worse = (
        _ceiling(aperture_mm, altitude_deg, arcsec) for arcsec in sorted((one_arcsec, other_arcsec))
    )

    assert worse <= better


@settings(deadline=None)
@given(st.floats(20, 2000), st.floats(20, 2000), st.floats(6, 90), st.floats(0.2, 8))
def test_a_bigger_aperture_never_lowers_the_ceiling(
    one_mm: float, other_mm: float, altitude_deg: float, overhead_arcsec: float
) -> None:
    small, large = (
        _ceiling(aperture_mm, altitude_deg, overhead_arcsec) for aperture_mm in sorted((one_mm, other_mm))
    )

    assert small <= large


def _ceiling(
    aperture_mm: float, altitude_deg: float, overhead_arcsec: float, usual_air: float = 300.0
) -> float:
    found = ladder(
        telescope(aperture_mm=aperture_mm),
        eyepieces=(),
        aim=aim_altitude(altitude_deg),
        blur=Blur(overhead_arcsec=overhead_arcsec),
        usual_air=usual_air,
    )
    assert found.ceiling.power is not None
    assert math.isfinite(found.ceiling.power)
    return found.ceiling.power


def test_a_mask_counts_as_the_aperture() -> None:
    """80 mm of 250 mm: 2x per mm is 160x then, and 1200 / 10 = 120x leaves an exit pupil of 0.67 mm."""
    masked = ladder(telescope(aperture_mm=250, mask_mm=80), eyepieces=(eyepiece(10, eye_relief_mm=20),))

    assert masked.limits.aperture == 160
    assert masked.rungs[0].exit_pupil_mm == pytest.approx(80 / 120)
