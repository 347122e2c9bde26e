"""Cooling: trade figures (common practice, no source), ranges, falling air, the owner's own time."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.air.cooling import estimate_cooling, time_constant_minutes
from core.gear.owned import Telescope, TelescopeKind
from core.words.cooling import readiness_text, span_text

INCH = 25.4


def reflector(aperture_mm: float = 203.2, **more: object) -> Telescope:
    return Telescope(
        name="Mirror",
        kind=TelescopeKind.REFLECTOR,
        aperture_mm=aperture_mm,
        focal_length_mm=1200,
        **more,  # type: ignore[arg-type]
    )


def of_kind(kind: TelescopeKind, aperture_mm: float, **more: object) -> Telescope:
    return Telescope(
        name="Scope",
        kind=kind,
        aperture_mm=aperture_mm,
        focal_length_mm=1200,
        **more,  # type: ignore[arg-type]
    )


def likely(scope: Telescope, warmer_by_c: float = 17, falling_c_per_h: float = 0) -> float:
    minutes = estimate_cooling(scope, warmer_by_c=warmer_by_c, falling_c_per_h=falling_c_per_h).likely_minutes
    assert minutes is not None
    return minutes


@pytest.mark.parametrize(("inches", "minutes"), [(8, 36), (10, 45), (12, 54)])
def test_an_open_reflector_from_a_warm_house(inches: float, minutes: float) -> None:
    """Common practice: 30 to 60 minutes."""
    assert likely(reflector(inches * INCH)) == pytest.approx(minutes, abs=0.1)


def test_tube_fan_and_small_lens_change_the_time() -> None:
    open_tube = likely(reflector(203.2))

    assert likely(reflector(203.2, closed_tube=True)) == pytest.approx(2.5 * open_tube)
    assert likely(reflector(203.2, fan=True)) == pytest.approx(0.5 * open_tube)
    assert likely(of_kind(TelescopeKind.CATADIOPTRIC, 203.2)) == pytest.approx(2.5 * open_tube)
    assert likely(of_kind(TelescopeKind.CATADIOPTRIC, 203.2, closed_tube=False)) == pytest.approx(open_tube)
    assert likely(of_kind(TelescopeKind.REFRACTOR, 80)) == pytest.approx(0.7 * likely(reflector(80)))
    assert likely(of_kind(TelescopeKind.REFRACTOR, 203.2)) == pytest.approx(open_tube)


def test_a_small_closed_tube_is_given_a_range() -> None:
    """A 90 mm closed tube taken from 20 to 4.5 °C: about 20 to 60 minutes, low power at once."""
    found = estimate_cooling(of_kind(TelescopeKind.CATADIOPTRIC, 90), warmer_by_c=15.5)

    assert found.minutes is not None
    low, middle, high = found.minutes
    assert 20 <= low < middle < high <= 60
    assert low == pytest.approx(0.7 * middle)
    assert high == pytest.approx(1.5 * middle)
    assert "Low power is usable at once" in readiness_text(found)
    assert "25 to 60 minutes (an estimate)" in readiness_text(found)


def test_a_large_closed_tube_in_falling_air_never_gets_there() -> None:
    """A 10-inch closed tube from 10 °C into air at -1.1 °C that falls 1.9 °C an hour."""
    found = estimate_cooling(
        of_kind(TelescopeKind.CATADIOPTRIC, 10 * INCH), warmer_by_c=11.1, falling_c_per_h=1.9
    )

    assert found.never
    assert found.minutes is None
    assert found.settles_at_c > 1
    assert "never comes within 1 °C" in readiness_text(found)
    assert "minutes" not in readiness_text(found)


def test_a_fan_can_turn_never_into_a_time() -> None:
    with_fan = estimate_cooling(
        of_kind(TelescopeKind.CATADIOPTRIC, 10 * INCH, fan=True), warmer_by_c=11.1, falling_c_per_h=1.9
    )

    assert not with_fan.never


def test_a_time_constant_of_ninety_minutes_lags_by_rate_times_time() -> None:
    """Worked example: 1.5 h in air falling 1.9 °C an hour stays about 2.8 °C too warm for ever."""
    owner = reflector(cooling_minutes=90 * math.log(10), cooling_from_c=10)

    found = estimate_cooling(owner, warmer_by_c=11, falling_c_per_h=1.9)

    assert time_constant_minutes(owner) == pytest.approx(90)
    assert found.settles_at_c == pytest.approx(2.85, abs=0.01)
    assert found.never


def test_perhaps_is_said_where_only_the_slow_end_never_gets_there() -> None:
    """A time constant of 25 minutes in air falling 2 °C an hour lags 0.83 °C; half as slow again, 1.25 °C."""
    owner = reflector(cooling_minutes=25 * math.log(10), cooling_from_c=10)

    found = estimate_cooling(owner, warmer_by_c=10, falling_c_per_h=2)

    assert not found.never
    assert found.high_minutes is None
    assert found.minutes is None
    assert "perhaps not at all tonight" in readiness_text(found)


def test_the_owners_own_time_overrides_tube_and_fan() -> None:
    own = reflector(closed_tube=True, fan=True, cooling_minutes=40, cooling_from_c=12)

    found = estimate_cooling(own, warmer_by_c=12)

    assert found.likely_minutes == pytest.approx(40)
    assert found.measured
    assert "your own measured time" in readiness_text(found)


def test_within_a_degree_already() -> None:
    found = estimate_cooling(reflector(), warmer_by_c=0.8)

    assert found.low_minutes == found.likely_minutes == found.high_minutes == 0
    assert readiness_text(found) == "It is within 1 °C of the air already."


def test_a_cold_telescope_warms_as_a_warm_one_cools() -> None:
    assert likely(reflector(), -17) == likely(reflector(), 17)
    assert likely(reflector(), -17, -0.5) == likely(reflector(), 17, 0.5)


@pytest.mark.parametrize("warmer_by_c", [math.nan, math.inf, 61, True])
def test_an_absurd_difference_is_refused(warmer_by_c: float) -> None:
    with pytest.raises(ValueError, match="from -60 to 60 °C"):
        estimate_cooling(reflector(), warmer_by_c=warmer_by_c)


@settings(deadline=None)
@given(st.floats(40, 500), st.floats(1.5, 40), st.floats(0, 3))
def test_the_time_agrees_with_stepping_through_the_evening(
    aperture_mm: float, warmer_by_c: float, falling_c_per_h: float
) -> None:
    """Euler steps of a tenth of a minute stand in for the solution of the equation."""
    scope = reflector(aperture_mm)
    found = estimate_cooling(scope, warmer_by_c=warmer_by_c, falling_c_per_h=falling_c_per_h)
    time_constant, step = time_constant_minutes(scope), 0.1
    difference, minutes = warmer_by_c, 0.0
    while difference > 1 and minutes < 24 * 60:
        difference += step * (falling_c_per_h / 60 - difference / time_constant)
        minutes += step

    if found.likely_minutes is None:
        assert difference > 1
    elif found.settles_at_c < 0.95:
        assert found.likely_minutes == pytest.approx(minutes, rel=0.02, abs=0.5)


@given(st.floats(40, 500), st.floats(40, 500), st.floats(1, 40))
def test_a_bigger_mirror_is_never_ready_sooner(one_mm: float, other_mm: float, warmer_by_c: float) -> None:
    small, large = (likely(reflector(aperture_mm), warmer_by_c) for aperture_mm in sorted((one_mm, other_mm)))

    assert small <= large


def test_an_estimate_is_shown_as_a_range_even_where_both_ends_round_alike() -> None:
    assert span_text(1.2, 2.6) == "5 to 10"
    assert span_text(27.0, 58.0) == "25 to 60"
