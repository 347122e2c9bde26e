"""Telescopes carried out into air that falls steadily."""

from datetime import UTC, datetime, timedelta

from core.air.blur import Blur
from core.air.mirror import AirCourse
from core.air.mirror_course import MirrorCourse
from core.air.mirror_of import mirror_of
from core.air.readiness import Readiness, readiness_in
from core.gear.owned import Telescope

OUT_AT = datetime(2026, 12, 5, 18, 0, tzinfo=UTC)


def course_in_falling_air(
    scope: Telescope, *, warmer_by_c: float, falling_c_per_h: float, hours: float = 12.0
) -> MirrorCourse:
    """Return how a mirror follows air that falls from 0 °C, from 18:00 UTC on for so many hours."""
    mirror = mirror_of(scope)
    assert mirror is not None
    return MirrorCourse(
        mirror=mirror,
        air=AirCourse(minutes=(0.0, hours * 60.0), celsius=(0.0, -falling_c_per_h * hours)),
        epoch=OUT_AT,
        start_c=warmer_by_c,
        out_at=OUT_AT,
        end=OUT_AT + timedelta(hours=hours),
    )


def readiness_in_falling_air(
    scope: Telescope, *, warmer_by_c: float, falling_c_per_h: float, hours: float = 12.0
) -> Readiness:
    """Return when a telescope is ready in such air, in fair seeing."""
    course = course_in_falling_air(
        scope, warmer_by_c=warmer_by_c, falling_c_per_h=falling_c_per_h, hours=hours
    )
    return readiness_in(course, scope, blur=Blur.assumed())
