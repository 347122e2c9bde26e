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


@pytest.mark.parametrize(
    ("minutes", "figure"),
    [
        ((25, 36, 54), "25 to 55 min"),
        ((0, 0, 0), "at once"),
        ((0.2, 0.5, 0.9), "5 to 10 min"),
        (None, "never quite, in falling air"),
    ],
)
def test_a_cool_down_as_a_figure(minutes: tuple[float, float, float] | None, figure: str) -> None:
    assert cool_down_text(minutes) == figure


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
    assert settled_text(evolve(settled, likely_minutes=0.0)) == "at once"


AN_ESTIMATE, MEASURED = "(an estimate)", "(from your own measured time)"
AT_ONCE = "Low power is usable at once."
SETTLES = "Its mirror, 35 mm thick (assumed), has settled"
LAGS = "Behind the falling air it stays about 3.0 °C warmer to the end of the night."


@pytest.mark.parametrize(("is_measured", "basis"), [(False, AN_ESTIMATE), (True, MEASURED)])
def test_both_estimates_are_told_of_a_mirror_and_one_of_a_lens(is_measured: bool, basis: str) -> None:
    """A mirror of 254 mm is assumed to be 25 + 104 / 10 mm thick, about 35 (the plan's rule).

    Usable after 45 minutes at 17 °C above the air, settled after 3.4 hours, each within a third or so.
    """
    of_mirror, of_lens = (
        evolve(each, usable=evolve(each.usable, measured=is_measured))
        for each in (TEN_INCH, readiness_in_still_air(lens(100)))
    )

    assert readiness_text(of_mirror) == (
        f"Usable for planets in about 30 to 70 minutes {basis}. {AT_ONCE} {SETTLES} after about 2 to 4.5 "
        "hours (an estimate)."
    )
    assert readiness_text(of_lens) == (
        f"Its lens is usable for planets in about 10 to 20 minutes {basis}. {AT_ONCE}"
    )
    since = "The telescope has been outside since 21:00:"
    assert time_outside_text(of_mirror, NINE, CLOCK) == (
        f"{since} usable for planets from some time between 21:30 and 22:10, likely 21:45 {basis}. {AT_ONCE} "
        f"{SETTLES} some time between 23:10 and 01:30, likely by 00:20 (an estimate)."
    )
    assert time_outside_text(of_lens, NINE, CLOCK) == (
        f"{since} its lens is usable for planets from some time between 21:10 and 21:20, likely 21:10 "
        f"{basis}. {AT_ONCE}"
    )


def test_a_mirror_of_known_thickness_is_not_told_as_assumed() -> None:
    measured = readiness_in_still_air(evolve(mirror(254), mirror_thickness_mm=40.0))

    assert "Its mirror, 40 mm thick, has settled after" in readiness_text(measured)


@pytest.mark.parametrize(
    ("unit", "near", "lag"),
    [(TemperatureUnit.CELSIUS, "1 °C", "3.0 °C"), (TemperatureUnit.FAHRENHEIT, "2 °F", "5.4 °F")],
)
def test_what_is_never_ready_and_what_is_at_once(unit: TemperatureUnit, near: str, lag: str) -> None:
    """3 °C apart are 5.4 °F apart."""
    never = evolve(TEN_INCH, never=True, stays_warmer_c=3.0)
    at_once = evolve(TEN_INCH, usable=evolve(TEN_INCH.usable, likely_minutes=0.0))
    never_comes = (
        f"While the air falls this fast its mirror stays about {lag} warmer and never comes within {near} of "
        "it. Low power is usable at once; a fan, or carrying it out earlier, helps."
    )

    assert readiness_text(never, unit=unit) == never_comes
    assert time_outside_text(never, NINE, CLOCK, unit=unit) == (
        f"The telescope has been outside since 21:00. {never_comes}"
    )
    assert readiness_text(at_once, unit=unit) == f"It is within {near} of the air already."
    assert time_outside_text(at_once, NINE, CLOCK, unit=unit) == (
        f"The telescope has been outside since 21:00, and was within {near} of the air then."
    )


def test_how_far_a_mirror_stays_behind_the_air_comes_last() -> None:
    at_once = evolve(TEN_INCH, usable=evolve(TEN_INCH.usable, likely_minutes=0.0))

    for readiness in (TEN_INCH, at_once):
        lagging = evolve(readiness, stays_warmer_c=3.0)
        assert readiness_text(lagging) == f"{readiness_text(readiness)} {LAGS}"
        outside = time_outside_text(readiness, NINE, CLOCK)
        assert time_outside_text(lagging, NINE, CLOCK) == f"{outside} {LAGS}"


def test_how_the_ceiling_climbs_as_the_mirror_cools() -> None:
    climb = MirrorClimb(at=NINE, power=91.0, later_power=152.0, later=NINE + timedelta(minutes=40))

    assert mirror_climb_text(climb, CLOCK, now=NINE) == (
        "As the mirror cools: now about 90x, 150x from about 21:40 (an estimate)."
    )
    for now in (NINE - timedelta(hours=1), None):
        assert mirror_climb_text(climb, CLOCK, now=now) == (
            "As the mirror cools: about 90x at 21:00, 150x from about 21:40 (an estimate)."
        )
    assert mirror_climb_later_text(climb, CLOCK) == "As the mirror cools, about 150x from 21:40."


@pytest.mark.parametrize(("is_assumed", "warmer"), [(False, "°C warmer"), (True, "°C warmer, assumed")])
def test_beside_the_figure_of_warmth_stands_when_it_is_likely_usable(is_assumed: bool, warmer: str) -> None:
    def words(likely: datetime | None) -> str:
        return brief_outside_text(likely, NINE, CLOCK, unit="°C", is_assumed=is_assumed)

    assert words(None) == warmer
    assert words(NINE) == f"{warmer} · likely usable since 21:00"
    assert words(NINE + timedelta(minutes=1)) == f"{warmer} · likely usable 21:01"
