"""Which of two telescopes to take, told as a kind: the sentences are tried elsewhere.

Details by hand: the root of the sum of (116 / aperture)² and (0.6 x blur)², arcsec; the gain is called slight
under 1.25 times, a tie under 1.05 times (common practice, no source).
"""

import pytest
from attrs import evolve

from core.gear.owned import Telescope
from core.ladder.advice import AdviceKind, find_advice
from tests.core.ladder.test_compare import comparison, lens, mirror

# Overhead: the two, the blur in arcsec, the kind and the one named first.
CASES = [
    (lens(60), mirror(305), 1.45, AdviceKind.CLEARLY_FINER, "Mirror 305"),  # 2.12 against 0.95
    (lens(60), mirror(305), 0.6, AdviceKind.CLEARLY_FINER_IN_STEADY_AIR, "Mirror 305"),
    (mirror(130), mirror(150), 1.45, AdviceKind.LITTLE_FINER, "Mirror 150"),  # 1.25 and 1.16; minutes apart
    (mirror(130), mirror(150), 0.6, AdviceKind.LITTLE_FINER_IN_STEADY_AIR, "Mirror 150"),
    (lens(120), mirror(200), 1.6, AdviceKind.LITTLE_FINER_BUT_SLOW, "Mirror 200"),  # a lens cools far sooner
    (mirror(150), mirror(150), 1.45, AdviceKind.ALIKE, "Mirror 150"),
    (mirror(150), lens(150), 1.2, AdviceKind.ALIKE_BUT_CLEARER, "Lens 150"),
]


@pytest.mark.parametrize(("one", "other", "blur_arcsec", "kind", "named"), CASES)
def test_which_to_take(
    one: Telescope, other: Telescope, blur_arcsec: float, kind: AdviceKind, named: str
) -> None:
    for pair in ((one, other), (other, one)):
        found = comparison(*pair, blur_arcsec)
        advice = find_advice(found.a, found.b)
        assert (advice.kind, advice.side.scope.name) == (kind, named)


@pytest.mark.parametrize(
    ("now", "steady", "kind", "named"),
    [
        ((1.0, 1.4), (0.8, 0.8), AdviceKind.FINER_ONLY_NOW, "Mirror 130"),  # the larger one is still warm
        ((1.0, 1.4), (0.9, 0.7), AdviceKind.EACH_HAS_ITS_NIGHTS, "Mirror 130"),
        ((1.4, 1.4), (0.9, 0.7), AdviceKind.ONLY_ON_STEADY_NIGHTS, "Mirror 200"),
        ((None, 1.4), (0.9, 0.7), AdviceKind.NO_DETAIL, "Mirror 130"),
    ],
)
def test_where_tonight_and_a_steady_night_differ(
    now: tuple[float | None, float], steady: tuple[float, float], kind: AdviceKind, named: str
) -> None:
    found = comparison(mirror(130), mirror(200))
    one = evolve(found.a, finest_detail_arcsec=now[0], steady_detail_arcsec=steady[0])
    other = evolve(found.b, finest_detail_arcsec=now[1], steady_detail_arcsec=steady[1])

    advice = find_advice(other, one)

    assert (advice.kind, advice.side.scope.name) == (kind, named)
