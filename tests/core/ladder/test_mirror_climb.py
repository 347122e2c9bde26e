"""How the ceiling climbs as a mirror cools, by hand.

A settled mirror of 300 mm in air of 0.6″ would bear 232 / sqrt((232 / 600)² + (0.6 x 0.6)²) = 439x (common
practice, no source), so the usual air of 300x, or the 400x it is lifted to, ends the climb; it is there at
90 %.
"""

from datetime import UTC, datetime, timedelta

import pytest
from attrs import evolve

from core.air.blur import Blur
from core.air.mirror import AirCourse
from core.air.mirror_course import MirrorCourse
from core.air.mirror_of import mirror_of
from core.ladder.aim import aim_overhead
from core.ladder.ladder import Ladder, build_ladder
from core.ladder.mirror_climb import mirror_climb
from tests.core.gear.examples import eyepiece, telescope

OUT_AT = datetime(2026, 12, 5, 18, 0, tzinfo=UTC)
HOUR = timedelta(hours=1)
LARGE = telescope("Large", 300, 1500)


def course() -> MirrorCourse:
    mirror = mirror_of(LARGE)
    assert mirror is not None
    still = AirCourse(minutes=(0.0,), celsius=(5.0,))
    end = OUT_AT + 12 * HOUR
    return MirrorCourse(mirror=mirror, air=still, epoch=OUT_AT, start_c=20.0, out_at=OUT_AT, end=end)


def ladder(*, after: timedelta, usual_air: float = 300.0) -> Ladder:
    return build_ladder(
        scope=LARGE,
        eyepieces=[eyepiece(25), eyepiece(5)],
        barlows=[],
        aim=evolve(aim_overhead(), at=OUT_AT + after),
        blur=Blur(overhead_arcsec=0.6),
        mirror_arcsec=course().blur_arcsec(OUT_AT + after),
        usual_air=usual_air,
    )


@pytest.mark.parametrize("usual_air", [300.0, 400.0])
def test_it_climbs_to_nine_tenths_of_what_the_usual_air_leaves(usual_air: float) -> None:
    found = mirror_climb(ladder(after=HOUR, usual_air=usual_air), course(), until=OUT_AT + 6 * HOUR)

    assert found is not None
    assert found.at == OUT_AT + HOUR
    assert found.later_power == pytest.approx(0.9 * usual_air, rel=0.01)
    # The mirror is still 1.9″ of blur then: nothing of the usual air is felt.
    assert found.power < 200.0
    assert HOUR < found.later - found.at < 4 * HOUR


def test_a_higher_limit_is_reached_later_from_the_same_beginning() -> None:
    usual, lifted = (
        mirror_climb(ladder(after=HOUR, usual_air=power), course(), until=OUT_AT + 6 * HOUR)
        for power in (300.0, 400.0)
    )

    assert usual is not None
    assert lifted is not None
    assert usual.power == lifted.power
    assert usual.later < lifted.later


def test_hardly_a_climb_is_not_told() -> None:
    assert mirror_climb(ladder(after=8 * HOUR), course(), until=OUT_AT + 12 * HOUR) is None
    assert mirror_climb(ladder(after=HOUR), course(), until=OUT_AT + HOUR) is None
    without_a_time = evolve(ladder(after=HOUR), aim=aim_overhead())
    assert mirror_climb(without_a_time, course(), until=OUT_AT + 6 * HOUR) is None
