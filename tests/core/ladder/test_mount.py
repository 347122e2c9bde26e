"""Whether the mount, or what it stands on, shakes too much for the powers that the air bears.

Common practice, no source: three seconds of trembling are troublesome, and from 100x on every touch shows.
"""

import pytest

from core.air.blur import Blur
from core.gear.owned import Stand
from core.ladder.aim import aim_altitude, aim_overhead
from core.ladder.ladder import build_ladder
from core.ladder.mount import shakes, shaking_bites
from tests.core.gear.examples import eyepiece, telescope

# How long it trembles after a tap where the owner has timed it, what it stands on, and whether it shakes.
STANDS = [
    (None, None, False),
    (None, Stand.GROUND, False),
    (None, Stand.DECK, True),
    (None, Stand.BALCONY, True),
    (3.0, Stand.GROUND, True),
    (2.9, Stand.GROUND, False),
    (1.0, Stand.BALCONY, False),  # its owner has timed it
    (5.0, None, True),
]


@pytest.mark.parametrize(("settles_s", "stands_on", "expected"), STANDS)
def test_what_shakes(settles_s: float | None, stands_on: Stand | None, expected: bool) -> None:
    assert shakes(telescope(settles_s=settles_s, stands_on=stands_on)) is expected


@pytest.mark.parametrize(("shortest_mm", "bites"), [(12, True), (12.1, False), (8, True)])
def test_shaking_shows_from_a_hundred_times_on(shortest_mm: float, bites: bool) -> None:
    """1200 mm behind 12 mm is just 100x."""
    found = [
        build_ladder(
            scope=telescope(stands_on=stand),
            eyepieces=[eyepiece(25), eyepiece(shortest_mm)],
            barlows=[],
            aim=aim_overhead(),
            blur=Blur(overhead_arcsec=1.45),
        )
        for stand in (Stand.DECK, Stand.GROUND)
    ]

    assert [shaking_bites(each) for each in found] == [bites, False]


def test_where_nothing_is_climbed_nothing_shakes() -> None:
    low = build_ladder(
        scope=telescope(stands_on=Stand.DECK),
        eyepieces=[eyepiece(8)],
        barlows=[],
        aim=aim_altitude(2),
        blur=Blur(overhead_arcsec=1.45),
    )

    assert not shaking_bites(low)
