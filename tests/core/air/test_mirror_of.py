"""One telescope's mirror: its thickness, its time constant, and the owner's own measured time.

Expected figures are reckoned by hand from the rule (ours): 2.6 minutes, 1.7 to 3.5, for each mm of glass,
half with a fan, half as long again in a closed tube.
"""

import pytest

from core.air.mirror_of import mirror_of
from core.gear.owned import TelescopeKind
from tests.core.gear.examples import fixed, refractor, telescope


def test_a_lens_has_no_mirror() -> None:
    assert mirror_of(refractor("Lens", 100, 900)) is None
    assert mirror_of(fixed(power=20.0)) is None


def test_thickness_assumed_or_said() -> None:
    assumed, said = mirror_of(telescope()), mirror_of(telescope(mirror_thickness_mm=19))

    assert assumed is not None
    assert said is not None
    assert (assumed.thickness_mm, assumed.thickness_assumed) == (25, True)
    assert (said.thickness_mm, said.thickness_assumed) == (19, False)
    assert assumed.constant_minutes == pytest.approx(65)
    assert assumed.constant_range_minutes == pytest.approx((42.5, 87.5))


def test_a_closed_tube_and_a_fan() -> None:
    closed = mirror_of(telescope(kind=TelescopeKind.CATADIOPTRIC))
    fan = mirror_of(telescope(fan=True))

    assert closed is not None
    assert fan is not None
    assert closed.constant_minutes == pytest.approx(97.5)
    assert fan.constant_minutes == pytest.approx(32.5)


def test_a_mask_leaves_the_same_mirror() -> None:
    assert mirror_of(telescope(mask_mm=60)) == mirror_of(telescope())


def test_an_own_time_half_as_long_again_lengthens_the_time_constant_as_much() -> None:
    # 17 °C too warm, 8 inches: 36 minutes by the rule of thumb.
    own = mirror_of(telescope(aperture_mm=203.2, cooling_minutes=54, cooling_from_c=17))
    hasty = mirror_of(telescope(aperture_mm=203.2, cooling_minutes=5, cooling_from_c=17))

    assert own is not None
    assert hasty is not None
    assert own.own_factor == pytest.approx(1.5)
    assert hasty.own_factor == 0.5
