"""Many evenings together are the same evenings as one by one, anywhere on the Earth."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from core.moments.best_minutes import offered_windows
from core.sky.bodies import PLANETS, TARGETS, Body
from core.sky.ephemeris import EphemerisRangeError, size_and_light, usable_dates
from core.sky.events import BodyState
from core.sky.night import BodyNight, Night, compute_night
from core.sky.site import BlockedSky, Site
from core.sky.spans import Span
from core.sky.windows import Grade
from core.year.evenings import evenings_from, year_from
from core.year.outlook import BodyOutlook, compute_outlook

EVENT_S = 0.002
# Near the poles both engines sample alike; a body that grazes a height for hours is found by its altitude.
HOURS = 0.01

ROOF = BlockedSky(azimuth_from_deg=190, azimuth_to_deg=260, below_altitude_deg=28, what="roof ridge")
TREES = BlockedSky(azimuth_from_deg=330, azimuth_to_deg=80, below_altitude_deg=35, what="trees")


def place(
    latitude_deg: float,
    longitude_deg: float,
    zone: str = "UTC",
    *blocked: BlockedSky,
    elevation_m: float = 0.0,
) -> Site:
    return Site(
        name="Place",
        latitude_deg=latitude_deg,
        longitude_deg=longitude_deg,
        elevation_m=elevation_m,
        time_zone=zone,
        blocked=blocked,
    )


PORTO = place(41.15, -8.61, "Europe/Lisbon")
WITH_ROOF = place(41.15, -8.61, "Europe/Lisbon", ROOF, TREES)


def seconds(times: Sequence[datetime]) -> list[float]:
    return [time.timestamp() for time in times]


def check_times(found_s: NDArray[np.float64], expected: Sequence[datetime]) -> None:
    assert found_s == pytest.approx(seconds(expected), abs=EVENT_S)


def check_spans(found_s: NDArray[np.float64], expected: Sequence[Span]) -> None:
    assert found_s.ravel() == pytest.approx(
        seconds([edge for span in expected for edge in (span.start, span.end)]), abs=EVENT_S
    )


def hours_of(night: Night, body: BodyNight, *grades: Grade) -> float:
    windows = offered_windows(night, body.body)
    lasts = [window.end - window.start for window in windows if window.grade in grades]
    return sum(lasts, timedelta()) / timedelta(hours=1)


def highest_in_windows(night: Night, body: BodyNight) -> float:
    """Return the greatest altitude inside the windows, which begin at 10 degrees; NaN without a window."""
    windows = offered_windows(night, body.body)
    turns = [body.highest.time, *(transit.time for transit in body.transits)]
    edges = [edge for window in windows for edge in (window.start, window.end)]
    inside = [time for time in turns if any(w.start <= time < w.end for w in windows)]
    found = [night.position(body.body, time).altitude_deg for time in (*edges, *inside)]
    return max(found, default=np.nan)


def check_evening(outlook: BodyOutlook, number: int, night: Night) -> None:
    body = night.of(outlook.body)
    check_times(outlook.rises.of(number), body.rises)
    check_times(outlook.transits.of(number), [transit.time for transit in body.transits])
    check_times(outlook.sets.of(number), body.sets)
    check_spans(outlook.above_30.of(number), body.above_30)
    check_spans(outlook.above_45.of(number), body.above_45)
    assert outlook.state(number) is body.state
    middle_s = (night.start.timestamp() + night.end.timestamp()) / 2.0
    seen = size_and_light(outlook.body, np.array([middle_s]))
    assert outlook.diameter_arcsec[number] == pytest.approx(seen.diameter_arcsec[0], rel=1e-6)
    assert outlook.dark_hours_45[number] == pytest.approx(hours_of(night, body, Grade.BEST), abs=HOURS)
    assert outlook.dark_hours_30[number] == pytest.approx(
        hours_of(night, body, Grade.BEST, Grade.FAIR), abs=HOURS
    )
    highest_deg = highest_in_windows(night, body)
    if np.isnan(highest_deg):
        assert not outlook.best_altitude_deg[number] > 10.01
    else:
        assert outlook.best_altitude_deg[number] == pytest.approx(highest_deg, abs=0.01)
        at = datetime.fromtimestamp(outlook.best_s[number], tz=night.start.tzinfo)
        assert night.position(body.body, at).altitude_deg == pytest.approx(highest_deg, abs=0.01)


def check_run(site: Site, first: date, days: int, bodies: Sequence[Body] = TARGETS) -> None:
    evenings = evenings_from(site, first, days)
    outlooks = compute_outlook(evenings, bodies)
    for number, evening in enumerate(evenings.dates):
        night = compute_night(site, evening, targets=bodies)
        for outlook in outlooks:
            check_evening(outlook, number, night)


@pytest.mark.parametrize(
    ("site", "first"),
    [
        (PORTO, date(2026, 10, 23)),  # summer time ends on the 25th
        (WITH_ROOF, date(2026, 12, 5)),
        (place(69.65, 18.96, "Europe/Oslo"), date(2027, 5, 14)),  # the Sun sets for the last time
        (place(69.65, 18.96, "Europe/Oslo"), date(2027, 11, 28)),  # polar night
        (place(-33.9, 151.2, "Australia/Sydney", TREES), date(2027, 2, 1)),
        (place(0.0, 0.0), date(2026, 3, 19)),  # the Sun through the zenith
        (place(-13.8, -171.8, "Pacific/Apia"), date(2011, 12, 28)),  # 30 December was skipped
        (place(-41.3, 174.8, "UTC"), date(2026, 6, 1)),  # noon of this clock is midnight there
        (place(1.87, -157.4, "Pacific/Kiritimati"), date(2026, 10, 9)),  # two transits of Saturn
        (place(84.0, -40.0), date(2026, 9, 20)),
        (place(90.0, 0.0), date(2026, 3, 17)),  # the one sunrise of the year
        (place(-90.0, 0.0), date(2027, 1, 1)),
    ],
    ids=lambda value: f"{value.latitude_deg}" if isinstance(value, Site) else str(value),
)
def test_evenings_together_are_evenings_one_by_one(site: Site, first: date) -> None:
    check_run(site, first, 4)


@settings(max_examples=25, deadline=None)
@given(
    latitude_deg=st.floats(-89.0, 89.0),
    longitude_deg=st.floats(-180.0, 180.0),
    first=st.dates(date(1950, 1, 1), date(2050, 1, 1)),
    body=st.sampled_from(TARGETS),
)
@example(latitude_deg=80.0, longitude_deg=180.0, first=date(2025, 1, 10), body=Body.MOON)
@example(latitude_deg=-80.0, longitude_deg=-180.0, first=date(2006, 6, 10), body=Body.MOON)
def test_any_place_and_date(latitude_deg: float, longitude_deg: float, first: date, body: Body) -> None:
    check_run(place(latitude_deg, longitude_deg), first, 2, [body])


@pytest.mark.parametrize(
    "site", [PORTO, place(64.84, -147.72, "America/Anchorage")], ids=["Porto", "Fairbanks"]
)
def test_a_whole_year_is_right_far_from_its_start(site: Site) -> None:
    evenings = year_from(site, date(2026, 12, 5))
    outlooks = compute_outlook(evenings)

    assert len(evenings) == 365
    for number in (0, 107, 232, 364):
        night = compute_night(site, evenings.dates[number], targets=PLANETS)
        for outlook in outlooks:
            check_evening(outlook, number, night)


def test_blocked_sky_may_be_looked_through() -> None:
    open_sky, roofed = (
        compute_outlook(evenings_from(site, date(2026, 12, 5), 3), [Body.SATURN], through_blocked=through)[0]
        for site, through in ((PORTO, False), (WITH_ROOF, True))
    )

    assert np.array_equal(open_sky.dark_hours_30, roofed.dark_hours_30)
    assert np.array_equal(open_sky.best_s, roofed.best_s)


def test_the_owner_says_what_is_dark_enough() -> None:
    evenings = evenings_from(PORTO, date(2026, 12, 5), 1)
    usual, darker = (
        compute_outlook(evenings, [Body.SATURN], dark_enough=below)[0]
        for below in (None, {Body.SATURN: -18.0})
    )
    night = compute_night(PORTO, date(2026, 12, 5), targets=[Body.SATURN], dark_enough={Body.SATURN: -18.0})

    check_evening(darker, 0, night)
    assert darker.dark_hours_30[0] < usual.dark_hours_30[0] - 0.5


def test_each_step_is_told_and_may_be_the_last() -> None:
    evenings = evenings_from(PORTO, date(2026, 12, 5), 2)
    told: list[tuple[int, int]] = []

    def stop(done: int, steps: int) -> None:
        told.append((done, steps))
        if done == 2:
            raise InterruptedError

    compute_outlook(evenings, [Body.MARS, Body.SATURN], progress=lambda *step: told.append(step))
    assert told == [(0, 3), (1, 3), (2, 3), (3, 3)]
    told.clear()
    with pytest.raises(InterruptedError):
        compute_outlook(evenings, [Body.MARS, Body.SATURN], progress=stop)
    assert told[-1] == (2, 3)


def test_evenings_end_with_the_planet_tables() -> None:
    _, last = usable_dates()
    evenings = evenings_from(PORTO, last - timedelta(days=2), 30)

    assert evenings.dates[-1] == last
    assert len(compute_outlook(evenings, [Body.NEPTUNE])[0].rises.values_s) == 3
    with pytest.raises(EphemerisRangeError):
        evenings_from(PORTO, last + timedelta(days=1), 30)


def test_a_skipped_date_is_left_out() -> None:
    evenings = evenings_from(place(-13.8, -171.8, "Pacific/Apia"), date(2011, 12, 28), 5)

    assert [day.day for day in evenings.dates] == [28, 29, 31, 1]


@pytest.mark.parametrize(
    ("first", "last"),
    [
        (date(2026, 12, 5), date(2027, 12, 4)),
        (date(2028, 2, 29), date(2029, 2, 27)),
        (date(2028, 1, 1), date(2028, 12, 31)),
        (date(2027, 3, 1), date(2028, 2, 29)),
    ],
)
def test_a_year_ends_before_its_date_comes_again(first: date, last: date) -> None:
    evenings = year_from(PORTO, first)

    assert (evenings.dates[0], evenings.dates[-1]) == (first, last)
    assert np.all(np.diff(evenings.edges_s) > 0)


def test_states_are_told_apart() -> None:
    evenings = evenings_from(place(69.65, 18.96, "Europe/Oslo"), date(2027, 11, 28), 1)
    states = {outlook.body: outlook.state(0) for outlook in compute_outlook(evenings)}

    # Skyfield with DE421: Venus is highest at -4.5 degrees, Mars at -4.1.
    assert states[Body.VENUS] is BodyState.NEVER_UP
    assert states[Body.MARS] is BodyState.NEVER_UP
    assert states[Body.JUPITER] is BodyState.NORMAL
