"""Light at the eye: of a disc, through an exit pupil, behind a filter."""

import math
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.gear.eye import Eye
from core.looks.light_at_eye import (
    SURFACE_BRIGHTNESS_MAG,
    light_trolands,
    luminance_cd_m2,
    pupil_for_mm,
    surface_brightness_mag,
)
from core.sky.bodies import Body
from core.sky.disc import disc_at


def test_a_troland_is_a_candela_per_square_metre_through_a_square_millimetre() -> None:
    # Jupiter, 5.4 mag/arcsec²: 1.08e5 x 10^-2.16 = 747 cd/m²; a 1 mm pupil has pi / 4 mm².
    assert luminance_cd_m2(5.4) == pytest.approx(747.2, abs=0.5)
    assert light_trolands(5.4, 1.0) == pytest.approx(747.2 * math.pi / 4, abs=0.5)
    assert light_trolands(5.4, 1.0, transmittance=0.14) == pytest.approx(82.2, abs=0.2)


def test_the_zero_point_is_that_of_sunlight() -> None:
    # Independent: the Sun, -26.74 mag, gives about 1.28e5 lux outside the air (from memory); its disc has a
    # radius of 959.6 arcsec, so its luminance over its solid angle gives the same zero point within 5 %.
    area_arcsec2 = math.pi * 959.63**2
    solid_angle = area_arcsec2 / 206_264.8**2
    brightness = -26.74 + 2.5 * math.log10(area_arcsec2)

    assert luminance_cd_m2(brightness) == pytest.approx(1.28e5 / solid_angle, rel=0.05)


@given(st.floats(0, 10), st.floats(0.2, 12), st.floats(2, 9))
def test_no_more_light_than_the_pupil_takes_in(brightness: float, exit_pupil: float, pupil: float) -> None:
    eye = Eye(pupil_mm=pupil)

    found = light_trolands(brightness, exit_pupil, eye=eye)

    assert found <= light_trolands(brightness, pupil, eye=eye) * (1 + 1e-12)
    assert found == pytest.approx(light_trolands(brightness, min(exit_pupil, pupil), eye=Eye(pupil_mm=9)))


def test_the_table_agrees_with_magnitude_over_area_of_a_round_disc() -> None:
    # The published magnitudes of Mallama and Hilton 2018 over the area of the disc; from memory the table.
    for body in (Body.MARS, Body.JUPITER, Body.URANUS, Body.NEPTUNE):
        disc = disc_at(body, datetime(2027, 2, 10, 22, tzinfo=UTC))
        area = math.pi / 4 * disc.equatorial_diameter_arcsec * disc.polar_diameter_arcsec
        found = disc.magnitude + 2.5 * math.log10(area * disc.illuminated_fraction)

        assert found == pytest.approx(SURFACE_BRIGHTNESS_MAG[body], abs=0.35), body


def test_the_moon_dims_from_full_to_half() -> None:
    # Full Moon about 3.4, quarter about 5.1 mag/arcsec² (magnitudes -12.7 and -10.1 over the lit area).
    full = disc_at(Body.MOON, datetime(2026, 11, 24, 14, tzinfo=UTC))
    quarter = disc_at(Body.MOON, datetime(2026, 12, 17, 5, tzinfo=UTC))

    assert surface_brightness_mag(full) == pytest.approx(3.4, abs=0.2)
    assert surface_brightness_mag(quarter) == pytest.approx(5.1, abs=0.3)


def test_mercury_follows_its_phase() -> None:
    # Near superior conjunction its disc is about as bright as Venus'; as a crescent it is far dimmer.
    full = disc_at(Body.MERCURY, datetime(2026, 8, 27, 12, tzinfo=UTC))
    crescent = disc_at(Body.MERCURY, datetime(2026, 11, 9, 12, tzinfo=UTC))

    assert surface_brightness_mag(full) < 2.5
    assert surface_brightness_mag(crescent) > surface_brightness_mag(full) + 1.0


def test_the_pupil_that_a_light_takes() -> None:
    # By hand: 50 td of 747.2 x 0.14 cd/m² take 0.478 mm², a pupil of 0.780 mm.
    assert pupil_for_mm(50, 5.4, transmittance=0.14) == pytest.approx(0.780, abs=0.001)


def test_the_exit_pupil_for_a_light_gives_that_light() -> None:
    # By hand: 50 trolands of 747 cd/m² are 0.067 mm², a pupil 0.29 mm wide; a filter of a quarter doubles it.
    assert pupil_for_mm(50.0, 5.4) == pytest.approx(0.292, abs=0.001)
    assert pupil_for_mm(50.0, 5.4, transmittance=0.25) == pytest.approx(0.584, abs=0.001)
