"""Sectors keep their width when turned, pass through north, and never leave what a site allows."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.sky.site import BlockedSky, WarmAir
from core.sky.skyline import (
    Preset,
    end_moved,
    from_preset,
    open_azimuth_deg,
    raised,
    start_moved,
    turned,
    width_deg,
)

ROOF = BlockedSky(azimuth_from_deg=350, azimuth_to_deg=20, below_altitude_deg=28, what="roof")
degrees = st.integers(-720, 720)


def test_a_sector_through_north_is_as_wide_as_it_is() -> None:
    assert width_deg(ROOF) == 30


def test_turning_keeps_the_width_and_passes_north() -> None:
    turned_roof = turned(ROOF, -15)

    assert (turned_roof.azimuth_from_deg, turned_roof.azimuth_to_deg) == (335, 5)


def test_each_edge_moves_by_itself() -> None:
    assert (start_moved(ROOF, 5).azimuth_from_deg, start_moved(ROOF, 5).azimuth_to_deg) == (355, 20)
    assert (end_moved(ROOF, 5).azimuth_from_deg, end_moved(ROOF, 5).azimuth_to_deg) == (350, 25)


@pytest.mark.parametrize(("by_deg", "expected_deg"), [(2, 30), (-100, 1), (100, 90)])
def test_the_upper_edge_stays_between_the_horizon_and_overhead(by_deg: float, expected_deg: float) -> None:
    assert raised(ROOF, by_deg).below_altitude_deg == expected_deg


@given(degrees, degrees, degrees, degrees)
def test_whatever_is_done_stays_a_sector(turn: int, start: int, end: int, rise: int) -> None:
    shaped = raised(end_moved(start_moved(turned(ROOF, turn), start), end), rise)

    assert 1 <= width_deg(shaped) <= 359
    assert 0 <= shaped.azimuth_from_deg < 360
    assert 0 <= shaped.azimuth_to_deg < 360


def test_the_whole_circle_stays_whole_when_turned() -> None:
    everywhere = BlockedSky(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=5)

    assert width_deg(everywhere) == 360
    assert turned(everywhere, 40) == everywhere


@pytest.mark.parametrize("preset", Preset)
def test_a_preset_stands_around_the_azimuth_asked_for(preset: Preset) -> None:
    sector = from_preset(preset, 0)

    assert sector.azimuth_from_deg > 180 > sector.azimuth_to_deg
    assert isinstance(sector, WarmAir) is (preset is Preset.CHIMNEY)
    assert getattr(sector, "heated", False) is (preset is Preset.HEATED_ROOF)


@pytest.mark.parametrize(
    ("sectors", "wanted_deg", "expected_deg"),
    [
        ((), 180, 180),
        ((ROOF,), 0, 345),
        ((ROOF,), 15, 25),
        ((BlockedSky(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=10),), 180, 180),
    ],
)
def test_the_nearest_open_azimuth_is_found(
    sectors: tuple[BlockedSky, ...], wanted_deg: float, expected_deg: float
) -> None:
    """The roof spans 350 to 20 degrees, edges included: the sky opens at 345 and at 25."""
    assert open_azimuth_deg(sectors, wanted_deg) == expected_deg
