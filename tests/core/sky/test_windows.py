"""Windows: dark enough, high enough, not blocked; graded and split; edges to the second."""

from datetime import date, datetime, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.sky.bodies import FACTS, TARGETS, Body
from core.sky.night import BodyNight, Night, compute_night
from core.sky.site import BlockedSky, Site, WarmAir
from core.sky.why_not import WhyNot
from core.sky.windows import Grade
from core.words.why_not import why_not_words

SECOND = timedelta(seconds=1)
EVENING = date(2026, 12, 5)


def words_of(body: BodyNight) -> str | None:
    return None if body.why_not is None else why_not_words(body.body, body.why_not)


def terrace(*, blocked: tuple[BlockedSky, ...] = (), warm_air: tuple[WarmAir, ...] = ()) -> Site:
    return Site(
        name="Back terrace",
        latitude_deg=41.15,
        longitude_deg=-8.61,
        elevation_m=90.0,
        time_zone="Europe/Lisbon",
        blocked=blocked,
        warm_air=warm_air,
    )


def block(
    low_deg: float, high_deg: float, below_deg: float, what: str = "", *, heated: bool = False
) -> BlockedSky:
    return BlockedSky(
        azimuth_from_deg=low_deg,
        azimuth_to_deg=high_deg,
        below_altitude_deg=below_deg,
        what=what,
        heated=heated,
    )


def warm(low_deg: float, high_deg: float, below_deg: float, what: str = "") -> WarmAir:
    return WarmAir(azimuth_from_deg=low_deg, azimuth_to_deg=high_deg, below_altitude_deg=below_deg, what=what)


def hours(body: BodyNight) -> float:
    return sum((window.end - window.start).total_seconds() for window in body.windows) / 3600.0


@pytest.fixture(scope="module")
def open_night() -> Night:
    return compute_night(terrace(), EVENING)


def test_an_open_sky_gives_one_run_of_windows_from_dusk_to_the_lowest_useful_height(
    open_night: Night,
) -> None:
    saturn = open_night.of(Body.SATURN)

    assert [window.grade for window in saturn.windows] == [Grade.FAIR, Grade.BEST, Grade.FAIR, Grade.LOW]
    assert all(before.end == after.start for before, after in pairwise(saturn.windows))
    first, last = saturn.windows[0], saturn.windows[-1]
    # Saturn asks for the Sun below -4 degrees, and is left when it sinks to 10.
    assert open_night.position(Body.SUN, first.start).altitude_deg == pytest.approx(-4.0, abs=0.001)
    assert open_night.position(Body.SATURN, last.end).altitude_deg == pytest.approx(10.0, abs=0.001)
    assert saturn.windows[1].start == saturn.above_45[0].start
    assert saturn.windows[2].end == saturn.above_30[0].end
    assert saturn.why_not is None


def test_no_window_is_offered_while_the_sun_is_up(open_night: Night) -> None:
    sun = open_night.sun
    assert sun.set is not None
    assert sun.rise is not None

    for body in open_night.bodies:
        for window in body.windows:
            assert sun.set - SECOND <= window.start < window.end <= sun.rise + SECOND


def test_the_usual_darkness_can_be_changed(open_night: Night) -> None:
    darker = compute_night(terrace(), EVENING, dark_enough={Body.SATURN: -18.0})

    assert darker.of(Body.SATURN).windows[0].start == darker.sun.astronomical_dusk
    assert darker.of(Body.JUPITER).windows == open_night.of(Body.JUPITER).windows


def test_blocked_sky_cuts_a_hole_to_the_second() -> None:
    night = compute_night(terrace(blocked=(block(200.0, 230.0, 60.0, "roof ridge"),)), EVENING)
    saturn = night.of(Body.SATURN)
    (hidden,) = saturn.blocked

    assert hidden.what == "roof ridge"
    assert night.position(Body.SATURN, hidden.start).azimuth_deg == pytest.approx(200.0, abs=0.005)
    assert night.position(Body.SATURN, hidden.end).azimuth_deg == pytest.approx(230.0, abs=0.005)
    assert any(window.end == hidden.start for window in saturn.windows)
    assert any(window.start == hidden.end for window in saturn.windows)
    assert not any(window.start < hidden.end and window.end > hidden.start for window in saturn.windows)


def test_blocked_sky_is_told_in_daylight_too_but_only_with_the_body_up() -> None:
    night = compute_night(terrace(blocked=(block(0.0, 360.0, 90.0, "shed"),)), EVENING)

    for body in night.bodies:
        assert body.windows == ()
        # Behind a shed that hides the whole sky, a body is hidden for as long as it is up.
        assert body.blocked
        for span in body.blocked:
            middle = span.start + (span.end - span.start) / 2
            assert span.start in body.rises or span.start == night.start
            assert span.end in body.sets or span.end == night.end
            for time in (span.start + SECOND, middle, span.end - SECOND):
                assert night.position(body.body, time).altitude_deg > -34.0 / 60.0


