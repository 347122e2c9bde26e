"""What the ceiling must do whatever the kit: the answer climbs no further than it allows."""

from hypothesis import given
from hypothesis import strategies as st

from core.air.blur import Blur
from core.ladder.aim import aim_altitude
from core.ladder.ladder import build_ladder
from tests.core.evenings import (
    DOUBLE,
    FULL_BOX,
    reflector,
)

ALTITUDES_DEG = st.floats(5, 90)
BLURS_ARCSEC = st.floats(0.2, 8)
APERTURES_MM = st.floats(20, 1000)


def ceiling(aperture_mm: float, altitude_deg: float, blur_arcsec: float) -> float:
    ladder = build_ladder(
        scope=reflector(aperture_mm, 1200),
        eyepieces=FULL_BOX,
        barlows=DOUBLE,
        aim=aim_altitude(altitude_deg),
        blur=Blur(overhead_arcsec=blur_arcsec),
    )
    assert ladder.ceiling.power is not None
    return ladder.ceiling.power


@given(APERTURES_MM, ALTITUDES_DEG, ALTITUDES_DEG, BLURS_ARCSEC)
def test_a_higher_planet_never_lowers_the_ceiling(
    aperture_mm: float, one_deg: float, other_deg: float, blur_arcsec: float
) -> None:
    low, high = sorted((one_deg, other_deg))

    assert ceiling(aperture_mm, high, blur_arcsec) >= ceiling(aperture_mm, low, blur_arcsec)


@given(APERTURES_MM, ALTITUDES_DEG, BLURS_ARCSEC, BLURS_ARCSEC)
def test_worse_air_never_raises_the_ceiling(
    aperture_mm: float, altitude_deg: float, one_arcsec: float, other_arcsec: float
) -> None:
    better, worse = sorted((one_arcsec, other_arcsec))

    assert ceiling(aperture_mm, altitude_deg, worse) <= ceiling(aperture_mm, altitude_deg, better)


@given(APERTURES_MM, APERTURES_MM, ALTITUDES_DEG, BLURS_ARCSEC)
def test_a_bigger_aperture_never_lowers_the_ceiling(
    one_mm: float, other_mm: float, altitude_deg: float, blur_arcsec: float
) -> None:
    small, big = sorted((one_mm, other_mm))

    assert ceiling(big, altitude_deg, blur_arcsec) >= ceiling(small, altitude_deg, blur_arcsec)
