"""Facts of all planets, the moons' evening included, within 20 ms; a picture of 400 by 400 within 15 ms.

All the pictures of one power and its neighbours, computed away from the window: within 100 ms.

Skipped unless asked for: ``pytest tests/bench --benchmark-only``.
"""

from datetime import UTC, datetime, timedelta

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from core.gear.owned import Telescope, TelescopeKind
from core.looks.picture.eyepiece import compute_pictures
from core.looks.picture.sight import Sight, see_coloured
from core.looks.picture.subject import Subject, subject_at
from core.sky.bodies import TARGETS, Body
from core.sky.moons import moon_events
from tests.bench.timing import tell_aim

TIME = datetime(2026, 12, 5, 20, tzinfo=UTC)
SCOPE = Telescope(
    name="six", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200, obstruction_mm=35
)


def all_facts(time: datetime) -> list[Subject]:
    moon_events(time - timedelta(hours=8), time + timedelta(hours=16))
    return [subject_at(body, time) for body in TARGETS]


def sights_of(body: Body) -> list[Sight]:
    """Return what a small kit shows."""
    subject = subject_at(body, TIME)
    return [
        Sight(subject=subject, scope=SCOPE, power=power, air_arcsec=1.45, true_field_deg=50.0 / power)
        for power in (48.0, 96.0, 120.0, 150.0, 240.0, 300.0)
    ]


def test_the_facts_of_all_planets(benchmark: BenchmarkFixture) -> None:
    all_facts(TIME)

    benchmark(all_facts, TIME)

    tell_aim(benchmark, 0.020)


@pytest.mark.parametrize("body", [Body.JUPITER, Body.SATURN, Body.MARS, Body.MOON])
def test_a_picture_of_400_by_400(benchmark: BenchmarkFixture, body: Body) -> None:
    subject = subject_at(body, TIME)
    powers = iter(range(100, 10_000))

    def picture() -> None:
        see_coloured.cache_clear()
        sight = Sight(
            subject=subject,
            scope=SCOPE,
            power=next(powers),
            air_arcsec=1.45,
            spread_arcsec=0.8,
            zenith_angle_deg=20.0,
        )
        sight.coloured_window(1.3 * sight.apparent_extent_deg)

    picture()
    benchmark(picture)

    tell_aim(benchmark, 0.015)


def test_all_pictures_of_a_power(benchmark: BenchmarkFixture) -> None:
    sights = sights_of(Body.JUPITER)

    def pictures() -> None:
        see_coloured.cache_clear()
        compute_pictures(sights, sights[2])

    pictures()
    benchmark(pictures)

    tell_aim(benchmark, 0.100)
