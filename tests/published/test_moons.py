"""Jupiter's moons and red spot against Meeus, printed predictions, and two other libraries."""

import math
from collections.abc import Sequence
from datetime import date, datetime, timedelta

import ephem
import numpy as np
import pytest
from numpy.typing import NDArray
from pymeeus.Epoch import Epoch
from pymeeus.JupiterMoons import JupiterMoons

from core.sky.bodies import Body
from core.sky.disc import disc_at
from core.sky.moons import Moon, MoonEvent, MoonEventKind, moon_events, moon_positions
from core.sky.red_spot import red_spot_passes
from tests.published.tables import rows, utc


def offsets_at(times: Sequence[datetime]) -> NDArray[np.float64]:
    """Return x west, y north and z towards us of the four moons at each time, shape (4, N, 3)."""
    moons = [[(moon.x_radii, moon.y_radii, moon.z_radii) for moon in moon_positions(time)] for time in times]
    return np.array(moons).transpose(1, 0, 2)


def test_places_of_meeus_44b() -> None:
    """Astronomical Algorithms, 2nd ed., p. 314 (theory E5); its unit is 71 398 km."""
    expected = {
        row["id"]: float(row["expected"]) for row in rows("worked_positions.csv") if "M44b" in row["id"]
    }
    offsets = offsets_at([utc("1992-12-16")])

    for index, moon in enumerate(Moon):
        assert offsets[index, 0, 0] == pytest.approx(expected[f"M44b-{moon.label}-X"], abs=0.03)
        assert offsets[index, 0, 1] == pytest.approx(expected[f"M44b-{moon.label}-Y"], abs=0.01)


TIMES = [utc("2009-08-07T03:00:00") + timedelta(days=97.3 * step) for step in range(60)]


def test_places_agree_with_pymeeus() -> None:
    """PyMeeus 0.5.12, the high accuracy method of Meeus' chapter 44 (theory E5)."""
    ours = offsets_at(TIMES[::6])

    for column, time in enumerate(TIMES[::6]):
        epoch = Epoch(time.year, time.month, time.day + (time.hour + time.minute / 60.0) / 24.0, utc=True)
        theirs = JupiterMoons.rectangular_positions_jovian_equatorial(epoch, solar=False)
        for index in range(4):
            assert ours[index, column, 0] == pytest.approx(theirs[index][0], abs=0.06)
            assert ours[index, column, 1] == pytest.approx(theirs[index][1], abs=0.06)


def test_places_agree_with_ephem() -> None:
    """The library ephem (Meeus' low accuracy method), whose x counts east on the sky and whose y south."""
    ours = offsets_at(TIMES)

    def allowed(name: str) -> float:
        return 0.2 if name == "Callisto" else 0.1

    for column, time in enumerate(TIMES):
        pole_angle = math.radians(disc_at(Body.JUPITER, time).pole_angle_deg)
        sine, cosine = math.sin(pole_angle), math.cos(pole_angle)
        for index, name in enumerate(("Io", "Europa", "Ganymede", "Callisto")):
            other = getattr(ephem, name)(time)
            west, north = -other.x, -other.y
            assert ours[index, column, 0] == pytest.approx(west * cosine + north * sine, abs=allowed(name))
            assert ours[index, column, 1] == pytest.approx(north * cosine - west * sine, abs=allowed(name))


@pytest.fixture(scope="module")
def events_of_january_2016() -> tuple[MoonEvent, ...]:
    return moon_events(utc("2016-01-01T12:00:00"), utc("2016-01-10T13:00:00"))


@pytest.mark.parametrize(
    "row", rows("jupiter_moon_events.csv"), ids=lambda row: f"{row['time_utc']} {row['moon']}"
)
def test_events_come_within_two_minutes_of_printed_predictions(
    row: dict[str, str], events_of_january_2016: tuple[MoonEvent, ...]
) -> None:
    """IMCCE's predictions for January 2016: half of the light, or the moon's middle at the edge."""
    printed = utc(row["time_utc"])
    moments = [
        (event.start, event.start_seen) if row["edge"] == "start" else (event.end, event.end_seen)
        for event in events_of_january_2016
        if event.moon == row["moon"] and event.kind == row["kind"]
    ]

    found, is_seen = min(moments, key=lambda moment: abs(moment[0] - printed))

    assert abs(found - printed) <= timedelta(minutes=2)
    assert is_seen


def test_what_the_printed_list_leaves_out_is_hidden(events_of_january_2016: tuple[MoonEvent, ...]) -> None:
    """A list of predictions holds only what shows: an eclipse's end behind Jupiter is not in it."""
    listed = {
        (row["moon"], row["kind"], row["edge"], row["time_utc"][:13])
        for row in rows("jupiter_moon_events.csv")
    }
    last = utc("2016-01-10T12:00:00")
    for event in events_of_january_2016:
        edges = (("start", event.start, event.start_seen), ("end", event.end, event.end_seen))
        for edge, moment, is_seen in edges:
            if event.kind in (MoonEventKind.TRANSIT, MoonEventKind.SHADOW_TRANSIT) or moment > last:
                continue
            hours = {(moment + timedelta(minutes=shift)).isoformat()[:13] for shift in (-2, 2)}
            is_listed = any((event.moon, event.kind, edge, hour) in listed for hour in hours)
            assert is_listed == is_seen, (event, edge)


def test_the_red_spot_passes_when_a_printed_list_says() -> None:
    """Thirty-six transits of January 2019 for System II longitude 294; printed to the minute."""
    printed = [utc(row["time_utc"]) for row in rows("red_spot_transits.csv")]

    passes = red_spot_passes(294.0, date(2019, 1, 1), utc("2019-01-17"), utc("2019-02-01"))

    assert len(passes.times) == len(printed)
    for found, expected in zip(passes.times, printed, strict=True):
        assert abs(found - expected) <= timedelta(minutes=1)
