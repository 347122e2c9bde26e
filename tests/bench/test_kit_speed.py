"""A large kit, 12 eyepieces and 4 Barlows: the ladder within 16 ms, what to buy within 60 ms.

Skipped unless asked for: ``pytest tests/bench --benchmark-only``.
"""

from pytest_benchmark.fixture import BenchmarkFixture

from core.air.blur import Blur
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.aim import aim_overhead
from core.ladder.buying import what_to_buy
from core.ladder.ladder import build_ladder
from tests.bench.timing import tell_aim

SCOPE = Telescope(
    name="Eight-inch",
    kind=TelescopeKind.REFLECTOR,
    aperture_mm=200,
    focal_length_mm=1200,
    stack_barlows=True,
)
EYEPIECES = [
    Eyepiece(name="Zoom", focal_length_min_mm=8, focal_length_max_mm=24),
    *(
        Eyepiece(name=f"{focal_length_mm} mm", focal_length_mm=focal_length_mm, apparent_field_deg=60)
        for focal_length_mm in (4, 5, 6, 7, 9, 10, 12, 15, 20, 25, 32)
    ),
]
# As large, but with no power for a night that bears more than 60x: all that is sold has to be weighed.
LONG_EYEPIECES = [
    Eyepiece(name=f"{focal_length_mm} mm", focal_length_mm=focal_length_mm)
    for focal_length_mm in (30, 32, 34, 35, 36, 38, 40, 42, 45, 48, 50, 55)
]
WEAK_BARLOWS = [Barlow(name=f"{factor}x", factor=factor) for factor in (0.5, 0.63, 1.25, 1.5)]
BARLOWS = [Barlow(name=f"{factor}x", factor=factor) for factor in (0.63, 1.5, 2, 3)]


def test_the_ladder_of_a_large_kit(benchmark: BenchmarkFixture) -> None:
    benchmark(
        build_ladder,
        scope=SCOPE,
        eyepieces=EYEPIECES,
        barlows=BARLOWS,
        aim=aim_overhead(),
        blur=Blur.assumed(),
    )

    tell_aim(benchmark, 0.016)


def test_what_to_buy_for_a_large_kit(benchmark: BenchmarkFixture) -> None:
    found = benchmark(what_to_buy, SCOPE, LONG_EYEPIECES, WEAK_BARLOWS)

    assert found is not None
    tell_aim(benchmark, 0.060)