def test_blocked_sky_counts_the_lift_of_the_air() -> None:
    night = compute_night(terrace(blocked=(block(180.0, 300.0, 12.0, "hill"),)), EVENING)
    (hidden,) = night.of(Body.SATURN).blocked
    position = night.position(Body.SATURN, hidden.start)

    assert position.apparent_altitude_deg == pytest.approx(12.0, abs=0.001)
    assert position.altitude_deg < 11.95


def test_blocked_sky_may_pass_through_north() -> None:
    # In the south, planets cross the meridian in the north.
    south = {"latitude_deg": -35.3, "longitude_deg": 149.1, "time_zone": "Australia/Sydney"}
    house = block(350.0, 20.0, 80.0, "house")
    night = compute_night(Site(name="South", blocked=(house,), **south), date(2026, 1, 10))  # type: ignore[arg-type]
    (hidden,) = night.of(Body.JUPITER).blocked

    assert night.position(Body.JUPITER, hidden.start).azimuth_deg == pytest.approx(20.0, abs=0.005)
    assert night.position(Body.JUPITER, hidden.end).azimuth_deg == pytest.approx(350.0, abs=0.005)
    assert hidden.start < night.of(Body.JUPITER).transits[0].time < hidden.end


def test_warm_air_is_marked_not_left_out(open_night: Night) -> None:
    night = compute_night(terrace(warm_air=(warm(205.0, 215.0, 80.0, "chimney"),)), EVENING)
    saturn = night.of(Body.SATURN)
    warmed = [window for window in saturn.windows if window.warm_air]

    assert {window.warm_air for window in warmed} == {"chimney"}
    assert night.position(Body.SATURN, warmed[0].start).azimuth_deg == pytest.approx(205.0, abs=0.005)
    assert night.position(Body.SATURN, warmed[-1].end).azimuth_deg == pytest.approx(215.0, abs=0.005)
    assert hours(saturn) == pytest.approx(hours(open_night.of(Body.SATURN)))
    assert saturn.blocked == ()


@pytest.mark.parametrize(("heated", "expected"), [(True, "roof"), (False, None)])
def test_a_heated_roof_warms_ten_degrees_above_it(heated: bool, expected: str | None) -> None:
    night = compute_night(terrace(blocked=(block(180.0, 300.0, 20.0, "roof", heated=heated),)), EVENING)
    last = night.of(Body.SATURN).windows[-1]

    assert last.warm_air == expected
    assert night.position(Body.SATURN, last.end).apparent_altitude_deg == pytest.approx(20.0, abs=0.001)
    if heated:
        start = night.position(Body.SATURN, last.start)
        assert start.apparent_altitude_deg == pytest.approx(30.0, abs=0.06)  # the band's top, or the grade's


def test_parts_of_the_sky_without_a_name_get_a_plain_one() -> None:
    night = compute_night(
        terrace(blocked=(block(180.0, 360.0, 20.0),), warm_air=(warm(0.0, 360.0, 90.0),)), EVENING
    )
    saturn = night.of(Body.SATURN)

    assert {span.what for span in saturn.blocked} == {"blocked sky"}
    assert {window.warm_air for window in saturn.windows} == {"warm air"}


def test_a_whole_sky_without_a_name_is_told_once() -> None:
    night = compute_night(terrace(blocked=(block(0.0, 360.0, 90.0),)), EVENING)

    assert words_of(night.of(Body.SATURN)) == "behind blocked sky whenever it is above 10° in a dark sky"


@pytest.mark.parametrize("latitude_deg", [-1.0, 41.0, 60.0])
def test_no_window_holds_a_moment_with_any_of_the_sun_up(latitude_deg: float) -> None:
    site = Site(name="There", latitude_deg=latitude_deg, longitude_deg=0.0, time_zone="Etc/UTC")
    night = compute_night(site, EVENING)
    edges = [edge for body in night.bodies for window in body.windows for edge in (window.start, window.end)]

    # The Sun's upper limb is gone at -50' (Astronomical Almanac).
    assert max(night.position(Body.SUN, edge).altitude_deg for edge in edges) < -50 / 60


