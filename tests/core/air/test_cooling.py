"""Cooling: trade figures (common practice, no source), ranges, falling air, the owner's own time."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.air.cooling import usable_time
from core.air.readiness import readiness_in_still_air
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


def likely(scope: Telescope, warmer_by_c: float = 17) -> float:
    return usable_time(scope, warmer_by_c=warmer_by_c).likely_minutes


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
    found = readiness_in_still_air(of_kind(TelescopeKind.CATADIOPTRIC, 90), warmer_by_c=15.5)

    low, middle, high = found.usable.minutes
    assert 20 <= low < middle < high <= 60
    assert low == pytest.approx(0.7 * middle)
    assert high == pytest.approx(1.5 * middle)
    assert "Low power is usable at once" in readiness_text(found)
    assert "25 to 60 minutes (an estimate)" in readiness_text(found)


def test_the_owners_own_time_overrides_tube_and_fan() -> None:
    own = reflector(closed_tube=True, fan=True, cooling_minutes=40, cooling_from_c=12)

    found = readiness_in_still_air(own, warmer_by_c=12)

    assert found.usable.likely_minutes == pytest.approx(40)
    assert found.usable.measured
    assert "your own measured time" in readiness_text(found)


def test_within_a_degree_already() -> None:
    found = readiness_in_still_air(reflector(), warmer_by_c=0.8)

    assert found.usable.high_minutes == 0
    assert readiness_text(found) == "It is within 1 °C of the air already."


def test_a_cold_telescope_warms_as_a_warm_one_cools() -> None:
    assert likely(reflector(), -17) == likely(reflector(), 17)


@pytest.mark.parametrize("warmer_by_c", [math.nan, math.inf, 61, True])
def test_an_absurd_difference_is_refused(warmer_by_c: float) -> None:
    with pytest.raises(ValueError, match="from -60 to 60 °C"):
        usable_time(reflector(), warmer_by_c=warmer_by_c)


@given(st.floats(40, 500), st.floats(40, 500), st.floats(1, 40))
def test_a_bigger_mirror_is_never_ready_sooner(one_mm: float, other_mm: float, warmer_by_c: float) -> None:
    small, large = (likely(reflector(aperture_mm), warmer_by_c) for aperture_mm in sorted((one_mm, other_mm)))

    assert small <= large


def test_an_estimate_is_shown_as_a_range_even_where_both_ends_round_alike() -> None:
    assert span_text(1.2, 2.6) == "5 to 10"
    assert span_text(27.0, 58.0) == "25 to 60"
