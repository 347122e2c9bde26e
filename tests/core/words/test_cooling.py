"""Cool-downs in words: estimates in steps of five minutes, and long ones in halves of an hour."""

from datetime import UTC, datetime, timedelta

import pytest
from attrs import evolve

from core.air.readiness import readiness_in_still_air
from core.ladder.mirror_climb import MirrorClimb
from core.record.observer import TemperatureUnit
from core.words.cooling import (
    brief_outside_text,
    cool_down_text,
    mirror_climb_later_text,
    mirror_climb_text,
    readiness_text,
    rounded_minutes,
    settled_text,
    span_text,
    time_outside_text,
)
from core.words.site_clock import SiteClock
from tests.core.evenings import LISBON
from tests.core.ladder.side_by_side import lens, mirror

NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
CLOCK = SiteClock(zone=LISBON.zone, hours=24)
TEN_INCH = readiness_in_still_air(mirror(254))


@pytest.mark.parametrize(("minutes", "told"), [(0, 5), (2, 5), (7.4, 5), (7.5, 10), (36, 35), (54, 55)])
def test_minutes_are_told_to_the_nearest_five_and_never_as_none(minutes: float, told: int) -> None:
    assert rounded_minutes(minutes) == told


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [(25, 54, "25 to 55"), (6, 7, "5 to 10"), (30, 30, "30 to 35"), (1, 2, "5 to 10")],
)
def test_the_ends_of_an_estimate_are_never_the_same(low: float, high: float, words: str) -> None:
    assert span_text(low, high) == words


@pytest.mark.parametrize(("minutes", "figure"), [((25, 36, 54), "25 to 55 min"), ((0, 0, 0), ""), (None, "")])
def test_a_cool_down_as_a_figure(minutes: tuple[float, float, float] | None, figure: str) -> None:
    words = cool_down_text(minutes)

    assert words == figure if figure else ("min" not in words and words)


@pytest.mark.parametrize(
    ("low", "likely", "high", "figure"),
    [
        (90, 130, 175, "90 to 175 min"),
        (119, 140, 180, "120 to 180 min"),
        (120, 140, 180, "2 to 3 h"),  # from two hours on in halves of one
        (130, 150, 140, "2 to 2.5 h"),
        (150, 200, 260, "2.5 to 4.5 h"),
        (125, 126, 127, "2 to 2.5 h"),  # never from a figure to the same
    ],
)
def test_long_times_are_told_in_halves_of_an_hour(
    low: float, likely: float, high: float, figure: str
) -> None:
    assert TEN_INCH.settled is not None
    settled = evolve(TEN_INCH.settled, low_minutes=low, likely_minutes=likely, high_minutes=high)

    assert settled_text(settled) == figure
    assert settled_text(None) is None
    assert "min" not in (settled_text(evolve(settled, likely_minutes=0.0)) or "")


def test_both_estimates_are_told_of_a_mirror_and_one_of_a_lens() -> None:
    """A mirror of 254 mm is assumed to be 25 + 104 / 10 mm thick, about 35 (the plan's rule)."""
    of_mirror, of_lens = readiness_text(TEN_INCH), readiness_text(readiness_in_still_air(lens(100)))
    usable = TEN_INCH.usable

    assert span_text(usable.low_minutes, usable.high_minutes) in of_mirror
    assert "35 mm" in of_mirror
    assert "assumed" in of_mirror
    measured = readiness_text(readiness_in_still_air(evolve(mirror(254), mirror_thickness_mm=40.0)))
    assert "40 mm" in measured
    assert "assumed" not in measured
    assert "lens" in of_lens
    assert "mirror" not in of_lens


@pytest.mark.parametrize(
    ("unit", "near", "lag"),
    [(TemperatureUnit.CELSIUS, "1 °C", "3.0 °C"), (TemperatureUnit.FAHRENHEIT, "2 °F", "5.4 °F")],
)
def test_what_is_never_ready_and_what_is_at_once(unit: TemperatureUnit, near: str, lag: str) -> None:
    """3 °C apart are 5.4 °F apart."""
    never = readiness_text(evolve(TEN_INCH, never=True, stays_warmer_c=3.0), unit=unit)
    at_once = evolve(TEN_INCH, usable=evolve(TEN_INCH.usable, likely_minutes=0.0))

    assert lag in never
    assert near in readiness_text(at_once, unit=unit)
    outside = time_outside_text(at_once, NINE, CLOCK, unit=unit)
    assert "21:00" in outside


def test_standing_outside_since_a_time_it_is_ready_at_a_time() -> None:
    usable = TEN_INCH.usable
    words = time_outside_text(TEN_INCH, NINE, CLOCK)

    assert "21:00" in words
    likely = NINE + timedelta(minutes=usable.likely_minutes)
    assert any(f"{(likely + timedelta(minutes=off)).hour}:" in words for off in (-5, 0, 5))
    assert "21:00" in time_outside_text(evolve(TEN_INCH, never=True, stays_warmer_c=3.0), NINE, CLOCK)


def test_how_the_ceiling_climbs_as_the_mirror_cools() -> None:
    climb = MirrorClimb(at=NINE, power=91.0, later_power=152.0, later=NINE + timedelta(minutes=40))

    now, then = (mirror_climb_text(climb, CLOCK, now=moment) for moment in (NINE, NINE - timedelta(hours=1)))

    for words in (now, then):
        assert "90x" in words
        assert "150x" in words
        assert "21:40" in words
    assert "21:00" in then
    assert "21:00" not in now
    later = mirror_climb_later_text(climb, CLOCK)
    assert "150x" in later
    assert "21:40" in later
    assert "90x" not in later


def test_beside_the_figure_of_warmth_stands_when_it_is_likely_usable() -> None:
    def words(likely: datetime | None, *, is_assumed: bool = False) -> str:
        return brief_outside_text(likely, NINE, CLOCK, unit="°C", is_assumed=is_assumed)

    assert ":" not in words(None)
    assert "21:30" in words(NINE + timedelta(minutes=30))
    assert words(NINE) != words(NINE + timedelta(minutes=1))
    assert all("°C" in each for each in (words(None), words(NINE), words(NINE + timedelta(minutes=1))))
    assert words(None, is_assumed=True) != words(None)
