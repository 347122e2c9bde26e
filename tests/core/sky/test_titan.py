"""Titan's place against PyEphem's, which has a theory of its own."""

from datetime import UTC, datetime, timedelta

import ephem
import numpy as np
import pytest

from core.sky.bodies import Body
from core.sky.disc import disc_at
from core.sky.titan import titan_position

# PyEphem's own radius of Saturn is a third of a per cent less than the published one; a twentieth of a radius
# is under half an arcsecond.
TOLERANCE_RADII = 0.15


@pytest.mark.parametrize("year", [2004, 2009, 2016, 2020, 2026, 2032])
@pytest.mark.parametrize("day", [0, 3, 6, 9, 12, 15])
def test_titan_stands_where_another_theory_has_it(year: int, day: int) -> None:
    time = datetime(year, 3, 5, tzinfo=UTC) + timedelta(days=day)
    titan, saturn = ephem.Titan(time.replace(tzinfo=None)), ephem.Saturn(time.replace(tzinfo=None))
    ours, disc = titan_position(time), disc_at(Body.SATURN, time)

    # PyEphem gives the moon's offset in right ascension as an arc, not as an angle at the pole.
    radius = disc.equatorial_diameter_arcsec / 2.0
    east, north = (
        np.degrees(float(moon) - float(planet)) * 3600.0 / radius
        for moon, planet in ((titan.g_ra, saturn.g_ra), (titan.g_dec, saturn.g_dec))
    )
    pole = np.radians(disc.pole_angle_deg)
    west_of_axis = -east * np.cos(pole) + north * np.sin(pole)
    along_axis = east * np.sin(pole) + north * np.cos(pole)

    assert ours.x_radii == pytest.approx(west_of_axis, abs=TOLERANCE_RADII)
    assert ours.y_radii == pytest.approx(along_axis, abs=TOLERANCE_RADII)
    assert ours.z_radii == pytest.approx(titan.z, abs=TOLERANCE_RADII)


def test_it_goes_behind_saturn_only_when_the_ring_is_nearly_edge_on() -> None:
    """Behind Saturn it is 20 sin(opening) radii above or below the middle: clear from 3 degrees on."""
    edge_on = [
        titan_position(datetime(2025, 3, 5, tzinfo=UTC) + timedelta(hours=6 * step)) for step in range(64)
    ]
    opened = [
        titan_position(datetime(2031, 3, 5, tzinfo=UTC) + timedelta(hours=6 * step)) for step in range(64)
    ]

    assert any(titan.occulted for titan in edge_on)
    assert not any(titan.occulted for titan in opened)
    assert not any(titan.occulted and titan.z_radii > 0.0 for titan in edge_on)
