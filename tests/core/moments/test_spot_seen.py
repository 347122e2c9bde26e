"""Passages of the red spot that can be looked at, against the list of all of them."""

from datetime import date, datetime, timedelta

import pytest

from core.moments.best_minutes import offered_windows
from core.moments.spot_seen import spot_passes_seen
from core.record.observer import RedSpot
from core.sky.bodies import Body
from core.sky.ephemeris import usable_dates
from core.sky.night import Night, compute_night
from core.sky.red_spot import red_spot_passes
from core.sky.site import Site

LISBON = Site(name="Terrace", latitude_deg=38.72, longitude_deg=-9.14, time_zone="Europe/Lisbon")
SPOT = RedSpot(longitude_deg=70, on=date(2026, 11, 1))


def night_of(day: date) -> Night:
    return compute_night(LISBON, day, targets=[Body.JUPITER])


def test_every_passage_told_falls_into_a_window_and_none_is_left_out() -> None:
    counted = 0
    for number in range(12):
        night = night_of(date(2027, 2, 1) + timedelta(days=number))
        told = spot_passes_seen(night, SPOT)
        (first, *_), last = night.of(Body.JUPITER).windows, night.of(Body.JUPITER).windows[-1]
        every = red_spot_passes(SPOT.longitude_deg, SPOT.on, night.start, night.end).times
        # Around opposition Jupiter's windows are one run through the night.
        assert told.times == tuple(time for time in every if first.start <= time < last.end)
        assert (told.next_seen is None) == bool(told.times)
        counted += len(told.times)
    # 24 h / 9.93 h a day, of which some 12 of 24 hours count (arithmetic).
    assert 12 <= counted <= 17


@pytest.mark.parametrize("evening", [date(2026, 8, 20), date(2027, 5, 20)], ids=["near the Sun", "evenings"])
def test_without_one_the_next_that_can_be_looked_at_is_told(evening: date) -> None:
    night = night_of(evening)
    told = spot_passes_seen(night, SPOT)
    while told.times:
        night = night_of(night.evening + timedelta(days=1))
        told = spot_passes_seen(night, SPOT)

    assert told.next_seen is not None
    assert told.next_seen > night.end
    around = night_of((told.next_seen - timedelta(hours=12)).date())
    assert told.next_seen in spot_passes_seen(around, SPOT).times


@pytest.mark.parametrize("longitude_deg", [0, 90, 180, 270])
def test_while_jupiter_is_out_of_sight_none_is_passed_over(longitude_deg: int) -> None:
    # Conjunction on 31 August 2027 (two libraries: tests/published/data/phenomena.csv).
    night = night_of(date(2027, 8, 25))
    spot = RedSpot(longitude_deg=longitude_deg, on=date(2027, 8, 1))
    told = spot_passes_seen(night, spot)
    assert told.times == ()

    seen: list[datetime] = []
    while not seen:
        night = night_of(night.evening + timedelta(days=1))
        every = red_spot_passes(spot.longitude_deg, spot.on, night.start, night.end).times
        windows = offered_windows(night, Body.JUPITER)
        seen = [time for time in every if any(each.start <= time < each.end for each in windows)]
    assert told.next_seen == seen[0]


def test_the_search_ends_with_the_planet_tables() -> None:
    night = night_of(usable_dates()[1])

    told = spot_passes_seen(night, SPOT)

    assert told.times or told.next_seen is None
