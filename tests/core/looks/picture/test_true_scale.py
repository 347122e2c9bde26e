"""The picture that comes to the retina: its scale and the eye's blur in it."""

from datetime import UTC, datetime

import attrs
import numpy as np
import pytest

from core.gear.owned import Telescope, TelescopeKind
from core.looks.picture.sight import Sight
from core.looks.picture.subject import subject_at
from core.sky.bodies import Body
from tests.core.looks.measured import at_true_scale

SCOPE = Telescope(name="six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200)
JUPITER = attrs.evolve(subject_at(Body.JUPITER, datetime(2026, 11, 24, 3, tzinfo=UTC)), moons=())


def sight(power: float, air_arcsec: float = 0.3) -> Sight:
    return Sight(
        subject=JUPITER,
        scope=SCOPE,
        power=power,
        air_arcsec=air_arcsec,
        zenith_angle_deg=JUPITER.disc.pole_angle_deg,
    )


@pytest.mark.parametrize("power", [30.0, 150.0, 300.0])
def test_a_pixel_s_width_is_known_on_the_sky_and_through_the_eyepiece(power: float) -> None:
    seen = at_true_scale(sight(power))

    # The limb is darker than the middle: a blurred edge has half of its light.
    across = seen.brightness[200] > 0.2 * seen.brightness[200].max()
    width_arcsec = across.sum() * seen.pixel_arcsec

    assert width_arcsec == pytest.approx(JUPITER.disc.equatorial_diameter_arcsec, rel=0.08)
    assert seen.apparent_pixel_arcsec == pytest.approx(power * seen.pixel_arcsec)


def test_power_brings_out_the_belts_until_the_air_stops_it() -> None:
    """What the eye's blur hides at 20x stands out at 100x; common practice: belts from about 50x."""

    def contrast(power: float, air_arcsec: float) -> float:
        seen = at_true_scale(sight(power, air_arcsec))
        across = seen.brightness[:, 195:205].mean(axis=1)
        radius_px = JUPITER.disc.polar_diameter_arcsec / 2.0 / seen.pixel_arcsec

        def at(latitude_deg: float) -> float:
            return float(across[round(199.5 - radius_px * np.sin(np.radians(latitude_deg)))])

        # Both belts against the zones on either side of them.
        belts, zones = at(13.0) + at(-15.0), (at(22.0) + 2.0 * at(0.0) + at(-23.0)) / 2.0
        return 1.0 - belts / zones

    low, middle, high = (contrast(power, 0.5) for power in (20.0, 60.0, 150.0))
    assert low < 0.4 * high
    assert low < middle < high
    assert contrast(150.0, 4.0) < 0.8 * contrast(150.0, 0.5)


def test_a_mere_dot_has_room_for_the_eye_s_blur() -> None:
    neptune = subject_at(Body.NEPTUNE, datetime(2026, 11, 24, 20, tzinfo=UTC))
    seen = at_true_scale(Sight(subject=neptune, scope=SCOPE, power=25, air_arcsec=1.0))

    assert seen.apparent_pixel_arcsec * seen.brightness.shape[0] >= 600.0
    edge = np.concatenate([seen.brightness[0], seen.brightness[-1]])
    assert edge.max() < 0.02 * seen.brightness.max()
