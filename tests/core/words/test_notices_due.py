"""What is due, a sentence each: in how many minutes, at which time, and what then happens."""

from datetime import UTC, datetime, timedelta

import pytest

from core.sky.bodies import Body
from core.sky.moons import Moon, MoonEvent, MoonEventKind
from core.sky.track import Position
from core.tonight.notices_due import (
    CrossingDue,
    HiddenDue,
    MoonEventDue,
    RedSpotDue,
    StepDue,
    TransitDue,
    WarmAirDue,
)
from core.tonight.steps import CoversItem
from core.words.notices_due import notice_words
from core.words.site_clock import SiteClock
from tests.core.evenings import LISBON

CLOCK = SiteClock(zone=LISBON.zone)  # on winter's UTC
NINE = datetime(2026, 12, 5, 21, 0, tzinfo=UTC)
COVERS = CoversItem(start=NINE, end=NINE)


@pytest.mark.parametrize(
    ("seconds_before", "words"),
    [
        (300, "In 5 min, at 21:00: Covers off."),
        # A part of a minute counts as one.
        (241, "In 5 min, at 21:00: Covers off."),
        (1, "In 1 min, at 21:00: Covers off."),
        (0, "Due now, 21:00: Covers off."),
        (-60, "Due now, 21:00: Covers off."),
    ],
)
def test_a_step_is_told_with_its_minutes_and_then_as_due(seconds_before: int, words: str) -> None:
    now = NINE - timedelta(seconds=seconds_before)

    assert notice_words(StepDue(at=NINE, now=now, item=COVERS), CLOCK) == words


@pytest.mark.parametrize(
    ("level_deg", "is_rising", "words"),
    [
        (45.0, True, "The Moon has risen above 45°: the best of the air begins."),
        (30.0, True, "The Moon has risen above 30°: now it is worth a climb."),
        (45.0, False, "The Moon has sunk below 45°: fair, no longer the best."),
        (30.0, False, "The Moon has sunk below 30°: thick air from here on."),
    ],
)
def test_a_height_that_is_crossed(level_deg: float, is_rising: bool, words: str) -> None:
    due = CrossingDue(at=NINE, now=NINE, body=Body.MOON, level_deg=level_deg, is_rising=is_rising)

    assert notice_words(due, CLOCK) == words


def test_what_comes_into_the_line_of_sight() -> None:
    now = NINE - timedelta(minutes=9, seconds=30)
    hidden = HiddenDue(at=NINE, now=now, body=Body.SATURN, what="roof ridge")
    warm = WarmAirDue(at=NINE, now=now, body=Body.MOON, what="chimney")

    assert notice_words(hidden, CLOCK) == "Saturn goes behind blocked sky (roof ridge) in 10 min, at 21:00."
    assert notice_words(warm, CLOCK) == "The Moon is seen through warm air (chimney) in 10 min, from 21:00."


def test_a_transit_has_its_height_and_direction() -> None:
    highest = Position(
        time=NINE,
        altitude_deg=51.6,
        azimuth_deg=180.0,
        apparent_altitude_deg=51.6,
        path=1.3,
        declination_deg=0.0,
    )

    assert notice_words(TransitDue(at=NINE, now=NINE, body=Body.SATURN, position=highest), CLOCK) == (
        "Saturn is at its highest now: 52° in the south."
    )


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (MoonEventKind.TRANSIT, "Io begins to cross Jupiter's disc now, until 23:10."),
        (MoonEventKind.SHADOW_TRANSIT, "Io's shadow begins to cross Jupiter's disc now, until 23:10."),
        (MoonEventKind.OCCULTATION, "Io goes behind Jupiter now."),
        (MoonEventKind.ECLIPSE, "Io goes into Jupiter's shadow now."),
    ],
)
def test_a_moon_of_jupiter_s(kind: MoonEventKind, words: str) -> None:
    event = MoonEvent(
        moon=Moon.IO,
        kind=kind,
        start=NINE,
        end=NINE + timedelta(minutes=130),
        start_seen=True,
        end_seen=True,
    )

    assert notice_words(MoonEventDue(at=NINE, now=NINE, event=event), CLOCK) == words


def test_the_red_spot_is_told_by_when_it_is_in_the_middle() -> None:
    fresh, old = (
        notice_words(RedSpotDue(at=NINE, now=NINE, middle=NINE + timedelta(minutes=50), is_old=is_old), CLOCK)
        for is_old in (False, True)
    )

    assert fresh == "The red spot has come round Jupiter's edge; it is in the middle at 21:50."
    assert old == (
        "The red spot has come round Jupiter's edge; it is in the middle at about 21:50 (old longitude)."
    )
