"""Rungs one by one: an alternative as one of its own, and the one nearest to a power."""

import pytest

from core.ladder.aim import aim_altitude
from core.ladder.ladder import nearest_rung, rung_with
from tests.core.gear.examples import barlow, eyepiece, telescope
from tests.core.ladder.test_ladder import ladder


def test_an_alternative_is_a_rung_of_its_own_with_its_own_figures() -> None:
    """12 mm in a 2x gives the 200x of 6 mm; its 48 degrees leave less of the sky than 54."""
    found = ladder(eyepieces=(eyepiece(6, 54), eyepiece(12, 48)), barlows=(barlow(2),))
    rung = next(each for each in found.rungs if each.power == 200)
    (other,) = rung.alternatives

    own = rung_with(found, other)

    assert (rung.label, own.label, own.alternatives) == ("6 mm", "12 mm + 2x", ())
    assert (own.power, own.exit_pupil_mm, own.standing) == (200, 0.75, rung.standing)
    assert rung.true_field_deg == pytest.approx(0.27)
    assert own.true_field_deg == pytest.approx(0.24)
    # 0.24 degrees of the equator, at 15.041 arcsec a second.
    assert own.drift_s == pytest.approx(57.443, abs=0.001)


def test_the_nearest_rung_is_the_nearest_by_ratio_and_without_a_power_the_first_to_look_with() -> None:
    """48, 120 and 150x: 76x is nearer to 120x, which is 1.58 times as much; 75x to 48x, 1.56 times less."""
    found = ladder()
    none = ladder(telescope(barrel_mm=24.5))

    assert [getattr(nearest_rung(found, power), "power", None) for power in (None, 20, 75, 76, 140, 900)] == [
        48,
        48,
        48,
        120,
        150,
        150,
    ]
    assert nearest_rung(none, 100) is None
    assert nearest_rung(none, None) is None
    assert nearest_rung(ladder(aim=aim_altitude(2)), None) is None
