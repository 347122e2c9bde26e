"""What else a year brings: the ring, two shadows at once, a face of Mars; and the words for it."""

from datetime import UTC, date, datetime, timedelta
from functools import cache

import ephem
import numpy as np
import pytest
from attrs import evolve

from core.export.year import year_json
from core.sky.bodies import Body
from core.sky.disc import disc_at
from core.sky.moons import Moon, MoonEventKind, moon_events, shadow_spans
from core.sky.ring import next_edge_on
from core.sky.site import BlockedSky, Site
from core.words.site_clock import SiteClock
from core.words.year_notes import year_notes
from core.year.year import Year, compute_year

LISBON = Site(name="Terrace", latitude_deg=38.72, longitude_deg=-9.14, time_zone="Europe/Lisbon")
CLOCK = SiteClock(zone=LISBON.zone)
FIRST = date(2026, 11, 26)


@cache
def year(body: Body, first: date = FIRST) -> Year:
    return compute_year(LISBON, body, first, mars_longitude_deg=290.0)


def notes(told: Year) -> list[str]:
    return list(year_notes(told, CLOCK))


# --- The ring --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("after", "edge_on"),
    [
        # Zeros of B between two published rows (Nicholson 1994: tests/published/data/rings_and_physical.csv).
        ("1995-01-01", "1995-05-22T04:20"),
        ("1995-06-15", "1995-08-10T21:30"),
        ("1995-10-01", "1996-02-11T23:50"),
        # Two models of the axis: 14:47 and 18:24 (tests/published/data/phenomena.csv).
        ("1996-06-01", "2009-09-04T11:00"),  # from memory
        ("2024-01-01", "2025-03-23T16:30"),
        ("2026-11-26", "2038-10-15T12:00"),  # from memory, the day
    ],
)
def test_the_ring_is_edge_on_when_published_tables_have_it(after: str, edge_on: str) -> None:
    found = next_edge_on(datetime.fromisoformat(after).replace(tzinfo=UTC))

    assert abs(found - datetime.fromisoformat(edge_on).replace(tzinfo=UTC)) < timedelta(hours=12)


def test_the_ring_is_told_with_its_opening_and_its_next_time_edge_on() -> None:
    ring = year(Body.SATURN).ring

    assert ring is not None
    # PyEphem's tilt of the ring towards the Earth.
    for each in (ring.widest, ring.narrowest):
        tilt_deg = abs(np.degrees(float(ephem.Saturn(each.time).earth_tilt)))
        assert each.opening_deg == pytest.approx(tilt_deg, abs=0.1)
    assert notes(year(Body.SATURN)) == [
        (
            "The ring opens from 6° around 6 December 2026 to 14° around 3 August 2027. Seen from the Earth "
            "it is next edge-on on 15 October 2038."
        )
    ]


def test_a_ring_edge_on_near_the_sun_is_said_not_to_be_seen() -> None:
    (told,) = notes(year(Body.SATURN, date(2025, 1, 1)))

    # Conjunction with the Sun was eleven days before (tests/published/data/phenomena.csv).
    assert told.startswith(
        "The ring is edge-on to the Earth on 23 March 2025, when Saturn is too near the Sun to be seen; "
    )


# --- Two shadows at once ---------------------------------------------------------------------------------


def test_shadows_over_many_days_are_those_of_single_events() -> None:
    start, end = datetime(2026, 12, 10, tzinfo=UTC), datetime(2026, 12, 20, tzinfo=UTC)
    spans = shadow_spans(start, end)

    for event in moon_events(start, end):
        if event.kind is MoonEventKind.SHADOW_TRANSIT and start < event.start and event.end < end:
            near = spans[event.moon][np.argmin(np.abs(spans[event.moon][:, 0] - event.start.timestamp()))]
            assert near == pytest.approx([event.start.timestamp(), event.end.timestamp()], abs=120.0)


def test_three_shadows_fell_at_once_on_a_night_that_was_widely_published() -> None:
    start = datetime(2015, 1, 24, tzinfo=UTC)
    spans = shadow_spans(start, start + timedelta(days=1))

    # 06:28 to 06:52 UT on 24 January 2015 (from memory).
    begins = max(spans[moon][0, 0] for moon in (Moon.IO, Moon.EUROPA, Moon.CALLISTO))
    ends = min(spans[moon][0, 1] for moon in (Moon.IO, Moon.EUROPA, Moon.CALLISTO))
    assert begins == pytest.approx((start + timedelta(hours=6, minutes=28)).timestamp(), abs=120.0)
    assert ends == pytest.approx((start + timedelta(hours=6, minutes=52)).timestamp(), abs=120.0)


