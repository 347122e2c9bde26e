"""Which eyepiece first and which next, in air that lets 150 mm bear 199x overhead (the plan's check value).

Behind 1200 mm: 25 mm give 48x, 10 mm 120x, 8 mm 150x, 6 mm 200x, a hair over the ceiling and so worth a try,
and 4 mm 300x, likely too much.
"""

import pytest

from core.air.blur import Blur
from core.gear.eye import USUAL_EYE, Eye
from core.ladder.aim import aim_altitude, aim_overhead
from core.ladder.first_steps import first_steps
from core.ladder.ladder import build_ladder
from tests.core.gear.examples import barlow, eyepiece, telescope

# An eye that 48x on 150 mm just suits, and 28.8x, with 5.2 mm of exit pupil, no longer.
NARROW = Eye(pupil_mm=5)

# Focal lengths in mm, factors behind them, and the eye; the first power, the next, the top, and whether it is
# a try.
KITS = [
    ((25, 10, 8), (), USUAL_EYE, (48, 120, 150, False)),
    ((25, 10, 8, 6), (), USUAL_EYE, (48, 120, 150, False)),
    ((25, 10), (), USUAL_EYE, (48, 120, 120, False)),
    ((8,), (), USUAL_EYE, (150, None, 150, False)),
    ((8, 6), (), USUAL_EYE, (150, None, 150, False)),
    # Of two too close to be told apart the higher is gone to all the same, though a try lies over both.
    ((8.5, 8, 6), (), USUAL_EYE, (141, 150, 150, False)),
    ((8.5, 8), (), USUAL_EYE, (141, 150, 150, False)),
    # With a reducer of 0.6x 6 mm give 120x and 4 mm 180x, but nobody fits it in the dark.
    ((25, 6), (0.6,), NARROW, (48, 200, 200, True)),
    ((25, 4), (0.6,), NARROW, (48, None, 48, False)),
    ((25, 8, 4), (0.6,), NARROW, (48, 150, 150, False)),
    # Where it is in from the start it stays: 28.8, 48, 72 and 120x.
    ((25, 10), (0.6,), USUAL_EYE, (29, 120, 120, False)),
    # The eye takes in the whole exit pupil only of what is too much; that is never begun with.
    ((25, 4), (), Eye(pupil_mm=3), (48, None, 48, False)),
]


@pytest.mark.parametrize(("eyepieces_mm", "factors", "eye", "steps"), KITS)
def test_the_first_and_the_next_and_the_top(
    eyepieces_mm: tuple[float, ...],
    factors: tuple[float, ...],
    eye: Eye,
    steps: tuple[int, int | None, int, bool],
) -> None:
    kit = build_ladder(
        scope=telescope(),
        eyepieces=[eyepiece(mm) for mm in eyepieces_mm],
        barlows=[barlow(factor) for factor in factors],
        eye=eye,
        aim=aim_overhead(),
        blur=Blur(overhead_arcsec=1.45),
    )

    found = first_steps(kit)

    assert found is not None
    following = None if found.following is None else round(found.following.power)
    assert (round(found.first.power), following, round(found.top.power), found.is_a_try) == steps


@pytest.mark.parametrize(("eyepieces_mm", "altitude_deg"), [((4,), 90), ((25, 10), 2), ((), 90)])
def test_where_nothing_stays_under_the_ceiling_there_are_none(
    eyepieces_mm: tuple[float, ...], altitude_deg: float
) -> None:
    """300x are too much, and two degrees up no ceiling can be given."""
    kit = build_ladder(
        scope=telescope(),
        eyepieces=[eyepiece(mm) for mm in eyepieces_mm],
        barlows=[],
        aim=aim_altitude(altitude_deg),
        blur=Blur(overhead_arcsec=1.45),
    )

    assert first_steps(kit) is None