@pytest.mark.parametrize(
    ("latitude_deg", "longitude_deg", "zone", "evening", "body", "kind", "words"),
    [
        (
            69.65, 18.96, "Europe/Oslo", date(2027, 11, 28), Body.VENUS, WhyNot.NEVER_UP,
            "never up, for it stays at least 4.5° below the horizon",
        ),
        (
            64.84, -147.72, "America/Anchorage", date(2016, 8, 16), Body.MERCURY, WhyNot.SUN_UP,
            "up only while the Sun is up too or the sky is still too bright",
        ),
        (
            60.0, 11.0, "Europe/Oslo", date(2026, 6, 21), Body.URANUS, WhyNot.NO_DARK_SKY,
            "never up in a dark sky, for the Sun gets 6.6° below the horizon at most, and Uranus needs 12°",
        ),
        (
            69.65, 18.96, "Europe/Oslo", date(2026, 6, 21), Body.JUPITER, WhyNot.NO_DARK_SKY,
            "always up, but never in a dark sky, for the Sun stays up",
        ),
        (
            56.5, -3.0, "Europe/London", date(2018, 7, 27), Body.MARS, WhyNot.TOO_LOW,
            "never above 8° in a dark sky",
        ),
    ],
)  # fmt: skip
def test_reasons_for_no_window_are_told_apart(
    latitude_deg: float, longitude_deg: float, zone: str, evening: date, body: Body, kind: WhyNot, words: str
) -> None:
    site = Site(name="There", latitude_deg=latitude_deg, longitude_deg=longitude_deg, time_zone=zone)
    night = compute_night(site, evening).of(body)

    assert night.windows == ()
    assert (night.why_not_kind, words_of(night)) == (kind, words)


def test_what_hides_a_body_all_night_is_named() -> None:
    walls = (block(90.0, 180.0, 70.0, "the house"), block(180.0, 300.0, 70.0, "the neighbours' trees"))
    saturn = compute_night(terrace(blocked=walls), EVENING).of(Body.SATURN)

    assert saturn.why_not_kind is WhyNot.BLOCKED
    assert words_of(saturn) == (
        "behind blocked sky (the house and the neighbours' trees) whenever it is above 10° in a dark sky"
    )


def test_a_low_body_wholly_behind_a_hill_is_told_as_blocked() -> None:
    site = Site(
        name="Valley", latitude_deg=56.5, longitude_deg=-3.0, time_zone="Europe/London",
        blocked=(block(90.0, 270.0, 15.0, "the hill"),),
    )  # fmt: skip
    mars = compute_night(site, date(2018, 7, 27)).of(Body.MARS)

    assert mars.why_not_kind is WhyNot.BLOCKED
    assert words_of(mars) == "behind blocked sky (the hill) whenever it is up in a dark sky"


SECTORS = st.tuples(st.floats(0.0, 360.0), st.floats(0.0, 360.0), st.floats(0.0, 90.0), st.booleans())


@settings(max_examples=25, deadline=None)
@given(
    st.floats(-75.0, 75.0),
    st.dates(date(2020, 1, 1), date(2035, 1, 1)),
    st.lists(SECTORS, max_size=3),
    st.lists(SECTORS, max_size=2),
)
def test_every_window_keeps_its_promises(
    latitude_deg: float,
    evening: date,
    blocked: list[tuple[float, float, float, bool]],
    warmed: list[tuple[float, float, float, bool]],
) -> None:
    site = Site(
        name="Anywhere",
        latitude_deg=latitude_deg,
        longitude_deg=0.0,
        time_zone="UTC",
        blocked=tuple(block(low, high, below, heated=heated) for low, high, below, heated in blocked),
        warm_air=tuple(warm(low, high, below) for low, high, below, _ in warmed),
    )
    night = compute_night(site, evening, targets=(Body.VENUS, Body.SATURN, Body.MOON))

    for body in night.bodies:
        assert (body.windows == ()) == (body.why_not_kind is not None) == (body.why_not is not None)
        assert all(before.end <= after.start for before, after in pairwise(body.windows))
        for window in body.windows:
            for time in (window.start + SECOND / 2, window.start + (window.end - window.start) / 2):
                check_promises(night, body.body, time, window.grade)


def check_promises(night: Night, body: Body, time: datetime, grade: Grade) -> None:
    position = night.position(body, time)
    sun = night.position(Body.SUN, time)

    assert night.start <= time < night.end
    assert sun.altitude_deg < FACTS[body].dark_enough_sun_altitude_deg + 0.01
    low_deg, high_deg = {Grade.LOW: (10, 30), Grade.FAIR: (30, 45), Grade.BEST: (45, 90)}[grade]
    assert low_deg - 0.01 <= position.altitude_deg <= high_deg + 0.01
    for part in night.site.blocked:
        width_deg = (part.azimuth_to_deg - part.azimuth_from_deg) % 360.0
        inside_deg = (position.azimuth_deg - part.azimuth_from_deg) % 360.0
        well_inside = 0.1 < inside_deg < width_deg - 0.1
        assert not (well_inside and position.apparent_altitude_deg < part.below_altitude_deg - 0.01)


def test_targets_come_in_the_order_asked() -> None:
    assert [body.body for body in compute_night(terrace(), EVENING).bodies] == list(TARGETS)
