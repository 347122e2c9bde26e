"""A first look, the two scales, and what is believed when nothing is said."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import lognorm

from core.air.blur import BlurSource, blur_at, carried_overhead_arcsec, judged_blur
from core.air.first_look import FirstLook, Judged, Scale, ScaleStep, scale_arcsec
from core.air.usual_air import USUAL_BLURS, BlurDistribution


@given(st.floats(0.3, 2.5), st.floats(1.0, 10.0))
def test_a_look_carried_overhead_and_back_is_what_was_seen(seen: float, path: float) -> None:
    overhead = carried_overhead_arcsec(seen, path)

    assert overhead == 0.2 or blur_at(overhead, path) == pytest.approx(seen)


def test_what_is_carried_overhead_stays_a_blur_that_is_taken() -> None:
    assert carried_overhead_arcsec(0.3, 10.0) == 0.2
    assert carried_overhead_arcsec(9.0, 1.0) == 8.0


def test_the_ten_step_scale() -> None:
    found = [scale_arcsec(ScaleStep(Scale.TEN_STEPS, step)) for step in range(1, 11)]

    # By hand: 6 x 0.76, 6 x 0.76 squared ...
    assert found[:3] == pytest.approx([6.0, 4.56, 3.4656])
    assert found[9] == pytest.approx(0.5075, abs=1e-4)
    assert np.all(np.diff(found) < 0)


def test_the_five_step_scale_runs_the_other_way() -> None:
    found = [scale_arcsec(ScaleStep(Scale.FIVE_STEPS, step)) for step in range(1, 6)]

    assert found == [0.7, 1.0, 1.6, 2.5, 4.0]


@pytest.mark.parametrize(
    ("scale", "number"),
    [(Scale.TEN_STEPS, 0), (Scale.TEN_STEPS, 11), (Scale.FIVE_STEPS, 0), (Scale.FIVE_STEPS, 6)],
)
def test_no_step_outside_a_scale(scale: Scale, number: int) -> None:
    with pytest.raises(ValueError, match="whole step"):
        scale_arcsec(ScaleStep(scale, number))


def test_fair_air_at_25_degrees_is_finer_overhead() -> None:
    """At 25 degrees the air is 2.36 as thick as overhead (1 / sin 25 degrees); 2.36 to the 0.6 is 1.67."""
    judged = Judged(by=FirstLook.FAIR, altitude_deg=25.0)

    blur = judged_blur(1.45, judged, path=2.36)

    assert blur.overhead_arcsec == pytest.approx(1.45 / 1.674, rel=1e-3)
    assert (blur.source, blur.judged) == (BlurSource.GIVEN, judged)
    assert judged_blur(1.45, judged, path=None).overhead_arcsec == 1.45


def test_equally_likely_blurs_are_those_of_a_log_normal() -> None:
    found = USUAL_BLURS.equally_likely_arcsec(25)

    expected = lognorm(s=0.4, scale=1.6).ppf((np.arange(25) + 0.5) / 25)
    assert found == pytest.approx(expected, rel=1e-9)
    assert found[12] == pytest.approx(1.6)


def test_a_site_s_own_belief() -> None:
    assert BlurDistribution(median_arcsec=2.2).equally_likely_arcsec(1) == pytest.approx([2.2])
