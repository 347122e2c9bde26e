"""A mirror in falling air: check values, an independent integrator, and what must always hold."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from core.air.finest_detail import ceiling_power
from core.air.mirror import (
    AirCourse,
    air_course,
    assumed_thickness_mm,
    combined_blur_arcsec,
    mirror_blur_arcsec,
    mirror_excess_c,
    own_time_factor,
    settled_minutes,
    settling_constant_minutes,
)

# 20 °C indoors, 5 °C outside falling by 1.5 °C an hour; the end is far off.
HOURS = 24
FALLING = AirCourse(minutes=(0, HOURS * 60), celsius=(5, 5 - 1.5 * HOURS))
FAIR_ARCSEC = 1.45


def constant_of(aperture_mm: float, *, fan: bool = False, closed: bool = False) -> float:
    return settling_constant_minutes(assumed_thickness_mm(aperture_mm), fan=fan, closed=closed)


@pytest.mark.parametrize(
    ("aperture_mm", "fan", "closed", "powers", "settled"),
    [
        (150, False, False, (114, 128, 142, 155, 165, 173, 178), 133),
        (254, False, False, (120, 130, 142, 152, 163, 172, 180), 204),
        (254, True, False, (120, 144, 171, 193, 208, 216), 107),
        (203, False, True, (118, 125, 133, 140, 147, 154, 160), 238),
    ],
)
def test_the_ceiling_every_half_hour(
    aperture_mm: float, fan: bool, closed: bool, powers: tuple[int, ...], settled: float
) -> None:
    minutes = 30.0 * np.arange(len(powers))
    constant = constant_of(aperture_mm, fan=fan, closed=closed)

    excess = mirror_excess_c(FALLING, start_c=20, constant_minutes=constant, minutes=minutes)
    found = ceiling_power(aperture_mm, combined_blur_arcsec(FAIR_ARCSEC, mirror_blur_arcsec(excess)))

    assert found == pytest.approx(powers, abs=0.6)
    assert settled_minutes(
        FALLING,
        aperture_mm=aperture_mm,
        blur_arcsec=FAIR_ARCSEC,
        start_c=20,
        constant_minutes=constant,
        end_minutes=HOURS * 60,
    ) == pytest.approx(settled, abs=1.0)


@pytest.mark.parametrize(("excess_c", "arcsec"), [(1, 0.33), (3, 0.93), (15, 2.6), (0, 0.0), (-4, 0.0)])
def test_the_blur_of_a_warm_mirror(excess_c: float, arcsec: float) -> None:
    assert float(mirror_blur_arcsec(excess_c)) == pytest.approx(arcsec, abs=0.03)


@pytest.mark.parametrize(
    ("aperture_mm", "thickness_mm"), [(90, 15), (150, 25), (203, 30.3), (254, 35.4), (400, 50)]
)
def test_assumed_thickness(aperture_mm: float, thickness_mm: float) -> None:
    assert assumed_thickness_mm(aperture_mm) == pytest.approx(thickness_mm)


def test_a_fan_halves_the_time_constant_and_a_closed_tube_lengthens_it() -> None:
    assert settling_constant_minutes(25) == pytest.approx(65)
    assert settling_constant_minutes(25, fan=True) == pytest.approx(32.5)
    assert settling_constant_minutes(25, closed=True) == pytest.approx(97.5)
    assert settling_constant_minutes(25, own_factor=2) == pytest.approx(130)


@pytest.mark.parametrize(("own", "predicted", "factor"), [(40, 50, 0.8), (5, 50, 0.5), (500, 50, 2.0)])
def test_an_owner_s_own_time_scales_within_bounds(own: float, predicted: float, factor: float) -> None:
    assert own_time_factor(own, predicted) == pytest.approx(factor)


# As thermometers beside a telescope read it: falling fast at dusk, then ever more slowly, with a warm gust.
MEASURED = AirCourse(
    minutes=(0, 20, 45, 60, 95, 150, 180, 210, 300, 420, 600),
    celsius=(18.0, 16.2, 13.1, 12.4, 9.8, 8.1, 8.9, 7.6, 5.9, 4.4, 3.1),
)


@pytest.mark.parametrize("constant_minutes", [12.0, 40.0, 65.0, 180.0])
@pytest.mark.parametrize("out_minutes", [0.0, 33.0])
def test_cooling_follows_an_independent_integrator(constant_minutes: float, out_minutes: float) -> None:
    minutes = np.linspace(out_minutes, 700, 141)
    numbers = solve_ivp(
        lambda time, glass: (np.interp(time, MEASURED.minutes, MEASURED.celsius) - glass) / constant_minutes,
        (out_minutes, 700),
        [21.0],
        t_eval=minutes,
        rtol=1e-9,
        atol=1e-9,
        max_step=1.0,
    )

    found = mirror_excess_c(
        MEASURED, start_c=21.0, constant_minutes=constant_minutes, minutes=minutes, out_minutes=out_minutes
    )

    assert found == pytest.approx(
        numbers.y[0] - np.interp(minutes, MEASURED.minutes, MEASURED.celsius), abs=2e-4
    )


def test_indoors_it_stays_as_warm_as_it_was() -> None:
    found = mirror_excess_c(FALLING, start_c=20, constant_minutes=60, minutes=[0, 60, 120], out_minutes=120)

    assert found == pytest.approx([15.0, 16.5, 18.0])


def test_behind_a_falling_air_it_lags_by_rate_times_time_constant() -> None:
    found = mirror_excess_c(FALLING, start_c=20, constant_minutes=65, minutes=1400)

    assert float(found) == pytest.approx(1.5 / 60 * 65, abs=1e-6)


@settings(deadline=None)
@given(
    st.floats(-20, 40),
    st.lists(st.floats(-5, 5), min_size=2, max_size=6),
    st.floats(5, 300),
    st.floats(0.3, 4),
    st.floats(60, 600),
)
def test_it_settles_inside_the_night(
    start_c: float, changes: list[float], constant: float, blur: float, aperture: float
) -> None:
    air = AirCourse(
        minutes=tuple(60.0 * hour for hour in range(len(changes))), celsius=tuple(10 + np.cumsum(changes))
    )

    found = settled_minutes(
        air,
        aperture_mm=aperture,
        blur_arcsec=blur,
        start_c=start_c,
        constant_minutes=constant,
        end_minutes=600,
    )

    assert 0 <= found <= 600


def test_a_scope_as_cold_as_the_air_is_settled_at_once() -> None:
    still = AirCourse(minutes=(0,), celsius=(8,))

    found = settled_minutes(
        still, aperture_mm=200, blur_arcsec=1.5, start_c=8, constant_minutes=60, end_minutes=600
    )

    assert found == 0


def test_the_air_runs_straight_to_dusk_and_on_to_its_lowest_at_sunrise() -> None:
    air = air_course(now_c=15, dusk_minutes=60, dusk_c=11, sunrise_minutes=660, lowest_c=5)

    assert air.at([-10, 0, 30, 60, 360, 660, 900]).tolist() == [15, 15, 13, 11, 8, 5, 5]


def test_what_is_unknown_or_past_is_left_out_of_the_air() -> None:
    past_dusk = air_course(now_c=10, dusk_minutes=-30, dusk_c=12, sunrise_minutes=500, lowest_c=5)

    assert list(past_dusk.minutes) == [0, 500]
    assert air_course(now_c=10).at([0, 600]).tolist() == [10, 10]
    assert list(air_course(now_c=10, sunrise_minutes=500).minutes) == [0]


def test_times_that_do_not_rise_are_refused() -> None:
    with pytest.raises(ValueError, match="rise"):
        AirCourse(minutes=(0, 0), celsius=(1, 2))
    with pytest.raises(ValueError, match="as many"):
        AirCourse(minutes=(0, 1), celsius=(1,))


def test_the_course_of_the_air_leaves_out_what_is_past_or_not_known() -> None:
    whole = air_course(now_c=15, dusk_minutes=10, dusk_c=12, sunrise_minutes=600, lowest_c=2)
    after_dusk = air_course(now_c=15, dusk_minutes=-5, dusk_c=12, sunrise_minutes=600, lowest_c=2)
    no_low = air_course(now_c=15, dusk_minutes=10, dusk_c=12, sunrise_minutes=600)

    assert (whole.minutes, whole.celsius) == ((0, 10, 600), (15, 12, 2))
    assert (after_dusk.minutes, after_dusk.celsius) == ((0, 600), (15, 2))
    assert (no_low.minutes, no_low.celsius) == ((0, 10), (15, 12))
    assert air_course(now_c=15).celsius == (15,)
    # What would come no later than the one before is past.
    assert air_course(now_c=15, dusk_minutes=0, dusk_c=12, sunrise_minutes=600, lowest_c=2).minutes == (
        0,
        600,
    )
