"""A mirror through an evening: it settles counted from when it is carried out."""

from datetime import timedelta

import pytest
from attrs import evolve

from core.air.mirror import AirCourse
from tests.core.air.falling import OUT_AT, course_in_falling_air
from tests.core.gear.examples import telescope

HOUR = timedelta(hours=1)


def test_what_the_air_did_before_the_mirror_came_out_does_not_matter() -> None:
    still = evolve(
        course_in_falling_air(telescope(), warmer_by_c=15, falling_c_per_h=0.0),
        air=AirCourse(minutes=(0.0,), celsius=(0.0,)),
    )
    # Ten degrees warmer until the hour at which it is carried out, then as still and as cold.
    later = evolve(
        still,
        air=AirCourse(minutes=(0.0, 59.0, 60.0), celsius=(10.0, 10.0, 0.0)),
        out_at=OUT_AT + HOUR,
        end=still.end + HOUR,
    )

    at_once, after_an_hour = (
        each.settled_minutes(aperture_mm=150, blur_arcsec=1.45).likely_minutes for each in (still, later)
    )
    assert at_once > 60
    assert after_an_hour == pytest.approx(at_once, abs=1.0)
    assert later.excess_c(OUT_AT + 2 * HOUR) == pytest.approx(still.excess_c(OUT_AT + HOUR))
    assert later.blur_arcsec(OUT_AT + 2 * HOUR) == pytest.approx(still.blur_arcsec(OUT_AT + HOUR))
