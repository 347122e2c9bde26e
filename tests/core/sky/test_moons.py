"""Jupiter's moons: what must hold at any time, and events against positions."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.sky.bodies import Body
from core.sky.disc import disc_at
from core.sky.moons import Moon, MoonEventKind, MoonPosition, moon_events, moon_positions

UNIX_S = st.floats(-6e8, 2.5e9)  # 1951 to 2049
TIMES = UNIX_S.map(lambda unix_s: datetime.fromtimestamp(unix_s, UTC))
# Mean distances from Jupiter over its radius, and eccentricity's share (NASA fact sheets).
ORBITS = {
    Moon.IO: (5.90, 0.005),
    Moon.EUROPA: (9.39, 0.01),
    Moon.GANYMEDE: (14.97, 0.003),
    Moon.CALLISTO: (26.33, 0.008),
}


@settings(max_examples=60, deadline=None)
@given(time=TIMES)
def test_what_holds_for_every_moon(time: datetime) -> None:
    for place in moon_positions(time):
        distance = np.hypot(np.hypot(place.x_radii, place.y_radii), place.z_radii)
        mean, eccentricity = ORBITS[place.moon]
        assert abs(distance / mean - 1.0) < eccentricity + 0.006  # nearer moons look larger by up to 0.3 %
        # The orbits are never more than about 4 degrees open.
        assert abs(place.y_radii) < 0.09 * mean
        if place.in_transit:
            assert place.z_radii > 0.0
            assert not place.occulted
        if place.occulted:
            assert place.z_radii < 0.0
        if place.shadow_x_radii is not None and place.shadow_y_radii is not None:
            assert np.hypot(place.shadow_x_radii, place.shadow_y_radii) <= 1.0
        assert place.is_visible is not (place.occulted or place.eclipsed)


def state(place: MoonPosition, kind: MoonEventKind) -> bool:
    return {
        MoonEventKind.TRANSIT: place.in_transit,
        MoonEventKind.SHADOW_TRANSIT: place.shadow_x_radii is not None,
        MoonEventKind.OCCULTATION: place.occulted,
        MoonEventKind.ECLIPSE: place.eclipsed,
    }[kind]


@pytest.mark.parametrize("start", ["2016-01-01T12:00:00", "2026-12-05T12:00:00", "2033-08-20T12:00:00"])
def test_events_are_what_positions_say_before_within_and_after(start: str) -> None:
    first = datetime.fromisoformat(start).replace(tzinfo=UTC)
    events = moon_events(first, first + timedelta(days=3))
    assert len(events) > 8

    for event in events:
        inside = event.start + (event.end - event.start) / 2
        for moment, expected in (
            (event.start - timedelta(minutes=1), False),
            (inside, True),
            (event.end + timedelta(minutes=1), False),
        ):
            place = next(place for place in moon_positions(moment) if place.moon is event.moon)
            assert state(place, event.kind) is expected, (event, moment)


def test_no_event_is_missed_between_two_others() -> None:
    """Every minute of two days, by positions alone."""
    first = datetime(2026, 12, 5, 12, tzinfo=UTC)
    events = moon_events(first, first + timedelta(days=2))
    for minutes in range(0, 2 * 1440, 7):
        moment = first + timedelta(minutes=minutes)
        for place in moon_positions(moment):
            for kind in MoonEventKind:
                running = any(
                    event.moon is place.moon and event.kind is kind and event.start <= moment < event.end
                    for event in events
                )
                near = any(
                    abs(edge - moment) < timedelta(seconds=20)
                    for event in events
                    if event.moon is place.moon
                    for edge in (event.start, event.end)
                )
                assert near or running is state(place, kind), (moment, place, kind)


def test_events_come_in_order_and_what_is_under_way_is_whole() -> None:
    first = datetime(2026, 12, 5, 12, tzinfo=UTC)
    events = moon_events(first, first + timedelta(days=1))
    middle = next(event for event in events if event.end - event.start > timedelta(hours=2))
    inside = middle.start + (middle.end - middle.start) / 2

    again = moon_events(inside, inside + timedelta(minutes=5))

    assert [event.start for event in events] == sorted(event.start for event in events)
    found = next(event for event in again if (event.moon, event.kind) == (middle.moon, middle.kind))
    assert abs(found.start - middle.start) < timedelta(seconds=2)
    assert abs(found.end - middle.end) < timedelta(seconds=2)


def test_a_shadow_comes_or_goes_at_the_limb_and_at_the_line_of_night() -> None:
    """Away from opposition a shadow is lost on one side at the terminator, on the other at our own limb."""
    first = datetime(2016, 1, 1, 12, tzinfo=UTC)
    disc = disc_at(Body.JUPITER, first)
    events = moon_events(first, first + timedelta(days=10))
    shadows = [event for event in events if event.kind is MoonEventKind.SHADOW_TRANSIT]
    assert disc.phase_angle_deg > 8.0
    assert len(shadows) > 5

    def reach(moon: Moon, moment: datetime) -> float:
        place = next(place for place in moon_positions(moment) if place.moon is moon)
        assert place.shadow_x_radii is not None
        assert place.shadow_y_radii is not None
        flattening = disc.polar_diameter_arcsec / disc.equatorial_diameter_arcsec
        return float(np.hypot(place.shadow_x_radii, place.shadow_y_radii / flattening))

    for event in shadows:
        moments = (event.start + timedelta(seconds=5), event.end - timedelta(seconds=5))
        edges = sorted(reach(event.moon, moment) for moment in moments)
        assert edges[0] < 0.995
        assert edges[1] > 0.997


def test_callisto_passes_clear_of_jupiter_when_its_orbit_is_open() -> None:
    """Between its seasons of eclipses, as in 2028 and 2029, nothing happens to it (Meeus, More Mathematical
    Astronomy Morsels, from memory: about three years with, three without)."""
    first = datetime(2029, 3, 1, tzinfo=UTC)

    events = moon_events(first, first + timedelta(days=35))

    assert {event.moon for event in events} >= {Moon.IO, Moon.EUROPA}
    assert Moon.CALLISTO not in {event.moon for event in events}