def seen_minutes(start: datetime, end: datetime) -> int:
    """Return for how many minutes PyEphem has Jupiter above 10 degrees with the Sun down at the site."""
    observer = ephem.Observer()
    observer.lat, observer.lon, observer.pressure = "38.72", "-9.14", 0
    count = 0
    for minute in range(int((end - start).total_seconds() // 60.0)):
        observer.date = start + timedelta(minutes=minute)
        jupiter_deg, sun_deg = (np.degrees(float(each(observer).alt)) for each in (ephem.Jupiter, ephem.Sun))
        count += jupiter_deg > 10.0 and sun_deg < -0.833
    return count


def test_the_next_double_shadows_are_all_that_are_seen() -> None:
    told = year(Body.JUPITER).double_shadows

    assert told is not None
    start = datetime(2026, 11, 26, 12, tzinfo=UTC)
    events = [
        each
        for each in moon_events(start, told[-1].end + timedelta(hours=1))
        if each.kind is MoonEventKind.SHADOW_TRANSIT
    ]
    pairs = []
    for number, one in enumerate(events):
        for other in events[number + 1 :]:
            begins, ends = max(one.start, other.start), min(one.end, other.end)
            if begins < ends and seen_minutes(begins, ends) >= 12:
                pairs.append({one.moon, other.moon})
    assert [set(each.moons) for each in told] == pairs
    for each in told:
        assert seen_minutes(each.start, each.end) >= (each.end - each.start).total_seconds() // 60.0 - 4


def test_double_shadows_are_told_with_weekday_and_hours() -> None:
    (told,) = notes(year(Body.JUPITER))

    assert told.startswith("Next times with the shadows of two moons on Jupiter at once: Io and Europa on ")
    assert "on Fri 18 December 2026, 23:1" in told


def test_behind_a_wall_none_is_told() -> None:
    wall = BlockedSky(azimuth_from_deg=0, azimuth_to_deg=360, below_altitude_deg=80)
    walled = compute_year(evolve(LISBON, blocked=(wall,)), Body.JUPITER, FIRST)

    assert walled.double_shadows == ()
    assert notes(walled) == [], "of a planet that is never seen nothing is told"
    assert notes(evolve(year(Body.JUPITER), double_shadows=())) == [
        "No two moons throw their shadows on Jupiter at once while it can be looked at in the months ahead."
    ]


# --- A face of Mars --------------------------------------------------------------------------------------


def test_a_longitude_on_mars_comes_round_about_every_five_weeks() -> None:
    told = year(Body.MARS)

    assert told.facing is not None
    starts = [first for first, _ in told.facing.evenings]
    for number, day in enumerate(told.dates):
        moment_s = told.outlook.best_s[number]
        if not told.outlook.best_altitude_deg[number] >= 10.0:
            continue
        middle_deg = disc_at(Body.MARS, datetime.fromtimestamp(moment_s, UTC)).central_meridian_deg("")
        assert middle_deg is not None
        is_near = abs((middle_deg - 290.0 + 180.0) % 360.0 - 180.0) <= 30.0
        assert is_near == any(first <= number <= last for first, last in told.facing.evenings), day
    # Mars turns in 24 h 37 min 23 s, so that a face is back at the same hour after some 36 to 40 days
    # (arithmetic: 360 / (360 - 350.89) = 39.5 at a fixed distance; Mars and the Earth move).
    gaps = np.diff(starts)
    assert gaps.min() >= 33
    assert gaps.max() <= 42


def test_the_face_is_told_by_runs_of_evenings() -> None:
    (told,) = notes(year(Body.MARS))

    assert told.startswith("Longitude 290° on Mars faces us while it is highest on these evenings: ")
    assert "30 Dec to 4 Jan, 4–9 Feb" in told
    assert notes(compute_year(LISBON, Body.MARS, FIRST)) == []


def test_half_lit_venus_is_told_with_what_the_eye_sees() -> None:
    (told,) = notes(year(Body.VENUS))

    assert told == (
        "By geometry Venus is half lit on 3 January 2027; to the eye it mostly seems so some days earlier in "
        "the evening sky, later in the morning sky."
    )


@pytest.mark.parametrize("body", [Body.MARS, Body.JUPITER, Body.SATURN, Body.NEPTUNE])
def test_json_has_every_key(body: Body) -> None:
    told = year_json(year(body))

    assert (told["ring"] is None) == (body is not Body.SATURN)
    assert bool(told["double_shadows"]) == (body is Body.JUPITER)
    assert (told["mars_longitude"] is None) == (body is not Body.MARS)
    assert told["aperture_mm"] == 150
    assert told["best"]["sharpest"]["details_across"] > 0
