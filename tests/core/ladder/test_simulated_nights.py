"""The belief against nights that do not share its model, beside the plain rule."""

import numpy as np
import pytest

from core.ladder.belief import LineOfSight
from tests.core.ladder.simulated_nights import (
    best_power,
    compare,
    drifting,
    nights,
    steady,
    table,
    verdicts_after_a_jump,
)


@pytest.mark.parametrize("aperture_mm", [80, 114, 150, 254])
@pytest.mark.parametrize(("blur_arcsec", "within"), [(0.8, 0.15), (1.45, 0.15), (3.0, 0.3)])
def test_the_rule_of_aperture_and_air_is_near_that_of_short_exposures(
    aperture_mm: float, blur_arcsec: float, within: float
) -> None:
    # Two roads that share nothing; in boiling air the short exposures bear a quarter less in large apertures.
    rule = float(LineOfSight(aperture_mm=aperture_mm, path=1.0).power(blur_arcsec))

    assert rule == pytest.approx(best_power(aperture_mm, blur_arcsec), rel=within)


def test_in_perfect_air_these_nights_bear_twice_the_millimetres() -> None:
    assert best_power(150, 0.01) == pytest.approx(300, rel=0.05)


def test_a_few_nights() -> None:
    heard, simple = compare(160, steady, 0.1)

    assert heard.within_one > 0.88
    assert heard.mean_off < 0.8 * simple.mean_off
    assert heard.steps <= simple.steps + 2.2


@pytest.mark.long
@pytest.mark.timeout(900)
def test_two_thousand_nights(capsys: pytest.CaptureFixture[str]) -> None:
    with capsys.disabled():
        print(f"\n{table(2000)}")  # noqa: T201
    for air in (steady, drifting):
        for careless, share in ((0.1, 0.75), (0.2, 0.6)):
            heard, simple = compare(2000, air, careless)
            assert heard.mean_off <= share * simple.mean_off
            assert heard.steps <= simple.steps + 2.3
            assert 0.75 <= heard.band_holds <= 0.92
    heard, _ = compare(2000, steady, 0.1)
    assert heard.within_one >= 0.95


@pytest.mark.long
@pytest.mark.parametrize("ratio", [0.6, 1.7])
def test_after_a_jump_most_ladders_are_right_again_in_five_verdicts(ratio: float) -> None:
    chance = np.random.default_rng(1)
    counts = [verdicts_after_a_jump(night, chance, ratio=ratio) for night in nights(400, steady, 0.1, seed=5)]

    assert float(np.percentile(counts, 75)) <= 5
