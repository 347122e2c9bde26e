"""What hides a body or warms the air before it, by the owner's own names, and without any."""

from typing import Any

import pytest

from core.sky.site import BlockedSky, WarmAir
from core.sky.sky_parts import UNNAMED_BLOCK, UNNAMED_WARM
from core.words.obstacles import (
    blocked_note,
    blocked_words,
    sector_words,
    sight_words,
    warm_air_note,
    warm_air_words,
)

NORTH: dict[str, Any] = {"azimuth_from_deg": 338.0, "azimuth_to_deg": 20.0, "below_altitude_deg": 25.0}


def test_what_has_no_name_is_told_by_its_kind() -> None:
    assert [blocked_words(name) for name in ("roof", UNNAMED_BLOCK)] == [
        "behind blocked sky (roof)",
        "behind blocked sky",
    ]
    assert [warm_air_words(name) for name in ("chimney", UNNAMED_WARM)] == [
        "warm air (chimney)",
        "warm air",
    ]
    # In the few words that have room beside a curve.
    assert [blocked_note(name) for name in ("roof", UNNAMED_BLOCK)] == ["behind roof", "blocked sky"]
    assert [warm_air_note(name) for name in ("chimney", UNNAMED_WARM)] == ["warm air, chimney", "warm air"]


@pytest.mark.parametrize(
    ("sector", "name"),
    [
        (BlockedSky(**NORTH), "blocked sky"),
        (BlockedSky(**NORTH, what="trees"), "trees"),
        (BlockedSky(**NORTH, what="roof", heated=True), "roof, heated"),
        # Its own name says so already.
        (BlockedSky(**NORTH, what="heated flats", heated=True), "heated flats"),
        (WarmAir(**NORTH), "warm air"),
        (WarmAir(**NORTH, what="vent"), "vent"),
    ],
)
def test_a_sector_is_told_from_where_to_where_and_how_high(sector: BlockedSky | WarmAir, name: str) -> None:
    assert sector_words(sector) == f"{name}: azimuth 338° to 20°, below 25°"


def test_what_hides_comes_before_what_warms() -> None:
    assert sight_words(behind="roof", through="vent") == "behind blocked sky (roof)"
    assert sight_words(behind=None, through="vent") == "seen through warm air (vent)"
    assert sight_words(behind=None, through=None) is None
