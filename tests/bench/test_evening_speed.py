"""One evening of nine bodies, a sample a minute: all its events too, against skyfield asked for the samples.

Both sides are warm and use DE421. For the evening of 5 December 2026 at 41.15 N, 8.61 W, noon to noon:

* the program: ``compute_night``, which follows the Sun, the Moon and seven planets a minute apart (altitude,
  azimuth, refraction, declination) and finds rises, transits, sets, the spans above 30 and 45 degrees,
  twilights, windows, reasons, and how each body looks;
* skyfield: ``observe().apparent().altaz()`` of the same nine bodies at the same 1441 minutes, no events. How
  the Earth is turned at these minutes is worked out once, as for a new date, and shared by all bodies.

The steps of an evening, with what is due, follow other hours outside within 30 ms.

Skipped unless asked for: ``pytest tests/bench --benchmark-only``.
"""

from contextlib import closing
from datetime import UTC, date, datetime, time
from importlib.resources import files
from itertools import cycle
from typing import Any

import numpy as np
from pytest_benchmark.fixture import BenchmarkFixture
from skyfield.api import load, load_file, wgs84

from core.gear.owned import Telescope, TelescopeKind
from core.moments.hours import Twilight
from core.record.observer import Profile
from core.situation.choices import Choices, EveningHours
from core.situation.situation import Situation
from core.sky.bodies import TARGETS, Body
from core.sky.night import compute_night
from core.sky.site import BlockedSky, Site
from tests.bench.timing import best_of

SITE = Site(
    name="Terrace",
    latitude_deg=41.15,
    longitude_deg=-8.61,
    elevation_m=90,
    time_zone="Europe/Lisbon",
    blocked=(
        BlockedSky(azimuth_from_deg=190, azimuth_to_deg=260, below_altitude_deg=28, what="roof", heated=True),
    ),
)
EVENING = date(2026, 12, 5)
ALTITUDE_DEG = 0.005


def test_an_evening_takes_an_eighth_of_skyfields_samples(benchmark: BenchmarkFixture) -> None:
    night = compute_night(SITE, EVENING)
    benchmark(compute_night, SITE, EVENING)

    timescale = load.timescale(builtin=True)
    instants = [datetime.fromtimestamp(unix_s, UTC) for unix_s in night.sun.track.unix_s]
    with closing(load_file(str(files("skyfield_data") / "data" / "de421.bsp"))) as bodies:
        observer = bodies["earth"] + wgs84.latlon(SITE.latitude_deg, SITE.longitude_deg, SITE.elevation_m)
        targets = [bodies[_name(body)] for body in (Body.SUN, *TARGETS)]

        def sample() -> list[Any]:
            here = observer.at(timescale.from_datetimes(instants))
            return [here.observe(target).apparent().altaz() for target in targets]

        skyfield_s = best_of(3, sample)
        for body, (altitude, _, _) in zip((Body.SUN, *TARGETS), sample(), strict=True):
            track = night.sun.track if body is Body.SUN else night.of(body).track
            assert np.abs(track.altitude_deg - altitude.degrees).max() <= ALTITUDE_DEG

    assert benchmark.stats is not None
    benchmark.extra_info["times as fast as skyfield"] = round(skyfield_s / benchmark.stats.stats.min, 1)
    assert benchmark.stats.stats.min <= skyfield_s / 8.0


def _name(body: Body) -> str:
    outer = (Body.JUPITER, Body.SATURN, Body.URANUS, Body.NEPTUNE)
    return f"{body.value} barycenter" if body in outer else body.value


def test_the_steps_of_an_evening_follow_a_change_within_30_ms(benchmark: BenchmarkFixture) -> None:
    scope = Telescope(
        id="six", name="Six-inch", kind=TelescopeKind.REFLECTOR, aperture_mm=150, focal_length_mm=1200
    )
    choices = Choices(profile=Profile(sites=(SITE,), telescopes=(scope,)))
    now = datetime(2026, 12, 5, 16, 0, tzinfo=UTC)
    before = Situation(choices, now)
    assert before.evening_steps
    assert before.answer is not None
    ends = cycle([time(21, 0), time(22, 0)])

    def change_the_hours() -> None:
        hours = EveningHours(evening=EVENING, start=Twilight.DUSK, end=next(ends))
        after = Situation(choices.with_hours(EVENING, hours), now, before=before)
        assert after.evening_steps
        assert isinstance(after.notices, tuple)

    benchmark(change_the_hours)
    assert benchmark.stats is not None
    assert benchmark.stats.stats.min <= 0.030
