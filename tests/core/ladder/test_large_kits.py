"""Kits that multiply: whatever a file holds, the ladder is there at once."""

import json
import subprocess
import sys
import time

import pytest

from core.air.blur import Blur
from core.gear.combinations import MOST_COMBINATIONS, combinations
from core.gear.owned import Barlow, Eyepiece, Telescope, TelescopeKind
from core.ladder.aim import aim_overhead
from core.ladder.gaps import what_if
from core.ladder.ladder import Ladder, build_ladder
from core.words.notices import ladder_notice_texts

# The aim is 0.5 s; three times that is borne, for a busy machine slows the processor itself.
LONGEST_S = 1.5
SCOPE = Telescope(
    name="Six-inch", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200, stack_barlows=True
)


def zooms(count: int, barrel_mm: float = 31.75) -> list[Eyepiece]:
    return [
        Eyepiece(
            name=f"zoom {n}",
            focal_length_min_mm=2 + n * 1e-3,
            focal_length_max_mm=60 - n * 1e-3,
            barrel_mm=barrel_mm,
        )
        for n in range(count)
    ]


def lenses(count: int, barrel_mm: float = 31.75) -> list[Barlow]:
    return [Barlow(name=f"lens {n}", factor=1.5 + n * 1e-3, barrel_mm=barrel_mm) for n in range(count)]


def ladder(eyepieces: list[Eyepiece], barlows: list[Barlow]) -> Ladder:
    return build_ladder(
        scope=SCOPE, eyepieces=eyepieces, barlows=barlows, aim=aim_overhead(), blur=Blur.assumed()
    )


@pytest.mark.parametrize(
    ("eyepieces", "barlows"),
    [
        (zooms(1000), lenses(20)),
        (zooms(1000), lenses(1000)),
        (zooms(1000), lenses(1000, barrel_mm=24.5)),
        (zooms(1000, barrel_mm=50.8), lenses(1000)),
        ([*zooms(1000), *zooms(1, barrel_mm=24.5)], lenses(1000, barrel_mm=24.5)),
    ],
    ids=["zooms and Barlows", "a thousand of each", "narrow Barlows", "nothing fits", "one fits"],
)
def test_a_kit_that_multiplies_has_its_ladder_in_half_a_second(
    eyepieces: list[Eyepiece], barlows: list[Barlow]
) -> None:
    began = time.process_time()
    found = ladder(eyepieces, barlows)
    what_if(SCOPE, eyepieces, barlows, 300, Barlow(name="new", factor=2))
    what_if(SCOPE, eyepieces, barlows, 300, Eyepiece(name="new", focal_length_mm=6))
    assert time.process_time() - began < LONGEST_S
    assert sum(1 + len(rung.alternatives) for rung in found.rungs) <= MOST_COMBINATIONS


def test_what_is_left_out_is_told_and_the_simple_ones_stay() -> None:
    found = ladder(zooms(100), lenses(20))
    told = (
        "This kit can be put together in more ways than are looked at, the first 3,000: "
        "those with the fewest Barlows, in the order of your list."
    )
    assert told in ladder_notice_texts(found)
    alone = {each.eyepiece.name for each in combinations(SCOPE, zooms(100), lenses(20)) if each.eyepiece}
    assert len(alone) == 100


def test_a_large_case_is_shown_whole() -> None:
    # Forty eyepieces and eight stacked Barlows: 40 x (1 + 8 + 28).
    owned = [Eyepiece(name=f"{n} mm", focal_length_mm=n) for n in range(3, 43)]
    assert len(combinations(SCOPE, owned, lenses(8))) == 1480
    assert not any("more ways" in text for text in ladder_notice_texts(ladder(owned, lenses(8))))


_MEASURE = """
import json, resource
from tests.core.ladder.test_large_kits import ladder, lenses, zooms
before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
ladder(zooms(1000), lenses(20))
print(json.dumps(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before))
"""


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells the most memory used in kilobytes")
def test_a_kit_that_multiplies_takes_no_more_than_150_mb() -> None:
    ran = subprocess.run([sys.executable, "-c", _MEASURE], capture_output=True, text=True, check=True)
    assert json.loads(ran.stdout) / 1024 < 150
